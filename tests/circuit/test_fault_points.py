"""Tables of faults by situations: arrays against the reference, place by place, for every class of fault."""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.catalogue import Catalogue
from app.circuit.batch.fault_table import FaultTable
from app.circuit.broken_layout import broken_layout
from app.circuit.fault_points import FaultSet, best_table, fault_points, with_faults
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.pure import solve_each
from app.circuit.situation import FaultName, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all_with
from app.job.model import Layout, UnknownEnd
from app.job.refusal import Refused
from app.job.sketch import Parts
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch
from tests.circuit.every_fault import every_fault
from tests.circuit.random_layouts import layouts_and_situations, relay_ladders

DEMOS = {name: each for name, each in demo_layouts().items() if len(each[0].parts) < 20}
DUAL_FUEL = DEMOS["post-office-dual-fuel:as-left"]
WITHIN_VOLTS = 26.4e-9


def same_states(one: OperatingPoint, other: OperatingPoint) -> bool:
    """Return whether two points tell the same apart from volts and amps."""
    return (
        (one.settled, one.unsettled, one.effects, one.effects_in_doubt)
        == (other.settled, other.unsettled, other.effects, other.effects_in_doubt)
        and set(one.blown) == set(other.blown)
        and same_components(one, other)
        and all(each.state == other.elements[name].state for name, each in one.elements.items())
    )


def same_components(one: OperatingPoint, other: OperatingPoint) -> bool:
    """Return whether the same terminals lie together; the numbers of components only tell that."""
    pairs = {(number, other.component[name]) for name, number in one.component.items()}
    return len(pairs) == len(set(one.component.values())) == len(set(other.component.values()))


def hold_against_reference(
    layout: Layout, catalogue: Catalogue, bases: Sequence[Situation], faults: Sequence[FaultSet], chance: random.Random
) -> None:
    """Assert that each place of the table is what the reference gives for it alone."""
    table = fault_points(build_circuit(layout, catalogue), bases, faults)
    circuit = build_circuit(layout, catalogue)
    situations = [with_faults(base, each) for each in faults for base in bases]
    reference = solve_all_with(solve_each, circuit, situations)
    assert table.count == len(reference)
    terminals = sorted(circuit.terminals)
    pairs = [chance.sample(terminals, 2) for _ in range(8)]
    readings = [table.volts_between(one, other) for one, other in pairs]
    for place, point in enumerate(reference):
        fault, base = divmod(place, len(bases))
        said = faults[fault], bases[base]
        assert table.effects(fault, base) == point.effects, said
        for (one, other), volts in zip(pairs, readings, strict=True):
            told, there = volts[fault][base], point.volts_between(one, other)
            assert (told is None) == (there is None), (one, other, said)
            assert told is None or there is None or abs(told - there) <= WITHIN_VOLTS, (one, other, said)
        if chance.random() < 0.2:
            assert same_states(table.point(fault, base), point), said


def has_unseen_ends(layout: Layout) -> bool:
    return any(isinstance(end, UnknownEnd) for each in layout.conductors.values() for end in each.ends)


def some_of(layout: Layout, catalogue: Catalogue, chance: random.Random, singles: int, pairs: int) -> list[FaultSet]:
    every = every_fault(layout, catalogue)
    found: list[FaultSet] = [()]
    found += [(each,) for each in chance.sample(every, min(singles, len(every)))]
    found += [tuple(chance.sample(every, 2)) for _ in range(pairs if len(every) > 1 else 0)]
    return [each for each in found if can_be_together(layout, each)]


def can_be_together(layout: Layout, faults: FaultSet) -> bool:
    """Return whether the second fault still finds its place: a conductor that is gone cannot be swapped any more."""
    try:
        broken_layout(layout, faults)
    except Refused:
        return False
    return True


@pytest.mark.parametrize("name", DEMOS)
def test_some_faults_of_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    chance = random.Random(f"faults of {name}")
    bases = situations_of(layout, catalogue)
    # Where ends were not seen the reference weighs each of them, which takes its time.
    singles, pairs, most = (3, 1, 1) if has_unseen_ends(layout) else (20, 6, 2)
    bases = [bases[0], *chance.sample(bases[1:], min(most, len(bases) - 1))]
    hold_against_reference(layout, catalogue, bases, some_of(layout, catalogue, chance, singles, pairs), chance)


def test_each_class_of_fault_in_dual_fuel() -> None:
    layout, catalogue = DUAL_FUEL
    every = every_fault(layout, catalogue)
    faults: list[FaultSet] = []
    for name in get_args(FaultName):
        of_class = [each for each in every if each.is_ == name]
        assert of_class, f"no fault of class {name} is tried"
        faults += [(each,) for each in of_class[:: max(1, len(of_class) // 4)]]
    bases = [
        each.model_copy(update={"supply_percent": supply})
        for each in situations_of(layout, catalogue)[:5]
        for supply in (100.0, 80.0)
    ]
    hold_against_reference(layout, catalogue, bases, faults, random.Random("each class"))


@pytest.mark.slow
@pytest.mark.parametrize("name", [name for name, (layout, _) in DEMOS.items() if not has_unseen_ends(layout)])
def test_every_fault_of_demo_in_every_situation(name: str) -> None:
    layout, catalogue = DEMOS[name]
    faults: list[FaultSet] = [(each,) for each in every_fault(layout, catalogue)]
    hold_against_reference(layout, catalogue, situations_of(layout, catalogue), faults, random.Random(name))


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.one_of(layouts_and_situations(), relay_ladders()), st.booleans(), st.randoms(use_true_random=False))
def test_faults_of_random_layouts(case: tuple[Layout, Situation], long: bool, chance: random.Random) -> None:
    layout, situation = case
    if long:
        # Only conductors with a length can be cut and swapped without compiling the network anew.
        wires = {name: each.model_copy(update={"length_m": 9.0}) for name, each in layout.conductors.items()}
        layout = layout.model_copy(update={"conductors": wires})
    bases = [situation, Situation()]
    hold_against_reference(layout, CATALOGUE, bases, some_of(layout, CATALOGUE, chance, 6, 4), chance)


def test_a_source_of_unknown_phase_beside_a_known_one_is_tried_both_ways() -> None:
    parts: Parts = {"xa": "supply", "xb": {"kind": "supply", "settings": {"phase_deg": "unknown"}}}
    table = fault_points(build_circuit(sketch(parts, "xa.C xb.C"), CATALOGUE), [Situation()], [()])
    assert table.volts_between("xa.R", "xa.C")[0][0] == pytest.approx(26.4)
    assert table.volts_between("xa.R", "xb.R")[0][0] is None


def test_arrays_answer_a_table_here() -> None:
    layout, catalogue = DUAL_FUEL
    assert best_table() is not None
    faults: list[FaultSet] = [(each,) for each in every_fault(layout, catalogue)]
    table = fault_points(build_circuit(layout, catalogue), [Situation()], faults)
    assert isinstance(table, FaultTable)
    assert table.alone == {}, "a fault of the demo was compiled anew"
