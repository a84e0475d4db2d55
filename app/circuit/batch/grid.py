"""One network in a table of faults by situations: a grid with a row for each change, a column for each distinct asking.

A place of the grid is one column of what is settled.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.catalogue.kind import Source
from app.circuit.batch.array_types import Floats, Numbers
from app.circuit.batch.asked import scene_at
from app.circuit.batch.asked_by_table import asked_by_table, sides_of
from app.circuit.batch.change import NO_CHANGE, Change
from app.circuit.batch.ends import ColumnEnds
from app.circuit.batch.settle_columns import Ended, settle_columns
from app.circuit.network import Circuit, Network, Place
from app.circuit.scene import Scene
from app.circuit.settle import Settled
from app.circuit.settling import settle_in_rounds
from app.circuit.situation import Situation
from app.circuit.view import View, view_of


class Grid:
    """The grid of one network. Row 0 is without any change."""

    def __init__(self, circuit: Circuit, network: Network, bases: Sequence[Situation]) -> None:
        self.circuit, self.network = circuit, network
        self.sides, self.side_of = sides_of(network, circuit.layout, bases)
        self.changes: list[Change] = [NO_CHANGE]
        self._views: dict[int, View] = {}
        self._settled: dict[int, Settled] = {}

    @property
    def tries_phases(self) -> bool:
        """Return whether sources of unknown phase could meet here in any situation."""
        parts = self._with_phases()
        if not parts:
            return False
        asked = [side.wanted.get(part) for side in self.sides for part in parts]
        figures = self.sides[0].parts.at_rest()[1] if self.sides else ()
        known = all(source.phase_known for each in figures for source in each.sources)
        return not known or any(wanted is not None and wanted.said for wanted in asked)

    def may_turn_phases(self, change: Change) -> bool:
        """Return whether a change may make the phase of a source unknown."""
        return any(part in change.wanted and change.wanted[part].said for part in self._with_phases())

    def _with_phases(self) -> list[str]:
        """Return the parts with sources, where there are others for them to meet."""
        if self.network.source_count < 2 or not self.network.may_have_unknown_phase:
            return []
        return [place.part for place in self.network.places if _has_sources(place)]

    def add(self, change: Change) -> int:
        """Return the row of a change."""
        self.changes.append(change)
        return len(self.changes) - 1

    def settle(self) -> None:
        """Settle all places, those that arrays leave over by the reference."""
        self.ended: Ended = settle_columns(asked_by_table(self.network, self.changes, self.sides))
        self.ends = ColumnEnds(self.ended)
        self.odd: list[int] = np.flatnonzero(self.ended.odd).tolist()
        scenes = [self.scene(place) for place in self.odd]
        self._settled.update(zip(self.odd, settle_in_rounds(self.network, scenes, self.ends.solve), strict=True))

    def place(self, row: int, base: int) -> int:
        """Return the place of a row in a situation."""
        return row * len(self.sides) + self.side_of[base]

    def scene(self, place: int) -> Scene:
        """Return what is asked at a place."""
        return scene_at(self.ended.asked, place, self.changes[place // len(self.sides)].joins)

    def view(self, place: int) -> View:
        """Return what came of a place."""
        found = self._views.get(place)
        if found is None:
            offset = self.circuit.offset_of(self.network)
            found = self._views[place] = view_of(self.circuit, self.network, [self._end(place)], offset)
        return found

    def effects(self) -> list[Numbers]:
        """Return for each part the effects that hold at each place, as bits in the order of its template."""
        return [table.effects(row) for table, row in zip(self.ended.asked.tables, self.ended.row, strict=True)]

    def volts_across(self, one: str, other: str) -> Floats:
        """Return the volts between two terminals at each place; NaN where they lie apart."""
        a, b = (self.network.node_of[self.network.number_of[name]] for name in (one, other))
        volts, root = self.ended.questions.solutions()
        across = np.where(root[a] == root[b], np.abs(volts[a] - volts[b]), np.nan)
        found: Floats = across[self.ended.question] * self.ended.asked.supply
        return found

    def unseen(self, one: str, other: str) -> list[int]:
        """Return the places at which something unknown could reach one of two terminals."""
        if not self.network.touched:
            return []
        nodes = [self.network.node_of[self.network.number_of[name]] for name in (one, other)]
        root = self.ended.questions.solutions()[1]
        reached = np.any([root[node] == root[touched] for node in nodes for touched in self.network.touched], axis=0)
        found: list[int] = np.flatnonzero(reached[self.ended.question]).tolist()
        return found

    def _end(self, place: int) -> Settled:
        if place not in self._settled:
            scene = self.scene(place)
            end = self.ends.settled(place, scene)
            self._settled[place] = end or settle_in_rounds(self.network, [scene], self.ends.solve)[0]
        return self._settled[place]


def _has_sources(place: Place) -> bool:
    return any(isinstance(slot.element, Source) for slot in place.template.slots)
