"""Many scenes of one network settled together, and their ends as the reference would give them.

An end is made by one pass of the reference itself from the state that the arrays came to, with the solution that they
found; so whatever else the reference tells of a pass is told here too, and a state that it would not keep is settled
by it from the start.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import replace

import numpy as np

from app.circuit.batch.asked import asked_by
from app.circuit.batch.distinct import distinct_columns
from app.circuit.batch.part_table import Numbers, Words
from app.circuit.batch.settle_columns import Ended, settle_columns
from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.scene import Scene
from app.circuit.settle import Settled, rest_of, settle_from
from app.circuit.state import State


class SettledTogether:
    """Ends of scenes, by their places in what was asked. ``left`` are the places of those that have not settled here.

    ``keys`` tell ends apart, whatever the supply and the calls that led there.
    """

    def __init__(self, network: Network, scenes: Sequence[Scene]) -> None:
        self.network = network
        self.scenes = scenes
        self.ended = settle_columns(asked_by(network, scenes))
        self.left: list[int] = np.flatnonzero(self.ended.odd).tolist()
        self.keys: list[Hashable] = [(id(self), number) for number in _distinct_ends(self.ended, scenes).tolist()]
        self._solutions: dict[int, Solution] = {}

    def settled(self, at: int) -> Settled | None:
        """Return the end of a scene; None where the reference would not stay in the state that was found."""
        scene, ended = self.scenes[at], self.ended
        state = self._state(at)
        run = settle_from(scene, state, [])
        try:
            next(run)
            run.send(self._solution(int(ended.question[at])))
        except StopIteration as end:
            settled: Settled = end.value
            blown = {fuse: amps for fuse, amps in enumerate(ended.blown[:, at].tolist()) if amps}
            stays = settled.unsettled is None and settled.snapshots[0].state == state and not settled.blown
            return replace(settled, blown=blown) if stays else None
        return None

    def _state(self, at: int) -> State:
        held, opened = 0, 0
        for place, bits in zip(self.network.places, self.ended.bits[:, at].tolist(), strict=True):
            count = len(place.template.judged)
            held |= (bits & (1 << count) - 1) << place.judged
            opened |= bits >> count << place.fuse
        numbers = self.ended.memory[:, at].tolist()
        memory = (table.memories[number] for table, number in zip(self.ended.asked.tables, numbers, strict=True))
        return rest_of(self.scenes[at])._replace(held=held, opened=opened, memory=tuple(memory))

    def _solution(self, question: int) -> Solution:
        found = self._solutions.get(question)
        if found is None:
            volts, root = self.ended.questions.solutions()
            found = self._solutions[question] = Solution(volts[:, question].tolist(), root[:, question].tolist())
        return found


def _distinct_ends(ended: Ended, scenes: Sequence[Scene]) -> Numbers:
    """Return for each column the number of its end."""
    asked = ended.asked
    joins: dict[Hashable, int] = {}
    rows = [ended.question, np.array([joins.setdefault(scene.joins, len(joins)) for scene in scenes], dtype=np.int64)]
    rows += list(ended.bits)
    rows += [table.effects(row) for table, row in zip(asked.tables, ended.row, strict=True)]
    rows += list((ended.blown > 0).astype(np.int64))
    keys: Words = np.array(rows, dtype=np.int64).astype(np.uint64)
    return distinct_columns(keys)[1]
