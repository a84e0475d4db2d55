"""What each conductor is for: read from small layouts by hand, and unchanged by what must not matter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.catalogue.kind import Kind
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.explain.roles import roles_of
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch, terminals
from tests.circuit.random_layouts import layouts
from tests.circuit.test_metamorphic import CHANGES
from tests.explain.roles_bench import roles, said

DEMOS = demo_layouts()
FURNACE_AND_COOLING: Mapping[str, Any] = {
    "xf": "control-transformer",
    "fb": "furnace-board",
    "tc": "thermostat-heat-cool",
    "ou": "condensing-unit",
}
HEAT_PUMP: Mapping[str, Any] = {
    "xf": "control-transformer",
    "ah": "air-handler-board",
    "tc": "thermostat-heat-pump",
    "ou": "heat-pump-unit",
}
FED = ("xf.R ah.XF", "xf.C ah.XC", "ah.R tc.R", "ah.C tc.C", "ah.R ou.R", "ah.C ou.C")


def role_of(parts: Mapping[str, Any], name: str, *wires: str) -> str:
    return said(roles(sketch(parts, *wires))[name])


FURNACE_WIRES = (
    "supply: xf.R fb.XF",
    "common: xf.C fb.XC",
    "r: fb.R tc.R",
    "w: fb.W tc.W",
    "y: fb.Y tc.Y",
    "g: fb.G tc.G",
    "on: fb.Y ou.Y",
    "back: fb.C ou.C",
    "cap: - -",
)
FURNACE_ROLES = {
    "supply": "supply",
    "common": "common",
    "r": "supply",
    "w": "furnace-heat",
    "y": "compressor",
    "g": "indoor-fan",
    "on": "compressor",
    "back": "common",
    "cap": "spare",
}


@pytest.mark.parametrize("name", FURNACE_ROLES)
def test_a_furnace_with_cooling(name: str) -> None:
    assert role_of(FURNACE_AND_COOLING, name, *FURNACE_WIRES) == FURNACE_ROLES[name]


def test_the_letter_of_a_terminal_means_nothing() -> None:
    crossed = [
        wire.replace("tc.W", "tc.swap").replace("tc.G", "tc.W").replace("tc.swap", "tc.G") for wire in FURNACE_WIRES
    ]
    assert role_of(FURNACE_AND_COOLING, "w", *crossed) == "furnace-heat"
    assert role_of(FURNACE_AND_COOLING, "g", *crossed) == "indoor-fan"


@pytest.mark.parametrize("mode", ["cooling", "heating"])
def test_the_mode_of_a_valve_is_what_the_valve_does(mode: str) -> None:
    parts = {**HEAT_PUMP, "ou": {"kind": "heat-pump-unit", "settings": {"valve_energised_in": mode}}}
    assert role_of(parts, "o", *FED, "o: tc.O/B ou.O/B", "y: tc.Y ou.Y") == f"reversing-valve ({mode})"


def test_heat_beside_a_heat_pump_is_auxiliary() -> None:
    assert role_of(HEAT_PUMP, "w", *FED, "w: tc.W ah.W1") == "auxiliary-heat"


def test_the_same_heat_without_a_heat_pump_is_electric_heat() -> None:
    parts = {name: kind for name, kind in HEAT_PUMP.items() if name != "ou"}
    assert role_of(parts, "w", *FED[:4], "w: tc.W ah.W1") == "electric-heat"


def test_a_heat_pump_for_another_air_stream_does_not_count() -> None:
    parts = {**HEAT_PUMP, "ou": {"kind": "heat-pump-unit", "air": "upstairs"}}
    assert role_of(parts, "w", *FED, "w: tc.W ah.W1") == "electric-heat"


def test_a_lead_that_comes_from_a_defrosting_unit_is_its_output() -> None:
    assert role_of(HEAT_PUMP, "d", *FED, "w: tc.W ah.W1", "d: ou.W ah.W1") == "defrost-output"


def test_a_lead_that_both_use_says_both() -> None:
    wires = ("w: tc.W ah.W1", "d: ou.W ah.W1", "j: ah.W1 ah.W2")
    assert role_of(HEAT_PUMP, "j", *FED, *wires) == "auxiliary-heat + defrost-output"


def test_a_call_that_also_runs_the_fan_says_so() -> None:
    wires = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "y: tc.Y fb.Y", "fb.Y fb.G", "fb.Y ou.Y", "fb.C ou.C")
    assert role_of(FURNACE_AND_COOLING, "y", *wires) == "compressor + indoor-fan"


def test_a_lead_into_a_call_terminal_from_supply_is_a_supply_that_works_something() -> None:
    wires = ("xf.R fb.XF", "xf.C fb.XC", "fan: fb.R fb.G")
    assert role_of(FURNACE_AND_COOLING, "fan", *wires) == "supply + indoor-fan"


def test_two_supplies_have_their_sides() -> None:
    parts = {
        "xh": "control-transformer",
        "xc": "control-transformer",
        "tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "removed"}},
    }
    assert role_of(parts, "h", "h: xh.R tc.RH", "c: xc.R tc.RC") == "supply (heating)"
    assert role_of(parts, "c", "h: xh.R tc.RH", "c: xc.R tc.RC") == "supply (cooling)"


def test_a_lead_to_a_lamp_is_a_signal() -> None:
    assert role_of(HEAT_PUMP, "l", *FED, "l: ou.L tc.L") == "signal"


def test_a_sensor_pair_is_one() -> None:
    parts = {"tc": "thermostat-dual-fuel", "st": "terminal-strip"}
    assert role_of(parts, "s", "s: tc.S1 st.1") == "sensor"


def test_a_lead_that_works_nothing_has_no_effect() -> None:
    parts = {**FURNACE_AND_COOLING, "st": "terminal-strip"}
    assert role_of(parts, "n", *FURNACE_WIRES, "n: tc.Y st.1") == "no-effect"
    assert role_of(parts, "n", *FURNACE_WIRES, "n: st.2 st.3") == "no-effect"


def test_heat_that_only_an_emergency_calls_for_is_emergency_heat() -> None:
    assert role_of(HEAT_PUMP, "e", *FED, "w: tc.W ah.W1", "e: tc.E ah.W2") == "emergency-heat"


def test_an_end_that_nobody_saw_is_unknown() -> None:
    assert role_of(FURNACE_AND_COOLING, "q", "q: fb.W ?") == "unknown"


def test_what_goes_through_a_relay_is_told_by_what_the_relay_starts() -> None:
    parts = {**FURNACE_AND_COOLING, "ir": "isolation-relay"}
    wires = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "a: tc.Y ir.A1", "fb.C ir.A2")
    through = ("hot: fb.R ir.COM", "b: ir.NO ou.Y", "fb.C ou.C")
    assert role_of(parts, "a", *wires, *through) == "compressor"
    assert role_of(parts, "b", *wires, *through) == "compressor"
    assert role_of(parts, "hot", *wires, *through) == "supply + compressor"


def test_a_board_that_closes_the_fan_from_the_compressor_call_does_not_make_the_fan_call_one_for_the_compressor() -> (
    None
):
    board = {
        "title": "Board that joins G to Y while Y is hot",
        "summary": "",
        "terminals": terminals(R="supply", C="common", Y="call", G="call"),
        "elements": {
            "cool_call": {"is": "input", "between": ["Y", "C"], "ohms": 3000},
            "fan_relay": {"is": "coil", "between": ["G", "C"], "va_sealed": 3, "va_inrush": 6},
            "fan_too": {"is": "contact", "between": ["Y", "G"], "by": "cool_call"},
        },
        "effects": {"indoor-fan": "fan_relay"},
    }
    kinds = CATALOGUE.with_kinds({"joining-board": Kind.model_validate(board)})
    parts = {**FURNACE_AND_COOLING, "fb": "joining-board"}
    wires = ("xf.R fb.R", "xf.C fb.C", "fb.R tc.R", "y: fb.Y tc.Y", "g: fb.G tc.G", "fb.Y ou.Y", "fb.C ou.C")
    found = roles(sketch(parts, *wires), kinds)
    assert said(found["g"]) == "indoor-fan"
    assert said(found["y"]) == "compressor + indoor-fan"


def test_it_is_hot_in_the_calls_that_make_it_hot() -> None:
    found = roles(sketch(FURNACE_AND_COOLING, *FURNACE_WIRES))
    assert found["y"].hot_in == ("tc=cool-1",)
    assert set(found["g"].hot_in) == {"tc=fan", "tc=cool-1"}
    assert found["r"].hot_in[0] == "idle"
    assert found["back"].hot_in == ()


def roles_said(layout: Layout, catalogue: Any) -> dict[str, str]:
    return {name: said(role) for name, role in roles(layout, catalogue).items()}


@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize("name", [name for name, case in DEMOS.items() if len(case[0].parts) < 20])
def test_roles_of_demo_jobs_stay(name: str, change: str) -> None:
    layout, catalogue = DEMOS[name]
    other, _ = CHANGES[change](layout)
    assert_same_roles(roles_said(layout, catalogue), roles_said(other, catalogue), change)


@settings(max_examples=60)
@given(layout=layouts(), change=st.sampled_from(sorted(CHANGES)))
def test_roles_of_random_layouts_stay(layout: Layout, change: str) -> None:
    other, _ = CHANGES[change](layout)
    assert_same_roles(roles_said(layout, CATALOGUE), roles_said(other, CATALOGUE), change)


def assert_same_roles(before: Mapping[str, str], after: Mapping[str, str], change: str) -> None:
    for name, role in before.items():
        names = [f"x-{name[::-1]}"] if change == "other ids" else [name, f"{name}-a", f"{name}-b"]
        found = {after[new] for new in names if new in after}
        assert found == {role}, name


def test_no_role_hangs_on_a_point_that_it_was_not_given() -> None:
    layout = sketch(FURNACE_AND_COOLING, *FURNACE_WIRES)
    circuit = build_circuit(layout, CATALOGUE)
    idle = solve_all(circuit, situations_of(layout, CATALOGUE)[:1])
    found = roles_of(layout, CATALOGUE, circuit, idle)
    assert {name: said(role) for name, role in found.items()} == FURNACE_ROLES
