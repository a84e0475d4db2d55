"""The engine against a naive second way, on every demo and on random small layouts."""

from __future__ import annotations

import cmath
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve, solve_all
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts
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
    for name, state in point.terminals.items():
        assert state.floating == (name not in answer.volts), name
        if state.volts is not None:
            assert cmath.isclose(state.volts, answer.volts[name], rel_tol=1e-8, abs_tol=1e-7), name
    pairs = {(answer.component[name], point.component[name]) for name in point.terminals}
    assert len(pairs) == len({a for a, _ in pairs}) == len({b for _, b in pairs})


@pytest.mark.parametrize("name", [name for name in SMALL if not has_unknown(*DEMOS[name])])
def test_agrees_on_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    situations = situations_of(layout, catalogue)
    for point in solve_all(build_circuit(layout, catalogue), situations):
        agree(point, settle_naively(layout, catalogue, point.situation))


def test_covers_nearly_all_demos() -> None:
    assert sum(not has_unknown(*DEMOS[name]) for name in SMALL) >= len(SMALL) - 3


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


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(most_parts=5), relay_ladders()))
def test_settled_state_is_among_all_consistent_states(case: tuple[Layout, Situation]) -> None:
    layout, situation = case
    point = solve(build_circuit(layout, CATALOGUE), situation)
    naive = Naive(layout, CATALOGUE, situation)
    judged = [f"{part}.{name}" for part, name, *_ in naive.judged()]
    if not point.settled or len(judged) > 6:
        return
    fuses = {name: name not in point.blown for name in rest(naive) if name not in judged}
    consistent = []
    for bits in product((False, True), repeat=len(judged)):
        state = {**dict(zip(judged, bits, strict=True)), **fuses}
        if naive.one_pass(state)[0] == state:
            consistent.append({name: state[name] for name in judged})
    ours = {name: point.elements[name].state in ("pulled-in", "on") for name in judged}
    assert ours in consistent
