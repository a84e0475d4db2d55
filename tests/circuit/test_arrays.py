"""numpy against the pure way: equal answers, to 1e-9 of the source volts."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.catalogue import Catalogue
from app.circuit.batch import arrays
from app.circuit.network import build_circuit
from app.circuit.pure import solve_each
from app.circuit.settling import best_solver
from app.circuit.situation import Fault, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all_with
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts
from tests.circuit.random_layouts import layouts_and_situations, relay_ladders

DEMOS = demo_layouts()


def largest_difference(layout: Layout, catalogue: Catalogue, situations: list[Situation]) -> float:
    """Return the largest difference of a terminal's volts between the two ways; all else must be the same."""
    pure = solve_all_with(solve_each, build_circuit(layout, catalogue), situations)
    columns = solve_all_with(arrays.solve_together, build_circuit(layout, catalogue), situations)
    worst = 0.0
    for one, other in zip(pure, columns, strict=True):
        assert (one.settled, one.unsettled, one.effects) == (other.settled, other.unsettled, other.effects)
        assert dict(one.component) == dict(other.component)
        assert set(one.blown) == set(other.blown)
        for name, state in one.terminals.items():
            again = other.terminals[name]
            assert (state.floating, state.unknown, state.reference) == (again.floating, again.unknown, again.reference)
            if state.volts is not None and again.volts is not None:
                worst = max(worst, abs(state.volts - again.volts))
        for name, element in one.elements.items():
            assert element.state == other.elements[name].state
    return worst


def test_numpy_is_what_a_large_batch_uses_here() -> None:
    assert best_solver() is arrays.solve_together


@pytest.mark.parametrize("name", DEMOS)
def test_equal_on_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    situations = situations_of(layout, catalogue)
    assert largest_difference(layout, catalogue, situations if len(layout.parts) < 20 else situations[::15]) <= 26.4e-9


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(), relay_ladders()), st.data())
def test_equal_on_random_networks(case: tuple[Layout, Situation], data: st.DataObject) -> None:
    layout, situation = case
    terminals = [
        f"terminal:{part}.{letter}"
        for part in layout.parts
        for letter in CATALOGUE.kinds[layout.parts[part].kind].terminals
    ]
    pairs = st.lists(st.sampled_from(terminals), min_size=2, max_size=2, unique=True)
    ohms = st.sampled_from([0.0, 0.5, 100.0, 1e6])
    shorts = data.draw(st.lists(st.tuples(pairs, ohms), max_size=4))
    situations = [situation, Situation()]
    for (one, other), value in shorts:
        fault = Fault.model_validate({"is": "short", "at": (one, other), "ohms": value})
        situations.append(situation.model_copy(update={"faults": (fault,)}))
    assert largest_difference(layout, CATALOGUE, situations) <= 26.4e-9
