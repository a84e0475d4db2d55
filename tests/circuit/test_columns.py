"""Pieces of the array way, each by itself: questions asked again, ends that do not stay, branches alike."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from app.circuit.batch.added import Added, with_added
from app.circuit.batch.asked import asked_by
from app.circuit.batch.elimination import eliminate_columns, fed_levels
from app.circuit.batch.ends import ColumnEnds
from app.circuit.batch.levels import levels_of
from app.circuit.batch.questions import Questions
from app.circuit.batch.settle_columns import settle_columns
from app.circuit.batch.together import SettledTogether
from app.circuit.ends import end_of
from app.circuit.faults import injected
from app.circuit.network import Network, build_circuit
from app.circuit.plan import plan_elimination
from app.circuit.pure import solve_each
from app.circuit.scene import Scene, scene_of
from app.circuit.settle import rest_of
from app.circuit.settling import settle_in_rounds
from app.circuit.situation import Situation
from app.circuit.state import Question
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, faulty, sketch

PULLED_IN = sketch({"xf": "fused-supply", "k": "relay", "la": "lamp"},
                   "xf.R k.A", "k.B xf.C", "xf.R k.COM", "k.NO la.A", "la.B xf.C")  # fmt: skip


def scenes_of(layout: Layout, *situations: Situation) -> tuple[Network, list[Scene]]:
    network = build_circuit(layout, CATALOGUE).networks[0]
    each = [(situation, injected(layout, CATALOGUE, situation.faults)) for situation in situations]
    return network, [scene_of(network, layout, situation, faults, {}) for situation, faults in each]


def question_at_rest(scene: Scene) -> Question:
    state = rest_of(scene)
    return Question(scene.figures, scene.cast.outcome(state.held, state.opened, state.memory)[0], scene.extras)


def test_a_question_that_was_asked_is_not_solved_again() -> None:
    network, scenes = scenes_of(PULLED_IN, Situation())
    questions = Questions(asked_by(network, scenes))
    first = question_at_rest(scenes[0])
    other = first._replace(on=first.on ^ 1 << network.branch_of["k.nc"])
    numbers = questions.ask([first, other])
    assert questions.ask([other, first]).tolist() == numbers.tolist()[::-1]
    assert questions.solutions()[0].shape[1] == 2


def test_questions_that_came_up_and_new_ones_each_get_their_own_answer() -> None:
    network, scenes = scenes_of(PULLED_IN, Situation())
    ends = ColumnEnds(settle_columns(asked_by(network, scenes)))
    known = question_at_rest(scenes[0])
    new = known._replace(on=known.on ^ 1 << network.branch_of["k.nc"] ^ 1 << network.branch_of["xf.fuse"])
    assert ends.ended.questions.numbers_of([known, new]).tolist() == [0, -1]
    for asked in ([known, new], [new, known], [new], [known]):
        for found, right in zip(ends.solve(network, asked), solve_each(network, asked), strict=True):
            assert found.volts == pytest.approx(right.volts, abs=1e-9)
            assert found.root == right.root


def test_an_end_in_which_the_reference_does_not_stay_is_left_to_it() -> None:
    network, scenes = scenes_of(PULLED_IN, Situation())
    ended = settle_columns(asked_by(network, scenes))
    (right,) = settle_in_rounds(network, scenes, solve_each)
    found = ColumnEnds(ended).settled(0, scenes[0])
    assert found is not None
    assert end_of(found) == end_of(right)
    wrong = ended.bits.copy()
    wrong[[place.part for place in network.places].index("k"), 0] ^= 1
    assert ColumnEnds(replace(ended, bits=wrong)).settled(0, scenes[0]) is None


def test_a_state_of_a_cycle_is_no_end() -> None:
    network, scenes = scenes_of(
        sketch({"xf": "supply", "k": "relay"}, "xf.R k.COM", "k.NC k.A", "k.B xf.C"), Situation()
    )
    ended = settle_columns(asked_by(network, scenes))
    assert settle_in_rounds(network, scenes, solve_each)[0].unsettled is not None
    assert ColumnEnds(ended).settled(0, scenes[0]) is None


def test_a_fuse_that_opened_and_one_that_a_fault_has_opened_are_two_ends() -> None:
    short = {"is": "short", "at": ("terminal:xf.R", "terminal:xf.C")}
    taken_out = {"is": "fuse-open", "at": "element:xf.fuse"}
    network, scenes = scenes_of(PULLED_IN, faulty(short), faulty(short, taken_out))
    settled = SettledTogether(network, scenes)
    assert settled.left == []
    blown, open_before = (settled.settled(at) for at in range(2))
    assert blown is not None
    assert open_before is not None
    assert blown.blown
    assert not open_before.blown
    assert blown.snapshots[0].state == open_before.snapshots[0].state
    assert settled.keys[0] != settled.keys[1]


@pytest.mark.parametrize(("ohms", "alike"), [(1e-4, True), (1.0, False)])
def test_two_added_branches_that_are_nearly_one_are_not_told_apart(ohms: float, alike: bool) -> None:
    # Both lie across 1000 Ω; with 0.1 mΩ each, all that tells them apart is 0.0000002 of what both have in common.
    levels = levels_of(plan_elimination(2, ((0, 1),)))
    empty = np.zeros((2, 1), dtype=complex)
    base = eliminate_columns(levels, fed_levels(levels, []), np.array([[1e-3 + 0j]]), empty)
    ends = np.array([0], dtype=np.intp), np.array([1], dtype=np.intp)
    first, second = Added(*ends, np.array([1e-4])), Added(*ends, np.array([ohms]))
    assert with_added(levels, base, np.array([0], dtype=np.intp), first, second)[2].tolist() == [alike]
