"""Kinds at work: what they do in time, what leaks through them, what a bond changes. Expected figures are by hand."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.circuit.network import Circuit, build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.sketch import Parts, sketch
from app.sequence.change import Change
from app.sequence.run import run_sequence


def circuit_of(parts: Parts, *wires: str) -> Circuit:
    return build_circuit(sketch(parts, *wires), builtin_catalogue())


DELAYED = ("xf.R tc.R", "tc.W td.A1", "td.A2 xf.C", "xf.R td.COM", "td.NO hs.W", "hs.C xf.C")


def delayed(acts: str, delay_s: int) -> Circuit:
    relay = {"kind": "time-delay-relay", "settings": {"acts": acts, "delay_s": delay_s}}
    parts: Parts = {"xf": "control-transformer", "tc": "thermostat-heat-only", "td": relay, "hs": "heat-sequencer"}
    return circuit_of(parts, *DELAYED)


CLOSED = {
    "on make, before the delay": ("on make", 90, 89, False),
    "on make, after it": ("on make", 90, 91, True),
    "on make, at once back": ("on make", 90, 301, False),
    "on break, at once": ("on break", 180, 1, True),
    "on break, still after the call": ("on break", 180, 479, True),
    "on break, gone after the delay": ("on break", 180, 481, False),
}


@pytest.mark.parametrize(("acts", "delay_s", "at_s", "closed"), CLOSED.values(), ids=CLOSED.keys())
def test_a_delay_runs_after_the_call_begins_or_after_it_ends(
    acts: str, delay_s: int, at_s: float, closed: bool
) -> None:
    calls = [Change(0, "heat is asked", calls={"tc": ("heat-1",)}), Change(300, "no more", calls={"tc": ()})]
    run = run_sequence(delayed(acts, delay_s), calls)
    assert (run.point_at(at_s).elements["td.make"].state == "closed") is closed


def test_a_damper_that_is_driven_both_ways_stays_where_it_is_without_power() -> None:
    circuit = circuit_of(
        {"xf": "control-transformer", "tc": "zone-thermostat", "da": "zone-damper-three-wire"},
        "xf.R tc.R",
        "tc.O da.O",
        "da.C xf.C",
    )
    asked = [Change(0, "the zone asks", calls={"tc": ("open",)}), Change(300, "no more", calls={"tc": ()})]
    run = run_sequence(circuit, asked)
    opened = [("da", "zone-open") in run.point_at(at_s).effects for at_s in (30, 61, 299, 3000)]
    assert opened == [False, True, True, True]


def test_the_relayed_y_lets_the_compressor_rest() -> None:
    circuit = circuit_of(
        {
            "xf": "control-transformer",
            "ah": "air-handler-board-relayed-y",
            "tc": "thermostat-heat-cool",
            "ou": "condensing-unit",
        },
        *("xf.R ah.XF", "xf.C ah.XC", "ah.R tc.R", "ah.Y tc.Y", "ah.G tc.G", "ah.YO ou.Y", "ah.C ou.C"),
    )
    cool, rest = {"tc": ("cool-1",)}, {"tc": ()}
    changes = [Change(0, "cool", calls=cool), Change(600, "rest", calls=rest), Change(660, "cool again", calls=cool)]  # type: ignore[arg-type]
    run = run_sequence(circuit, changes)
    on = [run.point_at(at_s).elements["ah.outdoor_contact"].state == "closed" for at_s in (590, 610, 670, 890, 910)]
    assert on == [True, False, False, False, True]


def test_a_snubber_shows_a_few_volts_on_an_input_and_works_nothing() -> None:
    circuit = circuit_of(
        {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-electronic-outputs"},
        *("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "fb.C tc.C", "fb.W tc.W"),
    )
    point = solve(circuit, Situation())
    supply = point.volts_between("fb.R", "fb.C")
    assert supply is not None
    assert point.volts_between("fb.W", "fb.C") == pytest.approx(supply * 3000 / (3000 + 26500), rel=1e-3)
    assert point.effects == ()


def test_with_the_common_bonded_a_meter_reads_24_v_from_r_to_the_cabinet() -> None:
    parts = {"xf": "control-transformer", "cb": "chassis-bond", "ah": "air-handler-board-relayed-y"}
    bonded = solve(circuit_of(parts, "xf.C cb.CH"), Situation())
    assert bonded.volts_between("xf.R", "ah.CH") == pytest.approx(26.4)
    assert bonded.volts_between("xf.C", "ah.CH") == pytest.approx(0)
    assert solve(circuit_of(parts), Situation()).volts_between("xf.R", "ah.CH") is None


def test_a_breaker_opens_on_a_short_of_its_own_transformer() -> None:
    point = solve(circuit_of({"xf": "transformer-with-breaker"}, "xf.R xf.C"), Situation())
    assert point.elements["xf.breaker"].state == "open"


def test_data_and_millivolts_beside_the_controls_leave_the_controls_known() -> None:
    circuit = circuit_of(
        {"xf": "control-transformer", "fb": "furnace-board-bus", "tc": "thermostat-bus", "mv": "millivolt-valve"},
        *("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "fb.C tc.C", "fb.D1 tc.D1", "fb.D2 tc.D2"),
    )
    point = solve(circuit, Situation())
    assert point.elements["tc.electronics"].state == "on"
    assert {name for name, state in point.terminals.items() if state.unknown} == {
        "fb.D1",
        "fb.D2",
        "tc.D1",
        "tc.D2",
        "mv.TH",
        "mv.TP",
        "mv.TH/TP",
    }
