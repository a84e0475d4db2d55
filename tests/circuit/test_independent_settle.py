"""The engine against a naive second way, on every demo and on random small layouts."""

from __future__ import annotations

import cmath
from collections.abc import Iterator
from itertools import product
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import FaultName, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve, solve_all
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts
from tests.circuit.chance import FAULT_NAMES, fault_by_chance, layout_by_chance, situation_by_chance, without_opaque
from tests.circuit.independent_settle import Answer, Naive, rest, settle_naively
from tests.circuit.random_layouts import layouts_and_situations, relay_ladders

DEMOS = demo_layouts()
SMALL = [name for name, (layout, _) in DEMOS.items() if len(layout.parts) < 20]


def has_unknown(layout: Layout, catalogue: Catalogue) -> bool:
    try:
        Naive(layout, catalogue, Situation())
    except ValueError:
        return True
    return False


def agree(point: OperatingPoint, answer: Answer) -> None:
    assert point.settled == answer.settled, (point.unsettled, answer.why)
    if not point.settled:
        assert point.unsettled is not None
        assert point.unsettled.why == answer.why
        return
    assert set(point.effects) == answer.effects
    assert point.blown == pytest.approx(answer.blown, rel=1e-7)
    for name, state in point.elements.items():
        if name in answer.on:
            assert answer.on[name] == (state.state in ("pulled-in", "closed", "whole", "on")), name
    # A fault to ground may leave open which node stands for the reference; what a meter reads is between two.
    apart: dict[int, complex] = {}
    for name, terminal in point.terminals.items():
        assert terminal.floating == (name not in answer.volts), name
        if terminal.volts is not None:
            zero = 0j if not point.situation.faults else terminal.volts - answer.volts[name]
            shift = apart.setdefault(answer.component[name], zero)
            assert cmath.isclose(terminal.volts - shift, answer.volts[name], rel_tol=1e-8, abs_tol=1e-7), name
    pairs = {(answer.component[name], point.component[name]) for name in point.terminals}
    assert len(pairs) == len({a for a, _ in pairs}) == len({b for _, b in pairs})


@pytest.mark.parametrize("name", [name for name in SMALL if not has_unknown(*DEMOS[name])])
def test_agrees_on_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    situations = situations_of(layout, catalogue)
    for point in solve_all(build_circuit(layout, catalogue), situations):
        agree(point, settle_naively(layout, catalogue, point.situation))


def test_covers_nearly_all_demos() -> None:
    assert sum(not has_unknown(*DEMOS[name]) for name in SMALL) >= 0.75 * len(SMALL)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(), relay_ladders()))
def test_agrees_on_random_layouts(case: tuple[Layout, Situation]) -> None:
    layout, situation = case
    agree(solve(build_circuit(layout, CATALOGUE), situation), settle_naively(layout, CATALOGUE, situation))


@pytest.mark.slow
@settings(max_examples=4000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(), relay_ladders()))
def test_agrees_on_many_random_layouts(case: tuple[Layout, Situation]) -> None:
    layout, situation = case
    agree(solve(build_circuit(layout, CATALOGUE), situation), settle_naively(layout, CATALOGUE, situation))


COMPUTED = without_opaque(CATALOGUE)


def broken_cases(seed: str, count: int) -> Iterator[tuple[Layout, Situation]]:
    """Yield layouts of every kind through which all can be computed, each with up to three faults of any class."""
    chance = Random(seed)
    while count:
        layout = layout_by_chance(chance, COMPUTED)
        if "unknown" not in {value for part in layout.parts.values() for value in part.settings.values()}:
            count -= 1
            yield layout, situation_by_chance(chance, layout, COMPUTED, faults=chance.randint(0, 3))


def assert_agrees(cases: Iterator[tuple[Layout, Situation]]) -> None:
    for layout, situation in cases:
        point = solve(build_circuit(layout, COMPUTED), situation)
        agree(point, settle_naively(layout, COMPUTED, situation))


@pytest.mark.parametrize("seed", ["lark", "wren"])
def test_agrees_on_broken_layouts_of_any_kinds(seed: str) -> None:
    assert_agrees(broken_cases(seed, 60))


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["finch", "heron", "linnet", "plover", "robin", "swift"])
def test_agrees_on_many_broken_layouts_of_any_kinds(seed: str) -> None:
    assert_agrees(broken_cases(seed, 1500))


@pytest.mark.parametrize("is_", FAULT_NAMES)
def test_agrees_on_each_class_of_fault(is_: FaultName) -> None:
    chance = Random(is_)
    met = 0
    while met < 8:
        layout = layout_by_chance(chance, COMPUTED)
        situation = situation_by_chance(chance, layout, COMPUTED)
        fault = fault_by_chance(chance, layout, COMPUTED, dict(situation.set), is_)
        if fault is not None and "unknown" not in str(layout.parts):
            met += 1
            assert_agrees(iter([(layout, situation.model_copy(update={"faults": (fault,)}))]))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(most_parts=5), relay_ladders()))
def test_settled_state_is_among_all_consistent_states(case: tuple[Layout, Situation]) -> None:
    assert_is_consistent(*case)


@pytest.mark.parametrize("seed", ["snipe", "stork"])
def test_settled_state_of_broken_layouts_is_among_all_consistent_states(seed: str) -> None:
    assert sum(assert_is_consistent(*case, COMPUTED) for case in broken_cases(seed, 30)) >= 10


def assert_is_consistent(layout: Layout, situation: Situation, catalogue: Catalogue = CATALOGUE) -> bool:
    """Return whether the layout was small enough to try all states."""
    point = solve(build_circuit(layout, catalogue), situation)
    naive = Naive(layout, catalogue, situation)
    judged = [f"{part}.{name}" for part, name, *_ in naive.judged()]
    if not point.settled or len(judged) > 6:
        return False
    fuses = {name: whole and name not in point.blown for name, whole in rest(naive).items() if name not in judged}
    consistent = []
    for bits in product((False, True), repeat=len(judged)):
        state = {**dict(zip(judged, bits, strict=True)), **fuses}
        if naive.one_pass(state)[0] == state:
            consistent.append({name: state[name] for name in judged})
    assert {name: point.elements[name].state in ("pulled-in", "on") for name in judged} in consistent
    return True
