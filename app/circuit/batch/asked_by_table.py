"""What a table of faults by situations asks of one network, assembled as arrays.

Rules of the file: each part, each of the figures and each branch is worked out once for what is asked of it, never
once for each place of the table; there are thousands of those.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from app.circuit.batch.array_types import Numbers
from app.circuit.batch.asked import Asked, new_tables
from app.circuit.batch.change import Change
from app.circuit.batch.part_table import PartTable
from app.circuit.figures import PartFigures
from app.circuit.network import Network
from app.circuit.network_figures import NetworkFigures, network_figures
from app.circuit.parts_asked import AT_REST, PartsAsked, Wanted, asked_of, asks_outdoor, opened_fuses, supplies_off
from app.circuit.scene import Extra
from app.circuit.situation import Situation
from app.job.model import Layout
from app.job.names import part_of

Value = TypeVar("Value", bound=Hashable)


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """A situation without faults as one network sees it."""

    parts: PartsAsked
    wanted: Mapping[str, Wanted]
    supply: float


@dataclass(frozen=True, slots=True, eq=False)
class _Part:
    """One part in the table: numbers of variant and figures, and open fuses, for each (fault, side)."""

    variant: Numbers
    figures: tuple[PartFigures, ...]
    figure: Numbers
    opened: Numbers


def sides_of(network: Network, layout: Layout, bases: Sequence[Situation]) -> tuple[list[Side], list[int]]:
    """Return (what distinct situations ask of a network, for each situation the number of what it asks)."""
    number_of: dict[Hashable, int] = {}
    parts_of: dict[Hashable, PartsAsked] = {}
    sides: list[Side] = []
    numbers = []
    for base in bases:
        calls = tuple((part, names) for part, names in base.calls.items() if part in network.own)
        said = tuple((name, value) for name, value in base.set.items() if part_of(name) in network.own)
        outdoor_c = base.outdoor_c if asks_outdoor(network) else 0.0
        supplies = supplies_off(base)
        key = (calls, tuple((*each, each[1].__class__) for each in said), outdoor_c, supplies, base.supply_percent)
        if key not in number_of:
            number_of[key] = len(sides)
            new = PartsAsked(network, layout, outdoor_c, supplies, frozenset())
            parts = parts_of.setdefault(new.key, new)
            sides.append(Side(parts, asked_of(calls, said), base.supply_percent / 100))
        numbers.append(number_of[key])
    return sides, numbers


def asked_by_table(network: Network, changes: Sequence[Change], sides: Sequence[Side]) -> Asked:
    """Return the columns of a network: for each change all sides, one change after the other."""
    tables = new_tables(network)
    parts = [_part(at, table, changes, sides) for at, table in enumerate(tables)]
    figures, figure = _figures(network, parts, changes, len(sides))
    extra_of: dict[tuple[Extra, ...], int] = {}
    extra = np.array([extra_of.setdefault(change.extras, len(extra_of)) for change in changes], dtype=np.int64)
    return Asked(
        network=network,
        tables=tables,
        variant=np.array([part.variant.ravel() for part in parts], dtype=np.int64).reshape(len(parts), -1),
        figures=figures,
        figure=figure,
        extras=tuple(extra_of),
        extra=np.repeat(extra, len(sides)),
        supply=np.tile(np.array([side.supply for side in sides]), len(changes)),
        opened=np.array([part.opened.ravel() for part in parts], dtype=np.int64).reshape(len(parts), -1),
    )


def _part(at: int, table: PartTable, changes: Sequence[Change], sides: Sequence[Side]) -> _Part:
    """Return one part: worked out once for each distinct (change of it, what is asked of it)."""
    name, count = table.place.part, len(table.place.template.judged)
    wrongs, wrong = _distinct([change.wanted.get(name) for change in changes])
    asked, ask = _distinct([(side.parts, side.wanted.get(name, AT_REST)) for side in sides])
    shape = (len(wrongs), len(asked))
    variant, figure, opened = (np.zeros(shape, dtype=np.int64) for _ in range(3))
    figures: dict[PartFigures, int] = {}
    for row, fault in enumerate(wrongs):
        for column, (parts, wanted) in enumerate(asked):
            whole = wanted if fault is None else wanted.with_fault(fault)
            scene, its_figures = parts.part(at, whole)
            variant[row, column] = table.variant(scene)
            figure[row, column] = figures.setdefault(its_figures, len(figures))
            opened[row, column] = opened_fuses(table.place, whole.forced_off) << count
    spread = np.ix_(wrong, ask)
    return _Part(variant[spread], tuple(figures), figure[spread], opened[spread])


def _figures(
    network: Network, parts: Sequence[_Part], changes: Sequence[Change], sides: int
) -> tuple[tuple[NetworkFigures, ...], Numbers]:
    """Return (distinct figures of the network, the number of those of each column)."""
    wires, wire = _distinct([tuple(sorted(change.wires.items())) for change in changes])
    mixed = np.repeat(np.array(wire, dtype=np.int64)[:, None], sides, axis=1)
    for part in parts:
        if len(part.figures) > 1:
            # Numbered anew for each part, so that they stay small whatever the number of parts.
            mixed = np.unique(mixed * len(part.figures) + part.figure, return_inverse=True)[1].reshape(mixed.shape)
    _, first, figure = np.unique(mixed, return_index=True, return_inverse=True)
    found = []
    for place in first.tolist():
        each = [part.figures[int(part.figure.flat[place])] for part in parts]
        found.append(network_figures(network, each, dict(wires[wire[place // sides]])))
    return tuple(found), figure.reshape(-1).astype(np.int64)


def _distinct(values: Sequence[Value]) -> tuple[list[Value], list[int]]:
    """Return (distinct values in the order of their first place, the number of each value)."""
    number_of: dict[Value, int] = {}
    numbers = [number_of.setdefault(value, len(number_of)) for value in values]
    return list(number_of), numbers
