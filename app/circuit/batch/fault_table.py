"""A table of faults by situations, settled as arrays.

A place of the table finds its place in the grid of each network. What arrays leave over is settled by the reference,
once for each place of a grid; faults that make another network are asked like any other situation.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import isnan

import numpy as np
from numpy.typing import NDArray

from app.circuit.answering import operating_point
from app.circuit.batch.change import AnotherNetworkError, changes_of
from app.circuit.batch.grid import Grid
from app.circuit.fault_points import Effects, FaultPoints, FaultSet, PointByPoint, with_faults
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.circuit.view import RestViews, Views
from app.job.names import part_of


def fault_table(circuit: Circuit, bases: Sequence[Situation], faults: Sequence[FaultSet]) -> FaultPoints:
    """Return the table; see ``app.circuit.fault_points``."""
    grids = [Grid(circuit, network, bases) for network in circuit.networks]
    if any(grid.tries_phases for grid in grids):
        # Each phase is then tried in a scene of its own, which grids know nothing of.
        return PointByPoint(circuit, bases, faults)
    return FaultTable(circuit, bases, faults, grids)


class FaultTable:
    """The table. ``rows`` give for each set of faults its row in each grid; those that are asked alone have none."""

    def __init__(
        self, circuit: Circuit, bases: Sequence[Situation], faults: Sequence[FaultSet], grids: Sequence[Grid]
    ) -> None:
        self.circuit, self.bases, self.faults, self.grids = circuit, bases, faults, grids
        self.alone: dict[int, int] = {}
        self.rows: list[dict[int, int]] = []
        for number, each in enumerate(faults):
            self.rows.append({})
            try:
                changes = changes_of(circuit, each)
            except AnotherNetworkError:
                changes = None
            if changes is None or any(grids[at].may_turn_phases(change) for at, change in changes.items()):
                self.alone[number] = len(self.alone)
            else:
                self.rows[-1] = {at: grids[at].add(change) for at, change in changes.items()}
        for grid in self.grids:
            grid.settle()
        self.others = PointByPoint(circuit, bases, [faults[number] for number in self.alone])

    @property
    def count(self) -> int:
        """Return how many operating points the table holds."""
        return len(self.faults) * len(self.bases)

    def make_ready(self) -> None:
        """Put the effects of all places and the volts of all nodes into arrays now, not when they are asked for."""
        for grid, effects in zip(self.grids, self._effects, strict=True):
            grid.ended.questions.solutions()
            assert effects.shape[1] == grid.ended.asked.count

    def point(self, fault: int, base: int) -> OperatingPoint:
        """Return one operating point."""
        if fault in self.alone:
            return self.others.point(self.alone[fault], base)
        situation = with_faults(self.bases[base], self.faults[fault])
        if any(self.grids[at].changes[row].lands_elsewhere for at, row in self.rows[fault].items()):
            # Amps of conductors that land elsewhere are told by a network that is compiled so.
            return solve(self.circuit, situation)
        views = [grid.view(self._place(grid_at, fault, base)) for grid_at, grid in enumerate(self.grids)]
        return operating_point(self.circuit, situation, Views(RestViews(tuple(views)), {}))

    def effects(self, fault: int, base: int) -> Effects:
        """Return the (part, effect) pairs that hold, in a stable order."""
        if fault in self.alone:
            return self.others.effects(self.alone[fault], base)
        found: list[tuple[str, str]] = []
        for at, grid in enumerate(self.grids):
            place = self._place(at, fault, base)
            found += grid.view(place).effects[0] if grid.ended.odd[place] else self._effects_in(at, place)
        return tuple(sorted(found))

    def _effects_in(self, at: int, place: int) -> list[tuple[str, str]]:
        return [
            (part.part, name)
            for part, bits in zip(self.grids[at].network.places, self._effects[at][:, place].tolist(), strict=True)
            for number, (name, _) in enumerate(part.template.effects)
            if bits >> number & 1
        ]

    def volts_between(self, one: str, other: str) -> list[list[float | None]]:
        """Return the volts that an ideal meter shows between two terminals, a list for each set of faults."""
        rows, columns = range(len(self.faults)), range(len(self.bases))
        number = self.circuit.network_of[part_of(one)]
        if number != self.circuit.network_of[part_of(other)]:
            return [[self.point(row, column).volts_between(one, other) for column in columns] for row in rows]
        grid = self.grids[number]
        across = grid.volts_across(one, other).tolist()
        ask = {*grid.odd, *grid.unseen(one, other)}

        def at(row: int, column: int) -> float | None:
            place = self._place(number, row, column)
            if row in self.alone or place in ask:
                return self.point(row, column).volts_between(one, other)
            return None if isnan(across[place]) else float(across[place])

        return [[at(row, column) for column in columns] for row in rows]

    @cached_property
    def _effects(self) -> list[NDArray[np.int64]]:
        """Return for each grid the effects of each part (row) at each place, as bits."""
        return [np.array(grid.effects(), dtype=np.int64).reshape(len(grid.network.places), -1) for grid in self.grids]

    def _place(self, grid: int, fault: int, base: int) -> int:
        return self.grids[grid].place(self.rows[fault].get(grid, 0), base)
