"""Each class of fault does what its name says, and what names nothing is refused."""

from __future__ import annotations

from typing import Any

import pytest

from app.circuit.faults import injected
from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.situation import Fault, FaultName
from app.circuit.solve import solve, solve_all
from app.job.model import Layout
from app.job.refusal import Refused
from tests.circuit.bench import CATALOGUE, faulty, sketch, solved

CALLING: dict[str, Any] = {"calls": {"tc": ("cool-1",)}}
COOLING = sketch(
    {"xf": "fused-supply", "tc": "control", "ou": "contactor", "la": "lamp"},
    *("xf.R tc.R", "tc.Y ou.A", "ou.B xf.C", "tc.W la.A", "la.B xf.C"),
)


LONG = COOLING.model_copy(
    update={
        "conductors": {name: wire.model_copy(update={"length_m": 10.0}) for name, wire in COOLING.conductors.items()}
    }
)


def runs(*faults: dict[str, Any], layout: Layout = COOLING) -> bool:
    return solved(layout, faulty(*faults, **CALLING)).runs("compressor") == ["ou"]


def test_the_sound_circuit_runs() -> None:
    assert runs()


@pytest.mark.parametrize("layout", [COOLING, LONG], ids=["ideal joins", "with length"])
@pytest.mark.parametrize("conductor", ["w1", "w2", "w3"])
def test_an_open_conductor_stops_it(conductor: str, layout: Layout) -> None:
    fault = {"is": "conductor-open", "at": f"conductor:{conductor}"}
    assert runs(layout=layout)
    assert not runs(fault, layout=layout)
    point = solved(layout, faulty(fault, **CALLING))
    assert point.conductors[conductor].amps == 0
    # Across the place where it is open stand the full volts of the source.
    assert read(point, *layout.conductors[conductor].landed()).volts == pytest.approx(26.4)


def test_an_open_conductor_off_the_path_does_not() -> None:
    assert runs({"is": "conductor-open", "at": "conductor:w4"})


def test_a_bad_joint_starves_the_coil() -> None:
    assert runs({"is": "joint-ohms", "at": "conductor:w2", "ohms": 0.5})
    assert not runs({"is": "joint-ohms", "at": "conductor:w2", "ohms": 100})
    joint = faulty({"is": "joint-ohms", "at": "conductor:w4", "ohms": 10}, calls={"tc": ("heat-1",)})
    assert solved(COOLING, joint).conductors["w4"].amps == pytest.approx(26.4 / (1.44 + 0.03 + 0.02 + 10 + 57.6))
    # Three conductors of 10 m of 18 AWG at 20.95 mΩ a metre.
    amps = 26.4 / (1.44 + 0.03 + 0.02 + 10 + 57.6 + 3 * 0.2095)
    assert solved(LONG, joint).conductors["w4"].amps == pytest.approx(amps, rel=1e-5)


def test_a_dead_short_opens_the_fuse() -> None:
    point = solved(COOLING, faulty({"is": "short", "at": ("conductor:w2", "terminal:xf.C")}, **CALLING))
    assert point.blown["xf.fuse"] == pytest.approx(26.4 / (1.44 + 0.03 + 0.02), rel=1e-9)
    assert point.effects == ()
    assert point.elements["xf.fuse"].state == "open"


def test_the_amps_of_a_dead_short_flow_in_the_ideal_conductors_beside_it() -> None:
    layout = sketch({"xf": "supply", "la": "lamp", "j": "joint"}, "xf.R j.A", "j.D la.A", "la.B xf.C")
    point = solved(layout, faulty({"is": "short", "at": ("terminal:la.A", "terminal:la.B")}))
    assert point.conductors["w1"].amps == pytest.approx(26.4 / 1.44)
    assert point.conductors["w3"].amps == pytest.approx(26.4 / 1.44)


def test_a_ground_on_the_hot_side_shorts_a_grounded_common() -> None:
    wires = ("xf.R tc.R", "tc.Y ou.A", "ou.B xf.C")
    parts = {"xf": "fused-supply", "tc": "control", "ou": "contactor"}
    fault = {"is": "to-ground", "at": "terminal:xf.R"}
    assert runs(fault, layout=sketch(parts, *wires))
    grounded = sketch({**parts, "ch": "chassis"}, *wires, "xf.C ch.G")
    assert set(solved(grounded, faulty(fault, **CALLING)).blown) == {"xf.fuse"}


def test_two_grounds_are_a_short() -> None:
    faults = ({"is": "to-ground", "at": "terminal:xf.R"}, {"is": "to-ground", "at": "terminal:xf.C"})
    assert set(solved(COOLING, faulty(*faults)).blown) == {"xf.fuse"}


@pytest.mark.parametrize(
    ("fault", "at"),
    [
        ("short", ("terminal:tc.Y", "terminal:tc.R")),
        ("to-ground", "terminal:tc.Y"),
        ("coil-shorted", "element:ou.coil"),
    ],
)
def test_a_fault_that_joins_is_bolted_where_no_ohms_are_said(fault: str, at: Any) -> None:
    unsaid, none, some = (
        injected(COOLING, CATALOGUE, faulty({"is": fault, "at": at, **ohms}).faults).joins
        for ohms in ({}, {"ohms": 0.0}, {"ohms": 7.0})
    )
    assert unsaid == none
    assert [ohms for _, _, ohms in unsaid] == [0.0]
    assert [ohms for _, _, ohms in some] == [7.0]


def test_grounds_in_two_systems_join_them() -> None:
    layout = sketch({"xa": "supply", "xb": "supply"})
    one = {"is": "to-ground", "at": "terminal:xa.C"}
    assert read(solved(layout, faulty(one)), "xa.R", "xb.R").floating
    both = solved(layout, faulty(one, {"is": "to-ground", "at": "terminal:xb.C"}))
    assert read(both, "xa.R", "xb.C").volts == pytest.approx(26.4)


def test_swapped_conductors_and_terminals() -> None:
    for fault in (
        {"is": "swapped", "at": ("conductor:w2", "conductor:w4")},
        {"is": "swapped", "at": ("terminal:tc.Y", "terminal:tc.W")},
    ):
        assert not runs(fault)
        heat = solved(COOLING, faulty(fault, calls={"tc": ("heat-1",)}))
        assert heat.runs("compressor") == ["ou"]


def test_an_open_coil_never_pulls_in_and_takes_nothing() -> None:
    point = solved(COOLING, faulty({"is": "coil-open", "at": "element:ou.coil"}, **CALLING))
    assert point.effects == ()
    assert point.elements["ou.coil"].amps == 0
    assert point.elements["ou.coil"].volts == pytest.approx(26.4)


def test_a_shorted_coil_opens_the_fuse() -> None:
    fault = {"is": "coil-shorted", "at": "element:ou.coil"}
    assert set(solved(COOLING, faulty(fault, **CALLING)).blown) == {"xf.fuse"}
    assert not solved(COOLING, faulty(fault)).blown


def test_a_welded_contact_runs_without_a_call() -> None:
    fault = {"is": "contact-welded", "at": "element:tc.y"}
    point = solved(COOLING, faulty(fault))
    assert point.runs("compressor") == ["ou"]
    assert point.elements["tc.y"].state == "closed"


def test_a_dead_contact_stops_it() -> None:
    assert not runs({"is": "contact-dead", "at": "element:tc.y"})


@pytest.mark.parametrize(
    ("fault", "at"), [("fuse-open", "xf.fuse"), ("source-dead", "xf.secondary")], ids=["fuse", "source"]
)
def test_without_supply_nothing_has_volts(fault: str, at: str) -> None:
    point = solved(COOLING, faulty({"is": fault, "at": f"element:{at}"}, **CALLING))
    assert point.effects == ()
    assert not any(state.volts for state in point.terminals.values())
    assert read(point, "ou.A", "ou.B").volts == 0
    assert not point.blown


def test_a_wrong_setting_is_the_other_one() -> None:
    layout = sketch({"xf": "supply", "s": "jumper-strip", "k": "relay"}, "xf.R s.A", "s.B k.A", "k.B xf.C")
    assert solved(layout).effects == ()
    assert solved(layout, faulty({"is": "wrong-setting", "at": "setting:s.bar"})).runs("pump") == ["k"]


def test_a_short_joins_two_systems() -> None:
    layout = sketch({"xf": "supply", "la": "lamp", "xb": "supply"}, "xf.R la.A", "xf.C la.B")
    assert read(solved(layout), "xf.C", "xb.R").floating
    joined = solved(layout, faulty({"is": "short", "at": ("terminal:xf.C", "terminal:xb.C"), "ohms": 7.0}))
    assert read(joined, "xf.C", "xb.R").volts == pytest.approx(26.4)
    assert read(joined, "xf.R", "xb.R").volts == pytest.approx(26.4 - 26.4 * 57.6 / 59.04)


def test_systems_that_a_short_joins_stay_apart_from_others() -> None:
    parts = {"a": "supply", "m1": "relay", "m2": "four-pole-relay", "m3": "supply", "z": "four-pole-relay"}
    layout = sketch(parts, "m1.A m2.A", "m2.B m3.C")
    point = solved(layout, faulty({"is": "short", "at": ("terminal:a.C", "terminal:z.A")}))
    middle = [name for name in point.terminals if name.startswith("m")]
    ends = [name for name in point.terminals if name[0] in "az"]
    assert all(read(point, end, name).floating for end in ends for name in middle)


def test_a_short_in_a_batch_is_what_it_is_alone() -> None:
    circuit = build_circuit(COOLING, CATALOGUE)
    names = sorted(circuit.terminals)
    situations = [
        faulty({"is": "short", "at": ("terminal:tc.Y", f"terminal:{name}"), "ohms": ohms}, **CALLING)
        for name in names
        for ohms in (0.0, 50.0)
    ]
    for together in solve_all(circuit, situations):
        alone = solve(build_circuit(COOLING, CATALOGUE), together.situation)
        assert (together.effects, together.settled) == (alone.effects, alone.settled)
        assert together.blown == pytest.approx(alone.blown)
        for name in names:
            a, b = together.terminals[name].volts, alone.terminals[name].volts
            assert (a is None) == (b is None)
            assert a is None or b is None or abs(a - b) <= 26.4e-9


WRONG: dict[FaultName, Any] = {
    "conductor-open": "terminal:tc.Y",
    "joint-ohms": "conductor:w2",
    "short": "terminal:tc.Y",
    "to-ground": "terminal:tc.NONE",
    "swapped": ("conductor:w1", "conductor:w99"),
    "coil-open": "element:tc.y",
    "coil-shorted": "element:nobody.coil",
    "contact-welded": "element:ou.coil",
    "contact-dead": "conductor:w1",
    "fuse-open": "element:xf.secondary",
    "source-dead": "element:xf.fuse",
    "wrong-setting": "setting:xf.fuse_amps",
}


@pytest.mark.parametrize("name", WRONG)
def test_a_fault_that_names_nothing_is_refused(name: FaultName) -> None:
    with pytest.raises(Refused) as refused:
        solved(COOLING, faulty({"is": name, "at": WRONG[name]}))
    assert refused.value.code == "bad-fault"
    assert refused.value.would_be_right


def test_every_class_of_fault_is_tried_here() -> None:
    from typing import get_args

    assert set(WRONG) == set(get_args(FaultName))
    assert Fault.model_validate({"is": "short", "at": ("a", "b")}).ohms is None
