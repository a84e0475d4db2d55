"""Kirchhoff's and power's balance, worked out from what is answered and from the layout."""

from __future__ import annotations

import cmath
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.seen import Seen
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import views_of
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts
from tests.circuit.chance import layout_by_chance, situation_by_chance
from tests.circuit.random_layouts import layouts_and_situations

DEMOS = {name: case for name, case in demo_layouts().items() if len(case[0].parts) < 20}


def balance(seen: Seen) -> None:
    """At every point the amps of all branches and joins add up to zero; sources give what the rest takes."""
    network = seen.network
    into = [0j] * len(network.points)
    for branch, amps in zip(network.branches, seen.amps, strict=True):
        into[branch.points[0]] -= amps
        into[branch.points[1]] += amps
    for join, amps in zip(network.joins, seen.join_amps, strict=True):
        into[join.points[0]] -= amps
        into[join.points[1]] += amps
    assert max(map(abs, into)) <= 1e-9
    given_watts = taken = 0j
    emf = {s.slot: (s.emf, s.siemens) for s in seen.snapshot.scene.figures.sources if seen.snapshot.on >> s.slot & 1}
    for at, amps in enumerate(seen.amps):
        across = seen.across(at) or 0j
        if at in emf:
            rated, siemens = emf[at]
            # A lone source whose phase nobody knows may be turned round: its size is what it is.
            driven = across - amps / siemens
            assert cmath.isclose(abs(driven), abs(rated) * seen.snapshot.scene.supply, rel_tol=1e-9)
            given_watts += driven * (-amps).conjugate()
            taken += abs(amps) ** 2 / siemens
        else:
            taken += across * amps.conjugate()
    assert cmath.isclose(given_watts, taken, rel_tol=1e-9, abs_tol=1e-9)


def balanced(layout: Layout, catalogue: Catalogue, situations: list[Situation]) -> None:
    circuit = build_circuit(layout, catalogue)
    for situation in situations:
        for view in views_of(circuit, situation)[1]:
            for seen in view.seen:
                balance(seen)


@pytest.mark.parametrize("name", DEMOS)
def test_demo_is_in_balance(name: str) -> None:
    layout, catalogue = DEMOS[name]
    balanced(layout, catalogue, situations_of(layout, catalogue))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts_and_situations())
def test_random_networks_are_in_balance(case: tuple[Layout, Situation]) -> None:
    layout, situation = case
    balanced(layout, CATALOGUE, [situation])


ADDING = ("short", "to-ground", "coil-shorted")
"""Faults that add a branch, which is none of the network's own; ngspice and the second way hold those."""


def balanced_by_chance(seed: str, count: int) -> None:
    chance = Random(seed)
    for _ in range(count):
        layout = layout_by_chance(chance, CATALOGUE, unknown=0.01)
        situation = situation_by_chance(chance, layout, CATALOGUE, faults=chance.randint(0, 2))
        faults = tuple(fault for fault in situation.faults if fault.is_ not in ADDING)
        balanced(layout, CATALOGUE, [situation.model_copy(update={"faults": faults})])


def test_layouts_of_any_kinds_are_in_balance() -> None:
    balanced_by_chance("a few", 60)


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["brook", "beck", "burn"])
def test_many_layouts_of_any_kinds_are_in_balance(seed: str) -> None:
    balanced_by_chance(seed, 2000)
