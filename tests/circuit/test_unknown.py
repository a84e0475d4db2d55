"""What was not seen is answered unknown, as far as it could reach and no further."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.kind import Kind
from app.circuit.doubt import doubt_in
from app.circuit.faults import NOTHING
from app.circuit.logic import MOST_DOUBTS, PartScene
from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.pure import solve_each
from app.circuit.scene import scene_of
from app.circuit.settle import rest_of
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.circuit.state import Question
from app.circuit.template import template_of
from app.circuit.worlds import MOST_WORLDS
from app.job.model import Conductor, Layout, UnknownEnd
from app.job.sketch import Parts
from app.job.sketch import sketch as builtin_sketch
from tests.circuit.bench import CATALOGUE, asking, sketch, solved, terminals


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


@pytest.mark.parametrize("supply", [100, 75])
def test_what_a_load_behind_an_unknown_end_would_let_go_is_unknown(supply: int) -> None:
    # 23.5 V of threshold: met with the end open (24.8 V), not any more with 40 VA behind it; all in step with supply.
    board = {"kind": "board", "settings": {"threshold": 23.5 * supply / 100}}
    asked = Situation(supply_percent=supply)
    wires = ("xf.R fb.R", "xf.C fb.C", "xf.R fb.W", "xf.R la.A", "xf.C la.B")
    layout: Parts = {"xf": "supply", "fb": board, "la": {"kind": "lamp", "settings": {"va": 25}}}
    assert solved(sketch(layout, *wires), asked).elements["fb.call"].state == "on"
    assert solved(sketch(layout, *wires, "xf.R ?"), asked).elements["fb.call"].state == "unknown"


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
    # The lamp alone takes 0.4 A, which either fuse holds.
    wires = ("k.A ?", "k.B xf.C", "xf.R k.COM", "k.NO xf.C", "xf.R la.A", "xf.C la.B")
    for fuse_amps in (0.5, 3.0):
        fused = {"kind": "fused-supply", "settings": {"fuse_amps": fuse_amps}}
        point = solved(sketch({"xf": fused, "k": "relay", "la": "lamp"}, *wires))
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


@pytest.mark.parametrize(
    ("unseen", "grounded"),
    [("h.G ?", "xf.R"), ("xf.C ?", "xf.R"), ("xf.C ?", "xf.C")],
    ids=["on-what-stood-on-earth-before", "on-what-the-fault-grounds", "on-the-grounded-side"],
)
def test_a_fault_to_ground_joins_what_something_unseen_may_load(unseen: str, grounded: str) -> None:
    parts = {"xf": "supply", "h": "chassis", "xb": "supply", "k": "chassis"}
    layout = sketch(parts, unseen, "xb.C k.G")
    fault = {"is": "to-ground", "at": f"terminal:{grounded}"}
    joined = sketch({**parts, "g": "chassis"}, unseen, "xb.C k.G", f"{grounded} g.G")
    ours, really = solved(layout, Situation.model_validate({"faults": [fault]})), solved(joined)
    for name, state in ours.sources.items():
        assert state.unknown == really.sources[name].unknown, name
    assert {name: state.unknown for name, state in ours.terminals.items()} == {
        name: really.terminals[name].unknown for name in ours.terminals
    }
    assert ours.sources["xb.secondary"].unknown


def test_what_is_unseen_and_cannot_reach_earth_leaves_grounded_sources_known() -> None:
    parts = {"xf": "supply", "g": "chassis", "h": "chassis", "la": "lamp"}
    point = solved(sketch(parts, "xf.R g.G", "la.A ?"))
    assert not point.sources["xf.secondary"].unknown


def test_a_coil_that_the_unseen_cannot_bring_to_its_pull_in_stays_released() -> None:
    # Behind the 80 Ω may stand all of 26.4 V: then the coil of 96 Ω has 14.4 V, which would hold it (12 V) but never
    # pulls it in (18 V).
    parts: Parts = {"xf": "supply", "k": "relay", "r": {"kind": "resistor", "settings": {"ohms": 80}}}
    layout = sketch(parts, "k.A r.A", "r.B ?", "k.B xf.C")
    assert solved(layout).terminals["k.A"].unknown
    assert solved(layout).elements["k.coil"].state == "released"
    # At 130 % it may have 18.7 V.
    assert solved(layout, Situation(supply_percent=130)).elements["k.coil"].state == "unknown"


def test_a_coil_that_the_unseen_cannot_bring_below_its_drop_out_stays_pulled_in() -> None:
    # What the relay switches pulls its own coil down to 17.6 V, and what is behind the 17 Ω moves that by 1 V: on both
    # sides of what pulls it in (18 V), far from what lets it go (12 V). Another judged element, the input behind which
    # that is, comes first.
    load = {"kind": "lamp", "settings": {"va": 100}}
    resistor = {"kind": "resistor", "settings": {"ohms": 17}}
    parts: Parts = {"a": resistor, "xf": "supply", "k": "relay", "la": load, "lb": load}
    wires = ("xf.R k.A", "xf.C k.B", "xf.R k.COM", "k.NO la.A", "la.B xf.C", "k.NO lb.A", "lb.B xf.C")
    point = solved(sketch(parts, *wires, "xf.R a.A", "a.B ?"))
    assert point.elements["k.coil"].state == "pulled-in"
    assert point.runs("pump") == ["k"]


def test_what_the_unseen_draws_through_a_known_load_opens_no_fuse() -> None:
    # Whatever stands behind the coil, it lets no more than 0.3 A through, and the fuse of 0.5 A holds that.
    fused = {"kind": "fused-supply", "settings": {"fuse_amps": 0.5}}
    point = solved(sketch({"xf": fused, "k": "relay"}, "xf.R k.A", "k.B ?"))
    assert point.elements["k.coil"].state == "unknown"
    assert point.elements["xf.fuse"].state == "whole"


def test_where_too_much_may_be_either_way_the_fuse_before_it_is_unknown() -> None:
    relays = {f"k{n}": "relay" for n in range(5)}
    assert 2 ** len(relays) > MOST_WORLDS
    unseen = [wire for name in relays for wire in (f"{name}.A ?", f"{name}.B xf.C")]
    point = solved(sketch({"xf": "fused-supply", **relays}, "xf.R k0.COM", *unseen))
    assert point.elements["xf.fuse"].state == "unknown"


def test_what_was_seen_whole_meets_nothing_else() -> None:
    # The contact lies between the two systems of one relay: they are solved together, and stay apart.
    parts = {"xa": "supply", "xb": "supply", "k": "relay"}
    point = solved(sketch(parts, "xa.R k.A", "xa.C k.B", "xb.R k.COM", "xa.R ?"))
    assert point.component["xa.R"] in point.could_meet
    assert point.component["xb.R"] not in point.could_meet


def test_what_was_in_doubt_stays_so_when_nothing_unseen_leads_there_any_more() -> None:
    # The relay may have sealed itself in while a fault led to the unseen end; without the fault it may hold still.
    with_spare = Kind.model_validate(
        {
            "title": "Relay with a spare terminal",
            "summary": "",
            "terminals": terminals(A="call", B="common", COM="dry", NO="dry", S="dry"),
            "elements": {
                "coil": {"is": "coil", "between": ["A", "B"], "va_sealed": 6, "va_inrush": 6},
                "no": {"is": "contact", "between": ["COM", "NO"], "by": "coil"},
            },
        }
    )
    layout = sketch({"xf": "supply", "k": "with-spare"}, "xf.R k.COM", "k.NO k.A", "k.B xf.C", "k.S ?")
    (network,) = build_circuit(layout, CATALOGUE.with_kinds({"with-spare": with_spare})).networks
    scene = scene_of(network, layout, Situation(), NOTHING, {})
    coil = 1 << network.judged_names.index("k.coil")
    state = rest_of(scene)._replace(doubt=coil)
    on, _ = scene.cast.outcome(state.held, state.opened, state.memory)
    solution = solve_each(network, [Question(scene.figures, on, scene.extras)])[0]
    assert doubt_in(scene, state, on, solution).judged == coil


BOARD_OF_NINE = Kind.model_validate(
    {
        "title": "Board with nine inputs",
        "summary": "",
        "terminals": terminals(C="common", A="dry", B="dry", **{f"I{n}": "call" for n in range(1, 10)}),
        "elements": {
            **{f"i{n}": {"is": "input", "between": [f"I{n}", "C"], "ohms": 3000} for n in range(1, 10)},
            "first": {"is": "contact", "between": ["A", "B"], "by": "i1"},
            "last": {"is": "contact", "between": ["A", "B"], "by": "i9"},
        },
        "effects": {"pump": "i1", "compressor": "i9"},
    }
)


@pytest.mark.parametrize(("count", "doubtful"), [(1, ["pump"]), (8, ["pump"]), (9, ["compressor", "pump"])])
def test_only_what_depends_on_what_is_in_doubt_is_in_doubt(count: int, doubtful: list[str]) -> None:
    board = PartScene(template_of(BOARD_OF_NINE), {}, (), 20.0, frozenset())
    doubt = (1 << count) - 1
    assert board.effects_in_doubt(0, board.rest_memory(), doubt) == doubtful
    moved = board.in_doubt(0, board.rest_memory(), doubt)
    names = [slot.name for at, slot in enumerate(board.template.slots) if moved >> at & 1]
    assert names == (["first", "last"] if "compressor" in doubtful else ["first"])


def test_beyond_so_many_elements_in_doubt_everything_that_they_could_move_is() -> None:
    board = PartScene(template_of(BOARD_OF_NINE), {}, (), 20.0, frozenset())
    # The ninth input is known to be off, so that the last contact is open in truth; nobody tries 2⁹ ways to find out.
    assert MOST_DOUBTS == 8
    assert board.memories(0, board.rest_memory(), (1 << 8) - 1) == [()]
    assert board.memories(0, board.rest_memory(), (1 << 9) - 1) is None
