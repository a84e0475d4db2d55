"""A live ladder shows what the operating point says: what works, what carries and which way, where a rung stops."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.live import Live
from app.drawing.surface.verbs import HEAVY
from app.job.model import Layout
from tests.demo_jobs.demos import SOUND, demo
from tests.drawing.ladder.seen import SeenLadder

CATALOGUE = builtin_catalogue()
SMALL_ONES = [name for name in SOUND if len(demo(name).job.layouts[demo(name).job.default_layout()].parts) < 12]


def default(name: str) -> Layout:
    """Return the layout of a demo that is meant by default."""
    return demo(name).job.layouts[demo(name).job.default_layout()]


def looked_at(layout: Layout, situation: Situation, catalogue: object = CATALOGUE) -> Live:
    """Return a situation looked at along the rungs."""
    point = solve(build_circuit(layout, CATALOGUE), situation)
    return Live(ladder_of(layout, CATALOGUE), layout, point)


@pytest.mark.parametrize("name", SMALL_ONES)
def test_a_load_works_or_its_rung_stops_somewhere(name: str) -> None:
    """A load that is off though its own way back is sound has an open contact before it, or nothing landed."""
    layout = default(name)
    for situation in situations_of(layout, demo(name).catalogue):
        live = looked_at(layout, situation)
        for rung in live.ladder.rungs():
            for load in rung.loads():
                if live.works(load):
                    assert live.stops_before(load) == () or live.is_hot(load.a)
                for piece in live.stops_before(load):
                    assert live.state(piece) in ("open", "unknown")
                    assert live.is_hot(piece.a) != live.is_hot(piece.b)


def _point(name: str, call: str, **sets: str) -> tuple[Layout, OperatingPoint]:
    layout = default(name)
    situation = Situation(calls={"tc": (call,)}, set={k.replace("__", "."): v for k, v in sets.items()})
    return layout, solve(build_circuit(layout, demo(name).catalogue), situation)


def _beside(layout: Layout, point: OperatingPoint, name: str) -> list[str]:
    """Return the words beside the rung of an element."""
    seen = SeenLadder(layout, CATALOGUE, point)
    number = str(ladder_of(layout, CATALOGUE).rung_of[name])
    return [record.text.words for record in seen.texts if record.text and record.within("data-rung") == number]


def test_an_open_safety_is_named_where_the_rung_stops() -> None:
    layout, point = _point("post-office-dual-fuel", "cool-1", ou__high_pressure="open")
    words = _beside(layout, point, "ou.contactor")
    seen = SeenLadder(layout, CATALOGUE, point)
    stopping = next(w for w in words if w.startswith("Stops at"))
    letters = _above(seen, "ou.high_pressure_c")
    rung = ladder_of(layout, CATALOGUE).rung_of["ou.high_pressure_c"]
    assert stopping == f"Stops at {letters} on rung {rung}."


def _above(seen: SeenLadder, element: str) -> str:
    return next(r.text.words for r in seen.texts if r.text and r.text.font.bold and r.within("data-element") == element)


def test_what_works_is_said_and_its_line_is_heavy_from_rail_to_rail() -> None:
    layout, point = _point("post-office-dual-fuel", "cool-1")
    assert point.elements["ou.contactor"].state == "pulled-in"
    assert "Works now." in _beside(layout, point, "ou.contactor")
    seen = SeenLadder(layout, CATALOGUE, point)
    lines = [line for line in seen.lines if line.record.within("data-element") == "ou.contactor"]
    assert lines
    assert {line.record.pen for line in lines} == {HEAVY}
    idle = [line for line in seen.lines if line.record.within("data-element") == "fb.gas_valve"]
    assert HEAVY not in {line.record.pen for line in idle}


@pytest.mark.parametrize("name", ["post-office-dual-fuel", "mill-house-two-zones", "chapel-two-supplies"])
def test_heads_point_where_power_goes(name: str) -> None:
    """Each arrowhead on a conductor points to the side on which the end stands that the operating point names."""
    layout = default(name)
    circuit = build_circuit(layout, demo(name).catalogue)
    ladder = ladder_of(layout, demo(name).catalogue)
    for situation in situations_of(layout, demo(name).catalogue):
        point = solve(circuit, situation)
        seen = SeenLadder(layout, demo(name).catalogue, point)
        shown = {}
        for record in seen.recorder.drawn("shape"):
            conductor = record.within("data-conductor")
            if conductor is not None:
                shown[conductor] = record.points[0].x > record.points[1].x
        on_rungs = {piece.name: piece for rung in ladder.rungs() for piece in rung.pieces if piece.sort == "conductor"}
        expected = {
            wire: layout.conductors[wire].ends[flow.toward] == on_rungs[wire].b
            for wire, flow in point.conductors.items()
            if flow.toward is not None and wire in on_rungs
        }
        assert shown == expected


def test_an_inner_node_is_as_hot_as_the_screw_that_something_closed_joins_it_with() -> None:
    layout, point = _point("post-office-dual-fuel", "cool-1")
    live = Live(ladder_of(layout, CATALOGUE), layout, point)
    assert live.is_hot("ou.after_low")
    assert not live.is_hot("fb.valve")
