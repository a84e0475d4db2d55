"""One or two branches that faults add to each column, answered from the networks without them.

Let z be the volts between the two nodes of an added branch for 1 A that is sent from one to the other, and v those
that stand there already: the branch then carries v / (z + its ohms). Where its nodes lie in different components it
carries nothing, and makes one component of them. (Sherman, Morrison and Woodbury's formula; v and z are taken by
elimination, in which nothing is subtracted.)
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.circuit.batch.array_types import Columns, Flags, Floats
from app.circuit.batch.elimination import Roots, Solved, substitute
from app.circuit.batch.levels import Levels, Whole

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
    before = base.root[:, columns]
    first = _lesser_last(levels, first, before)
    first_loops, first_joins = _loops_and_joins(first, before)
    between = _joined_roots(before, first, first_joins)
    second = _lesser_last(levels, second, between)
    second_loops, second_joins = _loops_and_joins(second, between)
    joined = _Joined(columns, first, second, before, between, first_joins, second_joins)
    volts = joined.levelled(base.volts[:, columns], None)
    root = _joined_roots(between, second, second_joins)
    shaky: Flags = np.zeros(len(columns), dtype=bool)
    at = np.flatnonzero(first_loops | second_loops)
    if len(at):
        loops = _Loops(levels, base, joined.take(at), first_loops[at], second_loops[at])
        volts[:, at], shaky[at] = loops.closed(volts[:, at])
    return volts, root, shaky


@dataclass(frozen=True, slots=True, eq=False)
class _Joined:
    """The added branches of some columns, and where they join components: roots before, between the two, and after."""

    columns: Whole
    first: Added
    second: Added
    before: Roots
    between: Roots
    first_joins: Flags
    second_joins: Flags

    def take(self, at: Whole) -> _Joined:
        """Return those of some columns."""
        return _Joined(
            self.columns[at],
            self.first.take(at),
            self.second.take(at),
            self.before[:, at],
            self.between[:, at],
            self.first_joins[at],
            self.second_joins[at],
        )

    def levelled(self, volts: Columns, drop: Floats | None) -> Columns:
        """Return volts, which are used up, with joined components at one level; ``drop`` is across the first."""
        _level(volts, self.before, self.first, self.first_joins, drop)
        _level(volts, self.between, self.second, self.second_joins, None)
        return volts


@dataclass(frozen=True, slots=True, eq=False)
class _Loops:
    """Columns in which the first, the second or both of the added branches close a loop and carry amps."""

    levels: Levels
    base: Solved
    joined: _Joined
    first: Flags
    second: Flags

    def closed(self, volts: Columns) -> tuple[Columns, Flags]:
        """Return (volts with the amps of the branches, columns that are shaky)."""
        one, two = self.joined.first, self.joined.second
        own, mutual = self._per_amp()
        m11 = np.where(self.first, one.across(own) + one.ohms, 1)
        v1 = one.across(volts) * self.first
        if not self.second.any():
            volts -= own * (v1 / m11)
            return volts, np.zeros(len(v1), dtype=bool)
        m22 = np.where(self.second, two.across(mutual) + two.ohms, 1)
        m12, m21 = one.across(mutual) * self.first, two.across(own) * self.second
        v2 = two.across(volts) * self.second
        determinant = m11 * m22 - m12 * m21
        shaky = np.abs(determinant) < LEAST_DETERMINANT * np.abs(m11 * m22)
        determinant = np.where(shaky, 1, determinant)
        volts -= own * ((v1 * m22 - v2 * m12) / determinant)
        volts -= mutual * ((v2 * m11 - v1 * m21) / determinant)
        return volts, shaky

    def _per_amp(self) -> tuple[Columns, Columns]:
        """Return the volts of every node for 1 A through the first, and through the second; 0 where it closes none."""
        count = len(self.first)
        at_one, at_two = np.flatnonzero(self.first), np.flatnonzero(self.second)
        at = np.concatenate((at_one, at_two))
        joined = self.joined.take(at)
        of_first = np.arange(len(at)) < len(at_one)
        one, two = joined.first, joined.second
        found = self._answers(joined, np.where(of_first, one.a, two.a), np.where(of_first, one.b, two.b))
        rows = (self.base.volts.shape[0], count)
        own, mutual = np.zeros(rows, dtype=complex), np.zeros(rows, dtype=complex)
        own[:, at_one], mutual[:, at_two] = found[:, : len(at_one)], found[:, len(at_one) :]
        return own, mutual

    def _answers(self, joined: _Joined, starts: Whole, ends: Whole) -> Columns:
        """Return the volts of every node for 1 A that enters at one node and leaves at another.

        Where the first branch is the only way between the two, the ampere goes through it.
        """
        each = np.arange(len(starts))
        injected = np.zeros((self.base.volts.shape[0], len(starts)), dtype=complex)
        injected[starts, each] += 1
        injected[ends, each] -= 1
        first, root = joined.first, joined.before
        apart = root[starts, each] != root[ends, each]
        through = (joined.first_joins & apart) * np.where(root[starts, each] == root[first.a, each], 1, -1)
        injected[first.a, each] -= through
        injected[first.b, each] += through
        entries, inverse = self.base.entries[:, joined.columns], self.base.inverse[:, joined.columns]
        return joined.levelled(substitute(self.levels, entries, inverse, injected), through * first.ohms)


def _lesser_last(levels: Levels, branch: Added, root: Roots) -> Added:
    """Return the branches with ``b`` where the component is whose last node goes first.

    That one moves to the level of the other, so that the last node of both has 0 V as it would without this formula.
    """
    each = np.arange(len(branch.a))
    turned = levels.turn[root[branch.a, each]] < levels.turn[root[branch.b, each]]
    return Added(np.where(turned, branch.b, branch.a), np.where(turned, branch.a, branch.b), branch.ohms)


def _loops_and_joins(branch: Added, root: Roots) -> tuple[Flags, Flags]:
    each = np.arange(len(branch.a))
    together = root[branch.a, each] == root[branch.b, each]
    return together & (branch.a != branch.b), ~together


def _level(volts: Columns, root: Roots, branch: Added, joins: Flags, drop: Floats | None) -> None:
    """Move the component of ``b`` to where the branch puts it."""
    at = np.flatnonzero(joins)
    if len(at):
        roots = root[:, at]
        a, b, each = branch.a[at], branch.b[at], np.arange(len(at))
        moved = volts[:, at]
        lift = moved[a, each] - moved[b, each]
        if drop is not None:
            lift = lift - drop[at]
        volts[:, at] = moved + np.where(roots == roots[b, each], lift, 0)


def _joined_roots(root: Roots, branch: Added, joins: Flags) -> Roots:
    at = np.flatnonzero(joins)
    if not len(at):
        return root
    found = root.copy()
    roots, each = root[:, at], np.arange(len(at))
    found[:, at] = np.where(roots == roots[branch.b[at], each], roots[branch.a[at], each], roots)
    return found
