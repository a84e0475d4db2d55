"""Insides: what is drawn in a box is read back as a circuit and held against the kind; nothing lies on anything."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import Any

import pytest

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Ground, Kind, Opaque
from app.catalogue.reading import kind_from
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.diagram import draw_connection, marks_on
from app.drawing.connection.inside.draw_inside import draw_inside
from app.drawing.connection.inside.laying import LaidInside, lay_inside
from app.drawing.connection.part_box import jumpers_at_screws
from app.drawing.connection.plan import plan_connection
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import HEAVY, THIN, Text
from app.drawing.symbols.choosing import symbol_of
from app.drawing.symbols.symbol import HALF, LONG
from app.job.model import Layout, Part
from app.job.sketch import sketch
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout, job_of
from tests.drawing.seen import RULES, Seen

KINDS = sorted(name for name in CATALOGUE if CATALOGUE.kind(name).elements)
BY_CHANCE = [(seed, 8 + 5 * seed) for seed in range(4)]


def chain(**between: tuple[str, str]) -> dict[str, Any]:
    """Return the text of a kind with loads between nodes; capital letters are terminals."""
    nodes = dict.fromkeys(node for pair in between.values() for node in pair if node.isupper())
    return {
        "title": "A kind for a test",
        "summary": "Loads between nodes.",
        "terminals": {node: {"function": "through", "use": node} for node in nodes},
        "elements": {name: {"is": "load", "between": list(pair), "va": 1.0} for name, pair in between.items()},
    }


TANGLES = {
    "two in parallel": chain(a=("A", "n"), b=("n", "m"), c=("n", "m"), d=("m", "B")),
    "a bridge": chain(a=("A", "n"), b=("A", "m"), c=("n", "m"), d=("n", "B"), e=("m", "B")),
    "a star": chain(a=("A", "n"), b=("B", "n"), c=("C", "n"), d=("D", "n"), e=("E", "n")),
    "a ring within": chain(a=("A", "n"), b=("n", "m"), c=("m", "k"), d=("k", "n")),
    "a ring with no way out": chain(z=("A", "B"), b=("n", "m"), c=("m", "k"), d=("k", "n")),
    "branches on a branch": chain(
        a=("A", "n"), b=("n", "B"), c=("n", "m"), d=("m", "C"), e=("m", "k"), f=("k", "D"), g=("k", "E")
    ),
    "branches to both sides": chain(a=("A", "n"), b=("n", "m"), c=("m", "B"), d=("n", "C"), e=("D", "m")),
    "a long ladder": chain(
        **{f"r{n}": (f"n{n}", f"n{n + 1}") for n in range(14)},
        **{f"s{n}": (f"m{n}", f"m{n + 1}") for n in range(14)},
        **{f"t{n}": (f"n{n}", f"m{n}") for n in range(15)},
        a=("A", "n0"),
        b=("m14", "B"),
    ),
}
TRACES: dict[str, Any] = chain(a=("n", "A"), b=("X", "Y"))
TRACES["elements"] = {
    "first": {"is": "trace", "between": ["n", "X"]},
    "second": {"is": "trace", "between": ["n", "Y"]},
    **TRACES["elements"],
}
TANGLES["two traces from one inner node"] = TRACES

ALL = {
    **{name: CATALOGUE.kind(name) for name in KINDS},
    **{name: kind_from("x", said) for name, said in TANGLES.items()},
}


class Inside:
    """The inside of one kind, as it is drawn."""

    def __init__(self, kind: Kind, point: OperatingPoint | None = None) -> None:
        self.kind = kind
        self.hidden = tuple(jumpers_at_screws(kind))
        laid = lay_inside(kind, self.hidden, 0)
        assert laid is not None
        self.laid: LaidInside = laid
        self.recorder = Recorder()
        draw_inside(self.recorder, "p", kind, laid, point)
        self.wires = [r for r in self.recorder.drawn("line") if r.attributes.get("class") == "inner"]
        self.names = [r for r in self.recorder.drawn("text") if r.attributes.get("class") == "node"]

    def symbols(self) -> Iterator[tuple[list[str], Point]]:
        """Yield the elements of each symbol with its left connection point: where its first lead begins."""
        for record in self.recorder.drawn("line"):
            element = record.within("data-element")
            if element is not None and record is self._first_line(element):
                yield [each.removeprefix("p.") for each in element.split(" ")], record.points[0]

    def _first_line(self, element: str) -> Record:
        return next(r for r in self.recorder.drawn("line") if r.within("data-element") == element)


def on(point: Point, wire: Record) -> bool:
    """Return whether a point lies on a line of level and upright pieces."""
    return any(
        min(a.x, b.x) <= point.x <= max(a.x, b.x) and min(a.y, b.y) <= point.y <= max(a.y, b.y)
        for a, b in pairwise(wire.points)
    )


def nets(inside: Inside) -> list[set[int]]:
    """Return the lines that join: those with an end on another, at an end of it or at a joint that is drawn."""
    dots = {r.points[0] for r in inside.recorder.drawn("circle") if r.attributes.get("class") == "joint"}
    groups = [{number} for number in range(len(inside.wires))]
    for one, other in combinations(range(len(inside.wires)), 2):
        mine, others = inside.wires[one], inside.wires[other]
        ends = {mine.points[0], mine.points[-1]} & {others.points[0], others.points[-1]}
        if ends or any(on(dot, mine) and on(dot, others) for dot in dots):
            first = next(g for g in groups if one in g)
            second = next(g for g in groups if other in g)
            if first is not second:
                first |= second
                groups.remove(second)
    return groups


def drawn_circuit(inside: Inside) -> list[set[str]]:
    """Return the elements on each node, read from what is drawn: ends on one net of lines, and nets of one name.

    A name of several terminals at a join of several traces gives each trace its own, in their order.
    """
    groups = nets(inside)
    on_net: dict[int, set[str]] = {}
    by_name: dict[str, set[str]] = {}
    after: dict[int, list[str]] = {}
    for elements, at in inside.symbols():
        for point in (at, Point(at.x + LONG, at.y)):
            net = net_at(point, inside, groups)
            if net is not None:
                on_net.setdefault(net, set()).update(elements)
        if net is not None:
            after[net] = elements
    for record in inside.names:
        assert record.text is not None
        net = net_at(beside(record.text, inside), inside, groups)
        assert net is not None, record.text.words
        names = letters_in(record.text.words, inside.kind)
        single = len(names) == 1 or len(after[net]) == 1
        for number, name in enumerate(names):
            by_name.setdefault(name, set()).update(on_net[net] if single else {after[net][number]})
    named = {net_at(beside(r.text, inside), inside, groups) for r in inside.names if r.text is not None}
    return [*by_name.values(), *(ends for net, ends in on_net.items() if net not in named)]


def net_at(point: Point, inside: Inside, groups: list[set[int]]) -> int | None:
    """Return the net whose lines run through a point."""
    return next((n for n, g in enumerate(groups) if any(on(point, inside.wires[w]) for w in g)), None)


def beside(text: Text, inside: Inside) -> Point:
    """Return the point of a line at which a name stands: before it, after it, or in the middle above it."""
    x = text.at.x + {"start": -4, "middle": 0, "end": 4}[text.anchor]
    nearest = (Point(x, text.at.y - dy) for dy in range(24))
    return next(point for point in nearest if any(on(point, wire) for wire in inside.wires))


def nodes_of(inside: Inside) -> Iterator[tuple[str, str]]:
    """Yield each node of a kind with each element that hangs on it."""
    for name, element in inside.kind.elements.items():
        if name not in inside.hidden:
            nodes = (
                element.nodes
                if isinstance(element, Opaque)
                else (element.at,)
                if isinstance(element, Ground)
                else element.between
            )
            yield from ((node, name) for node in nodes)


@pytest.mark.parametrize("name", ALL)
def test_every_element_stands_there_once_with_its_symbol(name: str) -> None:
    inside = Inside(ALL[name])
    drawn = [element for elements, _ in inside.symbols() for element in elements]
    assert sorted(drawn) == sorted(set(inside.kind.elements) - set(inside.hidden))
    for record in inside.recorder.drawn("begin"):
        if "data-symbol" in record.attributes:
            elements = (record.groups[-1]["data-element"]).split(" ")
            for element in elements:
                said = symbol_of(inside.kind.elements[element.removeprefix("p.")], inside.kind).name
                assert record.attributes["data-symbol"] == said


@pytest.mark.parametrize("name", ALL)
def test_what_is_drawn_is_the_circuit_of_the_kind(name: str) -> None:
    """Two ends are on one net, by lines or by one name, exactly when the kind has them at one node."""
    inside = Inside(ALL[name])
    meant: dict[str, set[str]] = {}
    for node, element in nodes_of(inside):
        meant.setdefault(node, set()).add(element)
    assert sorted(map(sorted, drawn_circuit(inside))) == sorted(map(sorted, meant.values()))


def letters_in(words: str, kind: Kind) -> list[str]:
    """Return the terminals that a name at the end of a line says, or the words of the inner node."""
    letters = words.split(" ")
    return letters if all(letter in kind.terminals for letter in letters) else [words]


@pytest.mark.parametrize("name", ALL)
def test_nothing_inside_lies_on_anything(name: str) -> None:
    inside = Inside(ALL[name])
    texts = [box_of_text(r.text) for r in inside.recorder.drawn("text") if r.text is not None]
    for one, other in combinations(texts, 2):
        assert not one.overlaps(other)
    symbols = [Box(at.x, at.y - HALF // 2, LONG, HALF) for _, at in inside.symbols()]
    for one, other in combinations(symbols, 2):
        assert not one.overlaps(other)
    for wire in inside.wires:
        for a, b in pairwise(wire.points):
            piece = Box(min(a.x, b.x), min(a.y, b.y), max(1, abs(a.x - b.x)), max(1, abs(a.y - b.y)))
            assert not [box for box in texts if box.grown(0, -3, 0, -3).overlaps(piece)]
            assert not [box for box in symbols if box.overlaps(piece)]
    bounds = inside.recorder.bounds()
    assert bounds is not None
    room = Box(0, 0, inside.laid.width, inside.laid.height)
    assert room.x <= bounds.x
    assert bounds.right <= room.right
    assert room.y - 2 <= bounds.y
    assert bounds.bottom <= room.bottom + 2


def seen_with_insides(layout: Layout, catalogue: Catalogue, point: OperatingPoint | None = None) -> Seen:
    return Seen(layout, catalogue, point, insides=True)


def broken_rules(seen: Seen) -> dict[str, list[str]]:
    return {rule.__name__: found for rule in RULES if (found := rule(seen))}


@pytest.mark.parametrize(
    ("name", "layout"),
    [pytest.param(*pair, id="-".join(pair)) for pair in layouts() if not pair[0].startswith("school")],
)
def test_demos_with_insides_keep_the_hard_rules_and_all_lies_in_its_box(name: str, layout: str) -> None:
    opened = demo(name)
    chosen = opened.job.layouts[layout]
    point = solve(build_circuit(chosen, opened.catalogue), situations_of(chosen, opened.catalogue)[-1])
    seen = seen_with_insides(chosen, opened.catalogue, point)
    assert broken_rules(seen) == {}
    for record in seen.recorder.records:
        part, bounds = record.within("data-inside"), record.bounds()
        if part is not None and bounds is not None:
            box = seen.plan.boxes[part].box
            assert box.x < bounds.x
            assert box.y < bounds.y
            assert bounds.right < box.right
            assert bounds.bottom < box.bottom


@pytest.mark.parametrize(("seed", "parts"), [pytest.param(*p, id=f"seed-{p[0]}-of-{p[1]}-parts") for p in BY_CHANCE])
def test_layouts_by_chance_with_insides_keep_the_hard_rules(seed: int, parts: int) -> None:
    assert broken_rules(seen_with_insides(generated_layout(seed, parts), CATALOGUE)) == {}


LAYOUT = sketch(
    {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-only"},
    "xf.R fb.XF",
    "xf.C fb.XC",
    "fb.R tc.R",
    "fb.W tc.W",
)


def states_in(seen: Seen) -> dict[str, str]:
    """Return the state of each element that shows one."""
    return {
        record.groups[-1]["data-element"]: record.attributes["data-state"]
        for record in seen.recorder.drawn("begin")
        if "data-state" in record.attributes and "data-symbol" in record.attributes
    }


@pytest.mark.parametrize("situation", [Situation(), Situation(calls={"tc": ("heat-1",)})], ids=["idle", "heat"])
def test_each_element_shows_the_state_that_it_has(situation: Situation) -> None:
    point = solve(build_circuit(LAYOUT, CATALOGUE), situation)
    shown = states_in(seen_with_insides(LAYOUT, CATALOGUE, point))
    said = {name: state.state for name, state in point.elements.items() if state.state}
    assert shown == said
    assert states_in(seen_with_insides(LAYOUT, CATALOGUE)) == {}


def test_lines_are_heavy_as_far_as_the_supply_reaches() -> None:
    """The burner chain is hot up to the contact that is open."""
    point = solve(build_circuit(LAYOUT, CATALOGUE), Situation(calls={"tc": ("heat-1",)}, set={"fb.rollout": "open"}))
    seen = seen_with_insides(LAYOUT, CATALOGUE, point)
    leads: dict[str, list[Any]] = {}
    for record in seen.recorder.drawn("line"):
        element = record.within("data-element")
        if element is not None:
            leads.setdefault(element, []).append(record.pen)
    assert leads["fb.limit_c"][:2] == [HEAVY, HEAVY]
    assert leads["fb.rollout_c"][:2] == [HEAVY, THIN]
    assert leads["fb.pressure_c"][:2] == [THIN, THIN]
    assert leads["fb.board"][:2] == [HEAVY, THIN]
    assert leads["xf.secondary"][:2] == [THIN, HEAVY]


def test_the_legend_says_how_to_read_what_is_inside() -> None:
    point = solve(build_circuit(LAYOUT, CATALOGUE), Situation())
    plan = plan_connection(LAYOUT, CATALOGUE, insides=True)
    said = [mark.name for mark in marks_on(plan, CATALOGUE, point) if mark.name.startswith("inside-")]
    assert said == ["inside-node", "inside-switch", "inside-acting"]
    assert "inside-acting" not in [mark.name for mark in marks_on(plan, CATALOGUE, None)]
    bare = plan_connection(LAYOUT, CATALOGUE)
    assert not [mark.name for mark in marks_on(bare, CATALOGUE, point) if mark.name.startswith("inside-")]


def test_without_insides_no_box_has_room_for_them() -> None:
    plain, wide = plan_connection(LAYOUT, CATALOGUE), plan_connection(LAYOUT, CATALOGUE, insides=True)
    assert all(box.inside is None for box in plain.boxes.values())
    assert all(wide.boxes[name].box.w > box.box.w for name, box in plain.boxes.items())


def test_parts_with_nothing_inside_stay_as_they_are() -> None:
    layout = sketch({"s": "splice", "ts": "terminal-strip", "u": "unknown"}, "s.1 ts.1", "ts.2 u.A")
    plain, wide = plan_connection(layout, CATALOGUE), plan_connection(layout, CATALOGUE, insides=True)
    assert {n: b.box[2:] for n, b in plain.boxes.items()} == {n: b.box[2:] for n, b in wide.boxes.items()}


def test_insides_are_the_same_bytes_every_time_and_colour_free() -> None:
    job = job_of(generated_layout(3, 20))
    drawing = draw_connection(job, "as-left", CATALOGUE, insides=True)
    assert drawing == draw_connection(job, "as-left", CATALOGUE, insides=True)
    assert "data-element=" in drawing
    assert "style=" not in drawing


def test_another_kind_of_the_same_name_has_its_own_inside() -> None:
    layout = Layout(parts={"p": Part(kind="x")})
    for said in TANGLES.values():
        kind = kind_from("x", said)
        drawn = plan_connection(layout, Catalogue({"x": kind}), insides=True).boxes["p"].inside
        assert drawn is not None
        assert {element for cell in drawn.cells for element in cell.elements} == set(kind.elements)


def test_inside_a_part_things_have_the_names_that_charts_and_ladders_give_them() -> None:
    layout = Layout.model_validate({"parts": {"ou": {"kind": "heat-pump-unit"}}})
    texts = seen_with_insides(layout, CATALOGUE).texts
    words = [record.text.words for record in texts if record.text is not None]
    assert {"compressor call", "off time over", "reversing valve call"} <= set(words)
    # Where there is no room for the long name, the one in the kind is whole.
    assert "high pressure" in words
    assert [each for each in words if "…" in each] == []
