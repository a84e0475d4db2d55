"""What an operating point adds to a drawing: weight, arrowheads, volts, what runs."""

from __future__ import annotations

import itertools

import pytest

from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.live import arrowheads
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import HEAVY, THIN
from app.job.model import Layout
from app.job.sketch import sketch
from tests.demo_jobs.demos import demo
from tests.drawing.generated import CATALOGUE
from tests.drawing.seen import Seen

LAYOUT = sketch(
    {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool", "ou": "condensing-unit"},
    "xf.R fb.XF",
    "xf.C fb.XC",
    "fb.R tc.R",
    "fb.Y tc.Y",
    "fb.G tc.G",
    "fb.W tc.W",
    "fb.Y ou.Y",
    "fb.C ou.C",
    "- -",
)


def point_of(layout: Layout, *calls: str) -> OperatingPoint:
    """Return what the circuit does while the thermostat makes these calls."""
    situation = Situation.model_validate({"calls": {"tc": calls}} if calls else {})
    return solve(build_circuit(layout, CATALOGUE), situation)


def live(seen: Seen) -> dict[str, str]:
    groups = [record.attributes for record in seen.recorder.drawn("begin")]
    return {group["data-conductor"]: group["data-live"] for group in groups if "data-live" in group}


def heads(seen: Seen, name: str) -> list[tuple[Point, ...]]:
    return [r.points for r in seen.recorder.drawn("shape") if r.within("data-conductor") == name]


def test_without_a_point_nothing_is_live() -> None:
    seen = Seen(LAYOUT, CATALOGUE)
    assert live(seen) == {}
    assert seen.groups("data-volts") == []


def test_at_rest_the_supply_is_hot_and_waits() -> None:
    seen = Seen(LAYOUT, CATALOGUE, point_of(LAYOUT))
    assert live(seen)["w3"] == "hot"
    assert live(seen)["w7"] == "cold"
    assert live(seen)["w9"] == "floating"


def test_a_call_carries_to_the_load_and_back() -> None:
    seen = Seen(LAYOUT, CATALOGUE, point_of(LAYOUT, "cool-1"))
    states = live(seen)
    assert {states[name] for name in ("w1", "w2", "w3", "w4", "w7", "w8")} == {"carrying"}
    assert states["w6"] == "cold"


def test_weight_follows_the_state() -> None:
    point = point_of(LAYOUT, "cool-1")
    seen = Seen(LAYOUT, CATALOGUE, point)
    states = live(seen)
    for record in seen.wires():
        name = record.within("data-conductor")
        assert name is not None
        assert (record.pen == HEAVY) == (states[name] in ("hot", "carrying"))


@pytest.mark.parametrize("call", ["cool-1", "heat-1"])
def test_heads_point_the_way_that_power_goes(call: str) -> None:
    point = point_of(LAYOUT, call)
    seen = Seen(LAYOUT, CATALOGUE, point)
    for name, state in point.conductors.items():
        found = heads(seen, name)
        assert bool(found) == (state.toward is not None), name
        path = seen.plan.courses[name].pieces[0]
        for tip, left, right in found:
            back = Point((left.x + right.x) // 2, (left.y + right.y) // 2)
            along = position(path, tip) - position(path, back)
            assert (along > 0) == (state.toward == 1), name


def position(path: tuple[Point, ...], point: Point) -> int:
    """Return how far along a path a point of it lies."""
    passed = 0
    for a, b in itertools.pairwise(path):
        if min(a.x, b.x) <= point.x <= max(a.x, b.x) and min(a.y, b.y) <= point.y <= max(a.y, b.y):
            return passed + abs(point.x - a.x) + abs(point.y - a.y)
        passed += abs(a.x - b.x) + abs(a.y - b.y)
    raise AssertionError(f"{point} is not on the path")


def test_heads_stay_off_what_lies_beside_labels() -> None:
    path = (Point(0, 0), Point(300, 0))
    found = list(arrowheads(path, 84, 60))
    assert found
    assert all(84 <= corner.x <= 240 for head in found for corner in head)
    assert list(arrowheads(path, 150, 150)) == []


def test_a_long_piece_has_a_head_every_so_often() -> None:
    assert len(list(arrowheads((Point(0, 0), Point(0, 960)), 0, 0))) == 10


def test_volts_stand_at_each_screw_and_floating_is_never_zero() -> None:
    point = point_of(LAYOUT, "cool-1")
    seen = Seen(LAYOUT, CATALOGUE, point)
    shown = {
        record.attributes["data-volts"]: record.text.words
        for record in seen.texts
        if "data-volts" in record.attributes and record.text is not None
    }
    landed = {terminal for conductor in LAYOUT.conductors.values() for terminal in conductor.landed()}
    assert landed <= set(shown)
    for terminal, words in shown.items():
        volts = point.terminals[terminal].volts
        assert words == ("floating" if volts is None else f"{abs(volts):.1f} V")


def test_what_runs_stands_in_the_box_of_its_part() -> None:
    seen = Seen(LAYOUT, CATALOGUE, point_of(LAYOUT, "cool-1"))
    runs = {
        record.attributes["data-runs"]: record.text.words
        for record in seen.texts
        if "data-runs" in record.attributes and record.text is not None
    }
    assert "compressor" in runs["ou"]
    assert "indoor fan" in runs["fb"]


def test_a_situation_moves_nothing() -> None:
    seen, lit = Seen(LAYOUT, CATALOGUE), Seen(LAYOUT, CATALOGUE, point_of(LAYOUT, "cool-1"))
    assert seen.plan == lit.plan
    assert {record.pen for record in seen.wires() if record.within("data-conductor") != "w9"} == {THIN}


@pytest.mark.parametrize("name", ["post-office-dual-fuel", "bakery-flat-heat-pump", "ropewalk-millivolt-heater"])
def test_neither_volts_nor_what_runs_is_ever_cut(name: str) -> None:
    opened = demo(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    circuit = build_circuit(layout, opened.catalogue)
    for situation in situations_of(layout, opened.catalogue)[:16]:
        seen = Seen(layout, opened.catalogue, solve(circuit, situation))
        said = [
            record.text.words
            for record in seen.texts
            if record.text is not None and record.attributes.get("class") in ("volts", "runs")
        ]
        assert said
        assert not [words for words in said if "…" in words]


def test_volts_keep_off_the_far_edge_of_a_narrow_box() -> None:
    layout = sketch({"xf": "control-transformer", "hu": "humidifier"}, "xf.R hu.H", "xf.C hu.C")
    seen = Seen(layout, CATALOGUE, point_of(layout))
    for record in seen.texts:
        part = record.within("data-part")
        if part is not None and record.attributes.get("class") == "volts" and record.text is not None:
            box, words = seen.plan.boxes[part].box, box_of_text(record.text)
            assert box.x + 24 <= words.x
            assert words.right <= box.right - 36
