"""What was not seen is answered unknown, as far as it could reach and no further."""

from __future__ import annotations

from app.circuit.meter import read
from app.circuit.situation import Situation
from app.job.model import Conductor, Layout, UnknownEnd
from tests.circuit.bench import asking, sketch, solved


def test_an_unknown_end_gives_unknown_not_an_answer() -> None:
    point = solved(sketch({"xf": "supply", "k": "relay"}, "xf.R k.A", "xf.C k.B", "xf.R ?"))
    assert point.terminals["k.A"].unknown
    assert "w3" in point.terminals["k.A"].why
    assert point.elements["k.coil"].state == "unknown"
    assert point.effects == ()
    assert point.effects_in_doubt == (("k", "pump"),)


def test_an_unknown_end_elsewhere_changes_nothing() -> None:
    wires = ("xf.R k.A", "xf.C k.B", "xb.R ?")
    point = solved(sketch({"xf": "supply", "k": "relay", "xb": "supply"}, *wires))
    assert point.runs("pump") == ["k"]
    assert point.terminals["xb.R"].unknown
    assert not point.effects_in_doubt


def test_doubt_spreads_through_the_contacts_that_it_moves() -> None:
    wires = ("k.A ?", "xf.R k.COM", "k.NO la.A", "la.B xf.C", "xb.R kb.A", "xb.C kb.B")
    point = solved(sketch({"xf": "supply", "k": "relay", "la": "lamp", "xb": "supply", "kb": "relay"}, *wires))
    assert point.terminals["la.A"].unknown
    assert point.terminals["xf.R"].unknown
    assert point.elements["k.no"].state == "unknown"
    assert read(point, "xf.R", "xf.C").unknown
    assert point.runs("pump") == ["kb"]


def test_an_open_contact_that_nothing_unknown_moves_stops_doubt() -> None:
    layout = sketch({"xf": "supply", "tc": "control", "la": "lamp"}, "xf.R tc.R", "xf.R la.A", "xf.C la.B", "tc.Y ?")
    idle = solved(layout)
    assert idle.terminals["la.A"].volts is not None
    assert idle.terminals["tc.Y"].unknown
    assert solved(layout, asking(tc="cool-1")).terminals["la.A"].unknown


def test_a_part_of_unknown_kind_makes_what_it_touches_unknown() -> None:
    layout = sketch({"xf": "supply", "la": "lamp", "box": "unknown"}, "xf.R la.A", "xf.C la.B", "la.A box.7")
    point = solved(layout)
    assert point.terminals["box.7"].unknown
    assert point.terminals["xf.R"].unknown


def test_nothing_is_computed_through_an_opaque_element() -> None:
    layout = sketch({"xf": "supply", "la": "lamp", "bx": "bus-box"}, "xf.R la.A", "xf.C la.B")
    point = solved(layout)
    assert point.terminals["bx.D1"].unknown
    assert "data" in point.terminals["bx.D1"].why
    assert point.terminals["la.A"].volts is not None
    joined = solved(
        layout.model_copy(update={"conductors": {**layout.conductors, "w9": Conductor(ends=("la.A", "bx.D1"))}})
    )
    assert joined.terminals["la.A"].unknown


def test_an_unknown_end_whose_other_end_is_loose_touches_nothing() -> None:
    layout = sketch({"xf": "supply", "la": "lamp"}, "xf.R la.A", "xf.C la.B")
    loose = Conductor(ends=(None, UnknownEnd(unknown="behind the wall")))
    layout = Layout(parts=layout.parts, conductors={**layout.conductors, "w9": loose})
    assert all(not state.unknown for state in solved(layout, Situation()).terminals.values())
