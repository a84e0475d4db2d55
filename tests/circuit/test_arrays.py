"""numpy against the pure way: equal answers, to 1e-9 of the source volts."""

from __future__ import annotations

import random
from contextlib import suppress
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.catalogue.catalogue import Catalogue
from app.circuit.batch import arrays
from app.circuit.batch.settle_columns import PASSES_FOR_ALL
from app.circuit.batch.together import SettledTogether
from app.circuit.ends import end_of
from app.circuit.faults import NOTHING
from app.circuit.network import Network, build_circuit
from app.circuit.pure import solve_each
from app.circuit.scene import Scene, scene_of
from app.circuit.settle import Snapshot, rest_of, settle_from
from app.circuit.settling import best_solver, settle_in_rounds
from app.circuit.situation import Fault, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all_with
from app.circuit.state import Question
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts, sketch
from tests.circuit.random_layouts import layouts_and_situations, relay_ladders

DEMOS = demo_layouts()
SMALL_DEMOS = [name for name, (layout, _) in DEMOS.items() if len(layout.parts) < 20]


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


def test_each_of_more_contacts_than_two_words_hold_opens_the_row_that_it_lies_in() -> None:
    # 130 switches of 0.02 ohm in one row before a lamp of 57.6 ohm, on 26.4 V behind 1.44 ohm. What conducts is kept
    # as bits, 64 to a word.
    row = {f"s{at:03}": "hand-switch" for at in range(130)}
    switches = [*row]
    wires = [f"{one}.B {other}.A" for one, other in pairwise(switches)]
    layout = sketch({"la": "lamp", **row, "xf": "supply"}, "xf.R s000.A", *wires, f"{switches[-1]}.B la.A", "la.B xf.C")
    asked = [Situation(), *(Situation(set={f"{name}.hand": "open"}) for name in switches)]
    lit, *dark = solve_all_with(arrays.solve_together, build_circuit(layout, CATALOGUE), asked)
    assert lit.elements["la.load"].volts == pytest.approx(26.4 * 57.6 / (1.44 + 130 * 0.02 + 57.6))
    assert [point.elements["la.load"].volts for point in dark] == [0.0] * len(switches)


def trail_of(network: Network, scene: Scene) -> list[Snapshot]:
    """Return the passes that the reference takes."""
    trail: list[Snapshot] = []
    run = settle_from(scene, rest_of(scene), trail)
    with suppress(StopIteration):
        question = next(run)
        while True:
            question = run.send(solve_each(network, [question])[0])
    return trail


def together(layout: Layout, catalogue: Catalogue, situations: list[Situation]) -> None:
    """Settle each network as arrays however few they are, and hold every end against the reference."""
    circuit = build_circuit(layout, catalogue)
    for network in circuit.networks:
        scenes = [scene_of(network, layout, situation, NOTHING, {}) for situation in situations]
        reference = settle_in_rounds(network, scenes, solve_each)
        settled = SettledTogether(network, scenes)
        for at, there in enumerate(reference):
            if at in settled.left:
                continue
            here = settled.settled(at)
            assert here is not None, "the reference does not stay where the arrays came to"
            assert there.unsettled is None
            assert (here.snapshots[0].state, here.snapshots[0].on) == (there.snapshots[0].state, there.snapshots[0].on)
            assert here.blown == pytest.approx(there.blown)
            volts = zip(here.snapshots[0].solution.volts, there.snapshots[0].solution.volts, strict=True)
            assert all(abs(one - other) <= 26.4e-9 for one, other in volts)
            assert here.snapshots[0].solution.root == there.snapshots[0].solution.root
            ends = [end_of(reference[other]) == end_of(there) for other in range(len(reference))]
            keys = [settled.keys[other] == settled.keys[at] for other in range(len(reference))]
            left = set(settled.left)
            assert all(one == other for o, (one, other) in enumerate(zip(ends, keys, strict=True)) if o not in left)
        for at in settled.left:
            # A fuse may open in a cycle, which then settles after all.
            plain = reference[at].unsettled is None and not reference[at].blown and not network.touched
            assert not plain or len(trail_of(network, scenes[at])) > PASSES_FOR_ALL, "what settles plainly is left over"


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(layouts_and_situations(), relay_ladders()), st.data())
def test_ends_equal_on_random_networks(case: tuple[Layout, Situation], data: st.DataObject) -> None:
    layout, situation = case
    supplies = data.draw(st.lists(st.sampled_from([100.0, 88.0, 106.0, 70.0, 40.0]), max_size=4))
    more = [situation.model_copy(update={"supply_percent": supply}) for supply in supplies]
    together(layout, CATALOGUE, [situation, Situation(), *more])


@pytest.mark.parametrize("name", SMALL_DEMOS)
def test_ends_equal_on_demo(name: str) -> None:
    layout, catalogue = DEMOS[name]
    asked = situations_of(layout, catalogue)
    low = [each.model_copy(update={"supply_percent": 80.0}) for each in asked]
    together(layout, catalogue, [*asked, *low])


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts_and_situations(), st.integers(0, 40))
def test_both_ways_agree_on_a_knife_edge(case: tuple[Layout, Situation], which: int) -> None:
    """The supply is chosen so that an element stands exactly at its threshold, as near as numbers can be."""
    layout, situation = case
    situation = situation.model_copy(update={"supply_percent": 100.0})
    circuit = build_circuit(layout, CATALOGUE)
    edges: list[float] = []
    for network in circuit.networks:
        scene = scene_of(network, layout, situation, NOTHING, {})
        # The first pass is the same at every supply, so that what it sees at the edge is judged at the edge.
        volts = trail_of(network, scene)[0].solution.volts
        for at, (a, b) in enumerate(network.judged_nodes):
            across = abs(volts[a] - volts[b])
            edges += (100 * scene.figures.rises[at] / across,) if across else ()
    edges = [edge for edge in edges if 0 < edge < 200]
    if edges:
        edge = edges[which % len(edges)]
        near = [edge * (1 + step * 1e-15) for step in range(-4, 5)]
        situations = [situation.model_copy(update={"supply_percent": min(each, 200.0)}) for each in near]
        together(layout, CATALOGUE, situations)
        assert largest_difference(layout, CATALOGUE, situations) <= 26.4e-9


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts_and_situations(), st.randoms(use_true_random=False))
def test_the_last_node_of_a_component_is_a_common_wherever_it_holds_one(
    case: tuple[Layout, Situation], chance: random.Random
) -> None:
    """Others take the last node as the reference of its component, in every way of solving."""
    layout, situation = case
    for network in build_circuit(layout, CATALOGUE).networks:
        scene = scene_of(network, layout, situation, NOTHING, {})
        on, _ = scene.cast.outcome(0, 0, scene.cast.rest_memory())
        commons = {network.branches[source.slot].nodes[1] for source in scene.figures.sources} | {network.earth}
        questions = []
        for added in range(4 if network.size > 1 else 0):
            pairs = [sorted(chance.sample(range(network.size), 2)) for _ in range(min(added, 2))]
            questions.append(Question(scene.figures, on, tuple(sorted((a, b, 2.0) for a, b in pairs))))
        for way in (solve_each, arrays.solve_together):
            for solution in way(network, questions) if questions else ():
                assert all(solution.volts[root] == 0 for root in solution.root)
                for node in commons:
                    assert solution.root[node] in commons
