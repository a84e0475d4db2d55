"""Ends of columns as the reference would give them.

An end is made by one pass of the reference itself from the state that the arrays came to, with the solution that they
found; so whatever else the reference tells of a pass is told here too, and a state that it would not keep is settled
by it from the start.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from app.circuit.batch.settle_columns import Ended
from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.pure import solve_each
from app.circuit.scene import Scene
from app.circuit.settle import Settled, rest_of, settle_from
from app.circuit.state import Question, State

FEWEST_FOR_ARRAYS = 16
"""Fewer new questions than these are solved one by one."""


class ColumnEnds:
    """The ends of the columns that have settled as arrays."""

    def __init__(self, ended: Ended) -> None:
        self.ended = ended

    def settled(self, column: int, scene: Scene) -> Settled | None:
        """Return the end of a column, whose scene this is; None where the reference would not stay in its state."""
        state = self._state(column, scene)
        run = settle_from(scene, state, [])
        try:
            next(run)
            (solution,) = self.ended.questions.solutions_of(self.ended.question[[column]])
            run.send(solution)
        except StopIteration as end:
            settled: Settled = end.value
            blown = {fuse: amps for fuse, amps in enumerate(self.ended.blown[:, column].tolist()) if amps}
            # A cycle has several states, and a fuse that opens makes another one.
            stays = [snapshot.state for snapshot in settled.snapshots] == [state]
            return replace(settled, blown=blown) if stays else None
        return None

    def solve(self, network: Network, questions: Sequence[Question]) -> list[Solution]:
        """Answer linear questions about what was asked, those that columns have asked without solving them again."""
        asked = self.ended.questions
        numbers = asked.numbers_of(questions)
        new = np.flatnonzero(numbers < 0)
        if len(new) >= FEWEST_FOR_ARRAYS:
            return asked.solutions_of(asked.ask(questions))
        solved = iter(solve_each(network, [questions[at] for at in new.tolist()]))
        known = iter(asked.solutions_of(numbers[numbers >= 0]))
        return [next(solved if number < 0 else known) for number in numbers.tolist()]

    def _state(self, column: int, scene: Scene) -> State:
        held, opened = 0, 0
        for place, bits in zip(scene.network.places, self.ended.bits[:, column].tolist(), strict=True):
            count = len(place.template.judged)
            held |= (bits & (1 << count) - 1) << place.judged
            opened |= bits >> count << place.fuse
        numbers = self.ended.memory[:, column].tolist()
        memory = (table.memories[number] for table, number in zip(self.ended.asked.tables, numbers, strict=True))
        return rest_of(scene)._replace(held=held, opened=opened, memory=tuple(memory))
