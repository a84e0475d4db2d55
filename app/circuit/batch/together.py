"""Many scenes of one network settled together; what comes of them is told by place."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

import numpy as np

from app.circuit.batch.array_types import Numbers, Words
from app.circuit.batch.asked import asked_by
from app.circuit.batch.distinct import distinct_columns
from app.circuit.batch.ends import ColumnEnds
from app.circuit.batch.settle_columns import Ended, settle_columns
from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.scene import Scene
from app.circuit.settle import Settled
from app.circuit.state import Question


class SettledTogether:
    """Ends of scenes, by their places in what was asked. ``left`` are the places of those that have not settled here.

    ``keys`` tell ends apart, whatever the supply and the calls that led there.
    """

    def __init__(self, network: Network, scenes: Sequence[Scene]) -> None:
        self.scenes = scenes
        ended = settle_columns(asked_by(network, scenes))
        self.ends = ColumnEnds(ended)
        self.left: list[int] = np.flatnonzero(ended.odd).tolist()
        self.keys: list[Hashable] = [(id(self), number) for number in _distinct_ends(ended, scenes).tolist()]

    def settled(self, at: int) -> Settled | None:
        """Return the end of a scene; None where the reference has to settle it."""
        return self.ends.settled(at, self.scenes[at])

    def solve(self, network: Network, questions: Sequence[Question]) -> list[Solution]:
        """Answer linear questions about what was asked; those that came up already are not solved again."""
        return self.ends.solve(network, questions)


def _distinct_ends(ended: Ended, scenes: Sequence[Scene]) -> Numbers:
    """Return for each column the number of its end."""
    joins: dict[Hashable, int] = {}
    rows = [ended.question, np.array([joins.setdefault(scene.joins, len(joins)) for scene in scenes], dtype=np.int64)]
    rows += list(ended.bits)
    rows += [table.effects(row) for table, row in zip(ended.asked.tables, ended.row, strict=True)]
    rows += list((ended.blown > 0).astype(np.int64))
    keys: Words = np.array(rows, dtype=np.int64).astype(np.uint64)
    return distinct_columns(keys)[1]
