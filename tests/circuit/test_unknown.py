"""What was not seen is answered unknown, as far as it could reach and no further."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout, UnknownEnd
from app.job.sketch import sketch as builtin_sketch
from tests.circuit.bench import asking, sketch, solved


def test_an_unknown_end_on_a_call_gives_unknown_not_an_answer() -> None:
    point = solved(sketch({"xf": "supply", "k": "relay"}, "k.A ?", "xf.C k.B"))
    assert point.terminals["k.A"].unknown
    assert "w1" in point.terminals["k.A"].why
    assert point.elements["k.coil"].state == "unknown"
    assert point.effects == ()
    assert point.effects_in_doubt == (("k", "pump"),)


@pytest.mark.parametrize("rail", ["xf.R", "xf.C"])
def test_an_unknown_end_on_a_rail_leaves_what_runs_known(rail: str) -> None:
    point = solved(sketch({"xf": "supply", "k": "relay"}, "xf.R k.A", "xf.C k.B", f"{rail} ?"))
    assert point.runs("pump") == ["k"]
    assert not point.effects_in_doubt
    assert point.elements["k.coil"].state == "pulled-in"
    assert read(point, "k.A", "k.B").volts == pytest.approx(26.2, abs=0.1)
    assert point.conductors["w3"].unknown


def test_what_a_load_behind_an_unknown_end_would_let_go_is_unknown() -> None:
    # 20 V of threshold: met with the end open (24.8 V), not any more with 40 VA behind it.
    board = {"kind": "board", "settings": {"threshold": 23.5}}
    wires = ("xf.R fb.R", "xf.C fb.C", "xf.R fb.W", "xf.R la.A", "xf.C la.B")
    layout = {"xf": "supply", "fb": board, "la": {"kind": "lamp", "settings": {"va": 25}}}
    assert solved(sketch(layout, *wires)).elements["fb.call"].state == "on"
    assert solved(sketch(layout, *wires, "xf.R ?")).elements["fb.call"].state == "unknown"


def test_an_unknown_end_elsewhere_changes_nothing() -> None:
    wires = ("xf.R k.A", "xf.C k.B", "xb.R ?")
    point = solved(sketch({"xf": "supply", "k": "relay", "xb": "supply"}, *wires))
    assert point.runs("pump") == ["k"]
    assert point.terminals["xb.R"].volts == pytest.approx(26.4)
    assert not point.effects_in_doubt


def test_doubt_spreads_through_the_contacts_that_it_moves() -> None:
    wires = ("k.A ?", "k.B xf.C", "xf.R k.COM", "k.NO la.A", "la.B xf.C", "xb.R kb.A", "xb.C kb.B")
    point = solved(sketch({"xf": "supply", "k": "relay", "la": "lamp", "xb": "supply", "kb": "relay"}, *wires))
    assert point.terminals["la.A"].unknown
    assert point.elements["k.no"].state == "unknown"
    assert point.elements["la.load"].state == "unknown"
    assert read(point, "la.A", "la.B").unknown
    # The lamp, lit or not, is no more than the supply is made for.
    assert read(point, "xf.R", "xf.C").volts == pytest.approx(26.4)
    assert point.runs("pump") == ["kb"]


def test_an_open_contact_that_nothing_unknown_moves_stops_doubt() -> None:
    layout = sketch({"xf": "supply", "tc": "control", "la": "lamp"}, "xf.R tc.R", "xf.R la.A", "xf.C la.B", "tc.Y ?")
    idle = solved(layout)
    assert idle.terminals["la.A"].volts is not None
    assert idle.terminals["tc.Y"].unknown
    called = solved(layout, asking(tc="cool-1"))
    assert called.terminals["tc.Y"].volts == pytest.approx(called.terminals["xf.R"].volts)
    assert called.conductors["w1"].unknown


def test_what_a_part_of_unknown_kind_could_feed_is_unknown() -> None:
    parts = {"xf": "supply", "la": "lamp", "box": "unknown", "lb": "lamp"}
    layout = sketch(parts, "xf.R lb.A", "xf.C lb.B", "xf.C la.B", "la.A box.7", "xf.R box.4")
    point = solved(layout)
    assert point.terminals["box.7"].unknown
    assert "box" in point.terminals["box.7"].why
    assert point.elements["la.load"].state == "unknown"
    assert point.elements["lb.load"].volts == pytest.approx(25.76, abs=0.01)


def test_nothing_is_computed_through_an_opaque_element() -> None:
    layout = sketch({"xf": "supply", "la": "lamp", "bx": "bus-box"}, "xf.C la.B")
    point = solved(layout)
    assert point.terminals["bx.D1"].unknown
    assert "data" in point.terminals["bx.D1"].why
    assert point.terminals["la.A"].volts == 0
    joined = solved(
        layout.model_copy(update={"conductors": {**layout.conductors, "w9": Conductor(ends=("la.A", "bx.D1"))}})
    )
    assert joined.terminals["la.A"].unknown
    assert joined.elements["la.load"].state == "unknown"


def test_a_single_unknown_end_on_a_circuit_without_a_source_moves_nothing_there() -> None:
    point = solved(sketch({"k": "relay", "xf": "supply"}, "k.A ?"))
    assert point.elements["k.coil"].state == "released"
    assert point.terminals["k.A"].unknown
    twice = solved(sketch({"k": "relay", "xf": "supply"}, "k.A ?", "k.B ?"))
    assert twice.elements["k.coil"].state == "unknown"


def test_a_fuse_that_a_contact_in_doubt_would_open_is_unknown() -> None:
    wires = ("k.A ?", "k.B xf.C", "xf.R k.COM", "k.NO xf.C", "xf.R la.A", "xf.C la.B")
    point = solved(sketch({"xf": "fused-supply", "k": "relay", "la": "lamp"}, *wires))
    assert point.elements["xf.fuse"].state == "unknown"
    assert not point.blown
    assert read(point, "la.A", "la.B").unknown


def test_an_unknown_end_whose_other_end_is_loose_touches_nothing() -> None:
    layout = sketch({"xf": "supply", "la": "lamp"}, "xf.R la.A", "xf.C la.B")
    loose = Conductor(ends=(None, UnknownEnd(unknown="behind the wall")))
    layout = Layout(parts=layout.parts, conductors={**layout.conductors, "w9": loose})
    assert all(not state.unknown for state in solved(layout, Situation()).terminals.values())


def test_what_was_not_seen_may_join_what_otherwise_floats() -> None:
    parts = {"xa": "supply", "xb": "supply", "xc": "supply"}
    point = solved(sketch(parts, "xa.C ?", "xb.C ?"))
    assert point.terminals["xa.R"].volts == pytest.approx(26.4)
    assert point.component["xa.R"] in point.could_meet
    assert point.component["xb.R"] in point.could_meet
    assert point.component["xc.R"] not in point.could_meet


@pytest.mark.parametrize(("unseen", "valve"), [("fb.Y", "pulled-in"), ("fb.W", "unknown")])
def test_what_a_board_remembers_is_in_doubt_only_where_the_unseen_has_a_say_in_it(unseen: str, valve: str) -> None:
    # The board remembers that it has purged; the call for cooling, which nobody knows, has nothing to do with that.
    parts = {"xf": "control-transformer", "fb": "furnace-board"}
    wires = ["xf.R fb.XF", "xf.C fb.C", *(["fb.R fb.W"] if unseen != "fb.W" else [])]
    layout = builtin_sketch(parts, *wires)
    unseen_end = Conductor(ends=(unseen, UnknownEnd(unknown="behind the wall")))
    layout = layout.model_copy(update={"conductors": {**layout.conductors, "u1": unseen_end}})
    point = solve(build_circuit(layout, builtin_catalogue()), Situation())
    assert point.elements["fb.cool_call" if unseen == "fb.Y" else "fb.heat_call"].state == "unknown"
    assert point.elements["fb.gas_valve"].state == valve


def test_what_is_unseen_on_one_grounded_part_may_load_a_source_that_is_grounded_elsewhere() -> None:
    parts = {"xf": "supply", "g": "chassis", "h": "chassis", "xb": "supply"}
    point = solved(sketch(parts, "xf.R g.G", "h.G ?"))
    assert point.sources["xf.secondary"].unknown
    assert point.terminals["xf.C"].volts == pytest.approx(-26.4)
    assert not point.sources["xb.secondary"].unknown


def test_what_is_unseen_and_cannot_reach_earth_leaves_grounded_sources_known() -> None:
    parts = {"xf": "supply", "g": "chassis", "h": "chassis", "la": "lamp"}
    point = solved(sketch(parts, "xf.R g.G", "la.A ?"))
    assert not point.sources["xf.secondary"].unknown
