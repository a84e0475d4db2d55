"""Figures of many variants of one network as arrays, and the assembly of its linear questions from them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

import numpy as np

from app.circuit.batch.added import Added, with_added
from app.circuit.batch.array_types import Columns, Flags, Floats, Numbers, Words
from app.circuit.batch.distinct import distinct_columns
from app.circuit.batch.elimination import Roots, Solved, eliminate_columns, fed_levels
from app.circuit.batch.levels import Gathered, Levels, gathered, levels_of
from app.circuit.network import Network
from app.circuit.network_figures import NetworkFigures
from app.circuit.plan import Plan
from app.circuit.scene import Extra

NO_EXTRAS: tuple[Extra, ...] = ()
MOST_ADDED_AT_ONCE = 2
"""More added branches than these are eliminated with the rest, one set of them at a time."""


class FigureTable:
    """``on`` and ``off`` are siemens (branch, figures); ``rises``, ``falls`` volts; ``ratings`` amps of fuses."""

    def __init__(
        self, network: Network, figures: Sequence[NetworkFigures], extras: Sequence[tuple[Extra, ...]]
    ) -> None:
        self.network = network
        self.figures = figures
        self.extras = extras
        self.on = _phasors([each.on for each in figures])
        self.off = _phasors([each.off for each in figures])
        self.rises = _numbers([each.rises for each in figures])
        self.falls = _numbers([each.falls for each in figures])
        self.ratings = _numbers([each.fuse_amps for each in figures])
        self.slack = np.array([each.slack_volts for each in figures])
        self._of_plan: dict[int, _Assembly] = {}

    def is_on(self, on: Words, branch: int) -> Flags:
        """Return in which columns a branch is on."""
        found: Flags = (on[branch // 64] >> np.uint64(branch % 64)) & np.uint64(1) != 0
        return found

    def solve(self, figure: Numbers, extra: Numbers, on: Words) -> tuple[Columns, Roots]:
        """Return (volts, root) of the questions with these figures, added branches and conducting branches."""
        added = np.array([len(each) for each in self.extras])[extra]
        if not added.any():
            solved = self._solve(self.network.plan, figure, on)
            return solved.volts, solved.root
        left = added > MOST_ADDED_AT_ONCE
        if not left.any():
            volts, root, left = self._with_few(figure, extra, on)
        else:
            volts = np.empty((self.network.size, len(figure)), dtype=complex)
            root = np.empty((self.network.size, len(figure)), dtype=np.int16)
            few = np.flatnonzero(~left)
            volts[:, few], root[:, few], left[few] = self._with_few(figure[few], extra[few], on[:, few])
        for number in np.unique(extra[left]).tolist():
            at = np.flatnonzero(left & (extra == number))
            volts[:, at], root[:, at] = self._with_several(figure[at], on[:, at], self.extras[number])
        return volts, root

    def _with_few(self, figure: Numbers, extra: Numbers, on: Words) -> tuple[Columns, Roots, Flags]:
        """Solve what is asked with two added branches at most: without them first, each network once.

        Returns:
            Volts, roots, and in which columns the two branches could not be told apart.
        """
        first, base_of = distinct_columns(np.concatenate((on, figure.astype(np.uint64)[None])))
        plan = self.network.plan
        base = self._solve(plan, figure[first], on[:, first])
        one, two = (self._added(place, extra) for place in range(MOST_ADDED_AT_ONCE))
        return with_added(self._assembly(plan).levels, base, base_of, one, two)

    def _added(self, place: int, extra: Numbers) -> Added:
        each = [added[place] if place < len(added) else (0, 0, 1.0) for added in self.extras]
        a, b = (np.array([branch[end] for branch in each], dtype=np.intp)[extra] for end in (0, 1))
        return Added(a, b, np.array([1 / branch[2] for branch in each])[extra])

    def _with_several(self, figure: Numbers, on: Words, added: tuple[Extra, ...]) -> tuple[Columns, Roots]:
        plan = self.network.plan_with(frozenset((a, b) for a, b, _ in added))
        solved = self._solve(plan, figure, on, added)
        return solved.volts, solved.root

    def _solve(self, plan: Plan, figure: Numbers, on: Words, added: tuple[Extra, ...] = NO_EXTRAS) -> Solved:
        assembly = self._assembly(plan)
        entries = assembly.entries(figure, on)
        for a, b, siemens in added:
            entries[plan.entry_of[a, b]] += siemens
        return eliminate_columns(assembly.levels, assembly.fed, entries, self._injected(figure, on))

    def _injected(self, figure: Numbers, on: Words) -> Columns:
        injected = np.zeros((self.network.size, len(figure)), dtype=complex)
        for at, source in enumerate(self.figures[0].sources):
            amps = np.array([each.sources[at].emf * each.sources[at].siemens for each in self.figures])[figure]
            amps[~self.is_on(on, source.slot)] = 0.0
            a, b = self.network.branches[source.slot].nodes
            injected[a] += amps
            injected[b] -= amps
        return injected

    def _assembly(self, plan: Plan) -> _Assembly:
        found = self._of_plan.get(id(plan))
        if found is None:
            found = self._of_plan[id(plan)] = _Assembly(self, plan)
        return found


class _Assembly:
    """Where branches go in the entries of a plan: what never switches is summed once for each of the figures."""

    def __init__(self, table: FigureTable, plan: Plan) -> None:
        network = table.network
        self.plan = plan
        self.levels = _levels(network, plan)
        sources = [network.branches[source.slot].nodes for source in table.figures[0].sources]
        self.fed = fed_levels(self.levels, [node for pair in sources for node in pair])
        entry = plan.entries(branch.nodes for branch in network.branches)
        switches = (table.on != table.off).any(axis=1).tolist()
        fixed = [at for at, place in enumerate(entry) if place >= 0 and not switches[at]]
        switching = [at for at, place in enumerate(entry) if place >= 0 and switches[at]]
        self.fixed = np.zeros((plan.size, len(table.figures)), dtype=complex)
        for at in fixed:
            self.fixed[entry[at]] += table.on[at]
        self.where: Gathered = gathered([entry[at] for at in switching])
        in_order = [switching[at] for at in self.where.order]
        self.when_on, self.when_off = table.on[in_order], table.off[in_order]
        self.word = np.array([at // 64 for at in in_order], dtype=np.intp)
        self.bit = np.array([at % 64 for at in in_order], dtype=np.uint64)[:, None]
        self.one_figure = len(table.figures) == 1

    def entries(self, figure: Numbers, on: Words) -> Columns:
        """Return the entries of each column."""
        entries = self.fixed[:, figure]
        if len(self.word):
            is_on = (on[self.word] >> self.bit) & np.uint64(1) != 0
            if self.one_figure:
                siemens = np.where(is_on, self.when_on, self.when_off)
            else:
                siemens = np.where(is_on, self.when_on[:, figure], self.when_off[:, figure])
            total = siemens[: self.where.ranks[0][1]]
            for start, end in self.where.ranks[1:]:
                total[: end - start] += siemens[start:end]
            entries[self.where.targets] += total
        return entries


def _numbers(tuples: Sequence[Sequence[float]]) -> Floats:
    """Return tuples, one for each of the figures, as an array with a column for each."""
    return np.array(tuples, dtype=np.float64).reshape(len(tuples), -1).T.copy()


def _phasors(tuples: Sequence[Sequence[complex]]) -> Columns:
    return np.array(tuples, dtype=np.complex128).reshape(len(tuples), -1).T.copy()


def _levels(network: Network, plan: Plan) -> Levels:
    key = ("levels", id(plan))
    found = network.made.get(key)
    if found is None:
        # The plan is kept beside its levels, so that its identity stays its own.
        found = network.made[key] = (levels_of(plan), plan)
    return cast("tuple[Levels, Plan]", found)[0]
