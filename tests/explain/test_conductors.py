"""What is lost without a conductor, and what is said of it."""

from __future__ import annotations

from typing import get_args

import pytest

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve, solve_all
from app.explain.explain import explain
from app.explain.losing import lost_without
from app.explain.purpose_words import ROLE_WORDS
from app.explain.role import Role
from app.explain.roles import RoleName
from tests.circuit.bench import CATALOGUE, demo_layouts, faulty, sketch
from tests.explain.test_roles import FURNACE_AND_COOLING, FURNACE_WIRES

SOUND = sketch(FURNACE_AND_COOLING, *FURNACE_WIRES)


def test_what_is_lost_is_what_a_cut_conductor_no_longer_runs() -> None:
    circuit = build_circuit(SOUND, CATALOGUE)
    points = solve_all(circuit, situations_of(SOUND, CATALOGUE))
    lost = lost_without(circuit, list(SOUND.conductors), points)
    for name in SOUND.conductors:
        said = {each.situation: (set(each.effects), set(each.instead)) for each in lost[name]}
        for point in points:
            cut = solve(
                circuit,
                faulty({"is": "conductor-open", "at": f"conductor:{name}"}, calls=dict(point.situation.calls)),
            )
            before, after = set(point.effects), set(cut.effects)
            calls = " ".join(f"{part}={call}" for part, names in point.situation.calls.items() for call in names)
            assert said.get(calls or "idle", (set(), set())) == (before - after, after - before)


# By hand: the call that needs the conductor, and what goes with it.
NEEDED = {
    "w": ("heat 1", "furnace heat"),
    "y": ("cool 1", "compressor"),
    "g": ("fan", "indoor fan"),
    "r": ("fan", "indoor fan"),
}


@pytest.mark.parametrize("name", NEEDED)
def test_it_is_said_which_call_lacks_what(name: str) -> None:
    call, effect = NEEDED[name]
    words = explain(build_circuit(SOUND, CATALOGUE), Situation(), f"conductor:{name}").words
    assert any(line.startswith("Without it") and call in line and effect in line for line in words)


def test_a_reversing_valve_that_is_lost_heats_where_it_should_cool() -> None:
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    found = explain(build_circuit(layout, catalogue), Situation(), "conductor:w7")
    assert found.purpose is not None
    assert (found.purpose.role.name, found.purpose.role.mode) == ("reversing-valve", "cooling")
    instead = {effect for each in found.purpose.lost for _, effect in each.instead}
    assert instead == {"heat-pump-heating"}


def test_what_only_a_frosted_coil_needs_is_found_too() -> None:
    layout, catalogue = demo_layouts()["post-office-dual-fuel:as-left"]
    found = explain(build_circuit(layout, catalogue), Situation(), "conductor:w18")
    assert found.purpose is not None
    assert found.purpose.role.name == "defrost-output"
    assert {effect for each in found.purpose.lost for _, effect in each.effects} >= {"furnace-heat"}
    assert any("defrost thermostat" in line for line in found.words)


def test_a_spare_conductor_says_that_it_joins_nothing() -> None:
    found = explain(build_circuit(SOUND, CATALOGUE), Situation(), "conductor:cap")
    assert found.purpose is not None
    assert found.purpose.role == Role("spare")
    assert found.words == ("Conductor cap, landed nowhere to landed nowhere: spare: it joins nothing.",)


def test_every_role_has_its_words() -> None:

    assert set(get_args(RoleName)) == set(ROLE_WORDS)
