"""The linear questions of many columns: each distinct one is assembled and solved once, all new ones together.

What columns need of an answer while they settle is kept apart from the volts: the volts across each judged element,
the amps of each fuse, and whether anything that is judged lies where something unknown reaches.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.circuit.batch.array_types import Columns, Flags, Floats, Numbers, Words
from app.circuit.batch.asked import Asked, word_count
from app.circuit.batch.distinct import distinct_columns, mixed
from app.circuit.batch.elimination import Roots
from app.circuit.batch.figure_table import FigureTable
from app.circuit.batch.part_table import words_of
from app.circuit.linear import Solution
from app.circuit.state import Question


class Questions:
    """Distinct questions by number. ``across`` are volts (judged element, question), ``amps`` those of fuses."""

    def __init__(self, asked: Asked) -> None:
        self.network = asked.network
        self.table = FigureTable(asked.network, asked.figures, asked.extras)
        self.across: Floats = np.zeros((len(self.network.judged_nodes), 0))
        self.amps: Floats = np.zeros((len(self.network.fuse_nodes), 0))
        self.doubtful: Flags = np.zeros(0, dtype=bool)
        self.keys: Words = np.zeros((word_count(self.network) + 1, 0), dtype=np.uint64)
        looked_at = {node for pair in (*self.network.judged_nodes, *self.network.fuse_nodes) for node in pair}
        self._looked_at = np.array(sorted(looked_at), dtype=np.intp)
        self._touched = np.array(list(self.network.touched), dtype=np.intp)
        self._figure_of = {id(each): at for at, each in enumerate(asked.figures)}
        self._extra_of = {each: at for at, each in enumerate(asked.extras)}
        self._mixed: Words = np.zeros(0, dtype=np.uint64)
        self._order: Numbers = np.zeros(0, dtype=np.int64)
        self._solved: list[tuple[Columns, Roots]] = []

    def numbers(self, figure: Numbers, extra: Numbers, on: Words) -> Numbers:
        """Return the number of the question of each column; what is new is solved."""
        keys = self._keys(figure, extra, on)
        first, inverse = distinct_columns(keys)
        number = self._known(keys[:, first])
        new = np.flatnonzero(number < 0)
        if len(new):
            number[new] = self.keys.shape[1] + np.arange(len(new))
            at = first[new]
            self._solve(figure[at], extra[at], on[:, at])
            self.keys = np.concatenate((self.keys, keys[:, at]), axis=1)
            self._mixed = mixed(self.keys)
            self._order = np.argsort(self._mixed, kind="stable")
        return number[inverse]

    def _known(self, keys: Words) -> Numbers:
        """Return the number of each question, -1 for one that has not been asked."""
        number = np.full(keys.shape[1], -1, dtype=np.int64)
        if len(self._order):
            place = np.searchsorted(self._mixed, mixed(keys), sorter=self._order)
            found = self._order[np.minimum(place, len(self._order) - 1)]
            same = (self.keys[:, found] == keys).all(axis=0)
            number[same] = found[same]
        return number

    def ask(self, questions: Sequence[Question]) -> Numbers:
        """Return the numbers of questions about figures and added branches of what was asked; new ones are solved."""
        return self.numbers(*self._columns(questions))

    def numbers_of(self, questions: Sequence[Question]) -> Numbers:
        """Return the numbers of such questions, -1 for those that no column has asked."""
        return self._known(self._keys(*self._columns(questions)))

    def _columns(self, questions: Sequence[Question]) -> tuple[Numbers, Numbers, Words]:
        figure = np.array([self._figure_of[id(question.figures)] for question in questions], dtype=np.int64)
        extra = np.array([self._extra_of[question.extras] for question in questions], dtype=np.int64)
        words = len(self.keys) - 1
        on: Words = np.array([words_of(question.on, words) for question in questions], dtype=np.uint64)
        return figure, extra, np.ascontiguousarray(on.reshape(-1, words).T)

    def _keys(self, figure: Numbers, extra: Numbers, on: Words) -> Words:
        asked = (figure * len(self.table.extras) + extra).astype(np.uint64)
        return np.concatenate((on, asked[None]))

    def solutions(self) -> tuple[Columns, Roots]:
        """Return (volts at 100 % supply, root) of every node (row) for each question."""
        if len(self._solved) != 1:
            volts = np.concatenate([volts for volts, _ in self._solved], axis=1)
            root = np.concatenate([root for _, root in self._solved], axis=1)
            self._solved = [(volts, root)]
        return self._solved[0]

    def solutions_of(self, numbers: Numbers) -> list[Solution]:
        """Return some solutions in plain numbers."""
        asked = numbers.tolist()
        found = {number: self._solution(number) for number in set(asked)}
        return [found[number] for number in asked]

    def _solution(self, number: int) -> Solution:
        first = 0
        for volts, root in self._solved:
            if number < first + volts.shape[1]:
                return Solution(volts[:, number - first].tolist(), root[:, number - first].tolist())
            first += volts.shape[1]
        raise IndexError(f"there are only {first} questions")

    def _solve(self, figure: Numbers, extra: Numbers, on: Words) -> None:
        volts, root = self.table.solve(figure, extra, on)
        self._solved.append((volts, root))
        across = _across(self.network.judged_nodes, volts, root)
        self.across = np.concatenate((self.across, across), axis=1)
        self.amps = np.concatenate((self.amps, self._fuse_amps(figure, on, volts)), axis=1)
        self.doubtful = np.concatenate((self.doubtful, self._doubtful(root)))

    def _fuse_amps(self, figure: Numbers, on: Words, volts: Columns) -> Floats:
        rows = []
        for branch, (a, b) in zip(self.network.fuse_branches, self.network.fuse_nodes, strict=True):
            is_whole = self.table.is_on(on, branch)
            rows.append(np.where(is_whole, np.abs((volts[a] - volts[b]) * self.table.on[branch][figure]), 0.0))
        return np.array(rows).reshape(len(rows), len(figure))

    def _doubtful(self, root: Roots) -> Flags:
        if not len(self._touched):
            return np.zeros(root.shape[1], dtype=bool)
        found: Flags = (root[self._touched][:, None] == root[self._looked_at]).any(axis=(0, 1))
        return found


def _across(nodes: Sequence[tuple[int, int]], volts: Columns, root: Roots) -> Floats:
    """Return the volts across pairs of nodes; 0 where the two lie apart."""
    if not nodes:
        return np.zeros((0, volts.shape[1]))
    a, b = (np.array(side, dtype=np.intp) for side in zip(*nodes, strict=True))
    return np.where(root[a] == root[b], np.abs(volts[a] - volts[b]), 0.0)
