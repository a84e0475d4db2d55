"""Jumpers, loose ends, splices, unknown parts, broken conductors: each looks like what it is."""

from __future__ import annotations

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.diagram import marks_on
from app.drawing.connection.loose_ends import RING
from app.drawing.connection.plan import plan_connection
from app.drawing.surface.recorder import Record
from app.drawing.surface.verbs import HEAVY, MARK, NOT_IN_USE, THIN
from app.job.model import Layout, UnknownEnd
from app.job.sketch import Parts, sketch
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import CATALOGUE
from tests.drawing.seen import Seen, crossings

BOARD = {"fb": "furnace-board", "tc": "thermostat-heat-cool-split"}


def drawn(layout: Layout, catalogue: Catalogue = CATALOGUE) -> Seen:
    return Seen(layout, catalogue)


def within(seen: Seen, name: str, value: str) -> list[Record]:
    """Return what lies in the group with this attribute."""
    return [record for record in seen.recorder.records if record.within(name) == value]


def words_of(records: list[Record]) -> list[str]:
    return [record.text.words for record in records if record.text is not None]


def mark_names(layout: Layout) -> list[str]:
    return [mark.name for mark in marks_on(plan_connection(layout, CATALOGUE), CATALOGUE, None)]


def jumper_of(seen: Seen) -> tuple[Record, list[Record]]:
    (group,) = [r for r in seen.recorder.drawn("begin") if "data-jumper" in r.attributes]
    return group, within(seen, "data-jumper", group.attributes["data-jumper"])


def test_a_fitted_jumper_joins_its_screws_inside_the_box() -> None:
    layout = sketch(BOARD)
    group, inside = jumper_of(drawn(layout))
    (line,) = [record for record in inside if record.verb == "line"]
    box = plan_connection(layout, CATALOGUE).boxes["tc"]
    rows = sorted((box.screws["RH"].at.y, box.screws["RC"].at.y))
    assert group.attributes["data-state"] == "fitted"
    assert [point.y for point in line.points] == [rows[0], rows[0], rows[1], rows[1]]
    assert all(box.box.x < point.x < box.box.right for point in line.points)
    assert "jumper-fitted" in mark_names(layout)


def test_a_removed_jumper_leaves_a_gap_two_dots_and_the_word() -> None:
    (name,) = CATALOGUE.kind("thermostat-heat-cool-split").jumpers
    layout = sketch({**BOARD, "tc": {"kind": "thermostat-heat-cool-split", "settings": {name: "removed"}}})
    group, inside = jumper_of(drawn(layout))
    assert group.attributes["data-state"] == "removed"
    assert words_of(inside) == ["removed"]
    dots = [record for record in inside if record.verb == "circle" and record.pen is None]
    lines = [record for record in inside if record.verb == "line"]
    assert len(dots) == len(lines) == 2
    assert {line.points[-1] if line is lines[0] else line.points[0] for line in lines} == {d.points[0] for d in dots}
    assert "jumper-removed" in mark_names(layout)


def test_an_end_landed_nowhere_is_an_open_ring_at_its_conductor_with_words() -> None:
    layout = sketch(BOARD, "fb.C -")
    seen = drawn(layout)
    end = within(seen, "data-end", "w1.1")
    (ring,) = [record for record in end if record.verb == "circle"]
    assert (ring.radius, ring.pen) == (6, THIN)
    assert words_of(end) == ["not landed"]
    screw = seen.plan.boxes["fb"].screws["C"].at
    assert ring.points[0].y == screw.y
    assert 0 < abs(ring.points[0].x - screw.x) <= 96
    assert seen.wires()[0].pen == NOT_IN_USE


def test_an_end_not_seen_is_a_question_mark_with_what_is_known() -> None:
    layout = Layout.model_validate(
        {
            **sketch(BOARD).model_dump(),
            "conductors": {"w1": {"ends": [{"unknown": "behind the drywall"}, "fb.C"]}},
        }
    )
    end = within(drawn(layout), "data-end", "w1.0")
    assert words_of(end)[0] == "?"
    assert "behind" in words_of(end)[1]
    assert [record for record in end if record.verb == "circle"] == []


def test_a_spare_lies_below_the_parts_with_both_ends_open() -> None:
    seen = drawn(sketch(BOARD, "- -"))
    (wire,) = seen.wires()
    assert wire.pen == NOT_IN_USE
    assert wire.points[0].y == wire.points[-1].y
    assert all(wire.points[0].y > part.box.bottom for part in seen.plan.boxes.values())
    for number in (0, 1):
        assert [r.radius for r in within(seen, "data-end", f"w1.{number}") if r.verb == "circle"] == [6]


def test_a_conductor_landed_at_both_ends_is_a_whole_line() -> None:
    seen = drawn(sketch(BOARD, "fb.R tc.RH"))
    assert [record.pen for record in seen.wires()] == [THIN]


def test_where_lanes_part_stands_a_dot() -> None:
    seen = drawn(sketch(BOARD, "fb.R tc.RH", "fb.R tc.RC", "fb.R tc.G"))
    joints = [record for record in seen.recorder.drawn("circle") if record.attributes.get("class") == "joint"]
    assert len(joints) == 2
    assert {record.within("data-terminal") for record in joints} == {"fb.R"}
    assert "joint" in mark_names(sketch(BOARD, "fb.R tc.RH", "fb.R tc.RC"))
    assert "joint" not in mark_names(sketch(BOARD, "fb.R tc.RH"))


def test_a_splice_is_a_dot_in_a_small_box_that_conductors_leave_on_both_sides() -> None:
    at = {"fb": (108, 36), "tc": (1200, 36), "sp": (660, 600)}
    kinds = {**BOARD, "sp": "splice"}
    seen = drawn(sketch({name: {"kind": kinds[name], "at": at[name]} for name in kinds}, "fb.R sp.1", "sp.1 tc.RH"))
    splice = seen.plan.boxes["sp"]
    centre = splice.screws["1"].at
    assert splice.box.x < centre.x < splice.box.right
    assert any(r.verb == "circle" and r.pen is None and r.points == (centre,) for r in within(seen, "data-part", "sp"))
    ends = {landing.edge.x for landing in seen.plan.landings.values() if landing.screw == centre}
    assert ends == {splice.box.x, splice.box.right}


def test_a_conductor_comes_to_a_splice_from_the_side_with_fewer_bends() -> None:
    under_the_board: Parts = {**BOARD, "sp": {"kind": "splice", "at": (360, 600)}}
    seen = drawn(sketch(under_the_board, "fb.R sp.1", "sp.1 tc.RH"))
    centre = seen.plan.boxes["sp"].screws["1"].at
    assert {landing.side for landing in seen.plan.landings.values() if landing.screw == centre} == {"right"}
    assert max(len(seen.plan.courses[wire].pieces[0]) - 2 for wire in ("w1", "w2")) <= 4


def test_a_part_of_unknown_kind_has_a_dashed_box_and_says_so() -> None:
    seen = drawn(sketch({"fb": "furnace-board", "q": "unknown"}, "fb.R q.A", "q.B -"))
    (box,) = [record for record in within(seen, "data-part", "q") if record.verb == "rect"]
    assert box.pen == NOT_IN_USE
    assert "kind not known" in words_of(within(seen, "data-part", "q"))
    assert {"A", "B"} <= set(words_of(within(seen, "data-part", "q")))


def test_where_an_unseen_end_goes_is_written_whole_where_there_is_room() -> None:
    where = "behind the plaster of the stairs"
    layout = sketch(BOARD, "fb.R ?")
    (wire,) = layout.conductors
    ends = (layout.conductors[wire].ends[0], UnknownEnd(unknown=where))
    told = layout.conductors[wire].model_copy(update={"ends": ends})
    seen = drawn(layout.model_copy(update={"conductors": {wire: told}}))
    assert f"not seen: {where}" in words_of(within(seen, "data-conductor", wire))


def walled_in() -> Layout:
    """Return a layout with more conductors on one side of a part than lanes lead out past a wall of others."""
    wall = {f"b{number}": {"kind": "terminal-strip", "at": (420, 408 * number)} for number in range(3)}
    right = [letter for letter, t in CATALOGUE.kind("terminal-strip").terminals.items() if t.side == "right"]
    parts: Parts = {
        "a": {"kind": "terminal-strip", "at": (0, 0)},
        **wall,
        "c": {"kind": "terminal-strip", "at": (900, 0)},
    }
    return sketch(parts, *(f"a.{letter} c.{letter}" for letter in right * 20))


def test_a_conductor_without_a_way_says_at_both_ends_where_it_goes_on() -> None:
    layout = walled_in()
    seen = drawn(layout)
    broken = [name for name, course in seen.plan.courses.items() if course.broken]
    assert broken
    assert "continued" in mark_names(layout)
    for name in broken:
        ends = layout.conductors[name].ends
        for number in (0, 1):
            (label,) = words_of(within(seen, "data-end", f"{name}.{number}"))
            assert label.endswith(f"to {ends[1 - number]}")
        tips = [r for r in within(seen, "data-conductor", name) if r.attributes.get("class") == "goes-on"]
        assert len(tips) == 2


def test_the_legend_lists_the_marks_in_use_and_no_other() -> None:
    assert mark_names(sketch({"fb": "furnace-board"})) == []
    assert mark_names(sketch(BOARD, "- -")) == ["spare", "jumper-fitted"]
    seen = drawn(sketch(BOARD, "fb.R tc.RH", "fb.C -"))
    assert seen.groups("data-mark") == ["conductor-for", "not-in-use", "not-landed", "jumper-fitted"]


def test_only_hot_and_carrying_is_heavy() -> None:
    seen = drawn(sketch(BOARD, "fb.R tc.RH", "fb.C -"))
    wires = [record for record in seen.recorder.drawn("line") if record.within("data-conductor")]
    assert HEAVY not in {record.pen for record in wires}


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_the_legend_of_every_demo_lists_what_can_be_seen_and_no_other(name: str, layout: str) -> None:
    opened = demo(name)
    shown = opened.job.layouts[layout]
    circuit = build_circuit(shown, opened.catalogue)
    last = situations_of(shown, opened.catalogue)[-1]
    for point in (None, solve(circuit, last)):
        seen = Seen(shown, opened.catalogue, point)
        assert set(seen.groups("data-mark")) == read_off(seen), point and last


def read_off(seen: Seen) -> set[str]:
    """Return which marks stand on a drawing, read off what was drawn."""
    found = {f"jumper-{state}" for state in seen.groups("data-state")}
    found |= {state for state in seen.groups("data-live") if state in ("hot", "carrying")}
    for wire in seen.wires():
        landed = [end for end in ends_of(seen, wire.within("data-conductor")) if end]
        found.add("spare" if not landed else "not-in-use" if len(landed) == 1 else "conductor-for")
        if len(landed) == 1:
            end = [r for r in seen.recorder.records if r.within("data-conductor") == wire.within("data-conductor")]
            found |= {"not-seen" for r in end if r.attributes.get("class") == "unknown"}
            found |= {"not-landed" for r in end if r.verb == "circle" and r.radius == RING}
    found |= {"crossing" for _ in range(crossings(seen))}
    for record in seen.recorder.records:
        found |= {"joint", "goes-on", "volts"} & {record.attributes.get("class")}
        in_part, on_screw = record.within("data-part"), record.within("data-terminal")
        if in_part and not on_screw and record.verb == "rect" and record.pen == NOT_IN_USE:
            found.add("part-unknown")
        if on_screw and record.verb == "circle" and record.pen is None and record.attributes.get("class") != "joint":
            found.add("splice")
        if on_screw and record.verb == "line" and record.attributes.get("class") != "joint" and record.pen == MARK:
            found.add("opaque")
    return found


def ends_of(seen: Seen, wire: str | None) -> list[str]:
    """Return where the two ends of a conductor are landed, as its drawing says it."""
    groups = [record.attributes for record in seen.recorder.drawn("begin")]
    return [group["data-landed"] for group in groups if group.get("data-end", "").split(".")[0] == wire]


def test_screws_behind_which_nothing_is_computed_have_two_strokes() -> None:
    layout = sketch({"mt": "millivolt-thermostat", "fb": "furnace-board"}, "mt.T1 fb.R")
    seen = drawn(layout)
    struck = {r.within("data-terminal") for r in seen.recorder.drawn("line") if r.within("data-terminal") and r.pen ==
              MARK}  # fmt: skip
    assert struck == {"mt.T1", "mt.T2"}
    assert "opaque" in mark_names(layout)
    assert "opaque" not in mark_names(sketch(BOARD, "fb.R tc.RH"))
