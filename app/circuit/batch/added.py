"""One or two branches that faults add to each column, answered from the networks without them.

Let z be the volts between the two nodes of an added branch for 1 A that is sent from one to the other, and v those
that stand there already: the branch then carries v / (z + its ohms). Where its nodes lie in different components it
carries nothing, and makes one component of them. (Sherman, Morrison and Woodbury's formula; v and z are taken by
elimination, in which nothing is subtracted.)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.circuit.batch.elimination import Columns, Roots, Solved, substitute
from app.circuit.batch.levels import Levels, Whole

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
LEAST_DETERMINANT = 1e-6
"""Of the product of its diagonal; two added branches that are closer to one than this are not told apart here."""


@dataclass(frozen=True, slots=True, eq=False)
class Added:
    """An added branch for each column; none where ``a`` is ``b``."""

    a: Whole
    b: Whole
    ohms: Floats

    def take(self, columns: Whole) -> Added:
        """Return those of some columns."""
        return Added(self.a[columns], self.b[columns], self.ohms[columns])

    def across(self, rows: Columns) -> Columns:
        """Return the difference of rows (by node) from ``a`` to ``b``."""
        each = np.arange(len(self.a))
        found: Columns = rows[self.a, each] - rows[self.b, each]
        return found


def with_added(
    levels: Levels, base: Solved, columns: Whole, first: Added, second: Added
) -> tuple[Columns, Roots, Flags]:
    """Return (volts, root, columns in which the two branches could not be told apart).

    Args:
        levels: of the plan with which ``base`` was solved.
        base: the networks without the added branches.
        columns: for each answer the column of ``base`` that it starts from.
        first, second: the added branches.
    """
    return _Adding(levels, base, columns, first, second).answer()


class _Adding:
    def __init__(self, levels: Levels, base: Solved, columns: Whole, first: Added, second: Added) -> None:
        self.levels, self.base, self.columns = levels, base, columns
        self.first, self.second = first, second
        self.root_before = base.root[:, columns]
        self.first_loops, self.first_joins = _loops_and_joins(first, self.root_before)
        self.root_between = _joined_roots(self.root_before, first, self.first_joins)
        self.second_loops, self.second_joins = _loops_and_joins(second, self.root_between)

    def answer(self) -> tuple[Columns, Roots, Flags]:
        volts = self._joined(self.base.volts[:, self.columns], np.zeros(len(self.columns)))
        root = _joined_roots(self.root_between, self.second, self.second_joins)
        shaky: Flags = np.zeros(len(self.columns), dtype=bool)
        loops = self.first_loops | self.second_loops
        if loops.any():
            at = np.flatnonzero(loops)
            part = self if loops.all() else self._part(at)
            volts[:, at], shaky[at] = part.with_loops(volts[:, at])
        return volts, root, shaky

    def _part(self, at: Whole) -> _Adding:
        return _Adding(self.levels, self.base, self.columns[at], self.first.take(at), self.second.take(at))

    def with_loops(self, volts: Columns) -> tuple[Columns, Flags]:
        """Return (volts with the amps of those branches that close loops, columns that are shaky)."""
        one, two = self.first_loops, self.second_loops
        own = self._per_amp(self.first) * one
        mutual = self._per_amp(self.second) * two if two.any() else np.zeros_like(own)
        m11 = np.where(one, self.first.across(own) + self.first.ohms, 1)
        m22 = np.where(two, self.second.across(mutual) + self.second.ohms, 1)
        m12, m21 = self.first.across(mutual) * one, self.second.across(own) * two
        v1, v2 = self.first.across(volts) * one, self.second.across(volts) * two
        determinant = m11 * m22 - m12 * m21
        shaky = np.abs(determinant) < LEAST_DETERMINANT * np.abs(m11 * m22)
        determinant = np.where(shaky, 1, determinant)
        volts = volts - own * ((v1 * m22 - v2 * m12) / determinant)
        volts -= mutual * ((v2 * m11 - v1 * m21) / determinant)
        return volts, shaky

    def _per_amp(self, branch: Added) -> Columns:
        """Return the volts of every node for 1 A that enters at ``a`` and leaves at ``b`` of a branch.

        Where the first branch is the only way between the two, the ampere goes through it.
        """
        count = len(self.columns)
        each = np.arange(count)
        injected = np.zeros((self.base.volts.shape[0], count), dtype=complex)
        injected[branch.a, each] += 1
        injected[branch.b, each] -= 1
        root = self.root_before
        starts, ends = root[branch.a, each], root[branch.b, each]
        through = (self.first_joins & (starts != ends)) * np.where(starts == root[self.first.a, each], 1, -1)
        injected[self.first.a, each] -= through
        injected[self.first.b, each] += through
        entries, inverse = self.base.entries[:, self.columns], self.base.inverse[:, self.columns]
        return self._joined(substitute(self.levels, entries, inverse, injected), through * self.first.ohms)

    def _joined(self, volts: Columns, drop: Floats) -> Columns:
        """Return volts with components that the branches join brought to one level; ``drop`` is across the first."""
        volts = _levelled(volts, self.root_before, self.first, self.first_joins, drop)
        return _levelled(volts, self.root_between, self.second, self.second_joins, np.zeros(len(drop)))


def _loops_and_joins(branch: Added, root: Roots) -> tuple[Flags, Flags]:
    each = np.arange(len(branch.a))
    together = root[branch.a, each] == root[branch.b, each]
    return together & (branch.a != branch.b), ~together


def _levelled(volts: Columns, root: Roots, branch: Added, joins: Flags, drop: Floats) -> Columns:
    """Return volts with the component of ``b`` moved to where the branch puts it."""
    if not joins.any():
        return volts
    moving = (root == root[branch.b, np.arange(len(drop))]) & joins
    levelled: Columns = volts + moving * (branch.across(volts) - drop)
    return levelled


def _joined_roots(root: Roots, branch: Added, joins: Flags) -> Roots:
    if not joins.any():
        return root
    each = np.arange(len(branch.a))
    moving = (root == root[branch.b, each]) & joins
    return np.where(moving, root[branch.a, each], root)
