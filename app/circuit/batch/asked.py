"""What is asked of one network, as arrays with a column for each question to settle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.circuit.batch.array_types import Numbers
from app.circuit.batch.part_table import PartTable
from app.circuit.network import Network
from app.circuit.network_figures import NetworkFigures
from app.circuit.scene import AddedJoin, Extra, Scene, cast_of

Levels = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """Columns of one network.

    ``variant`` is the number of each part's variant in its table (a row for each place), ``figures`` and ``extras``
    are what ``figure`` and ``extra`` number, ``supply`` is a share of the rated volts. ``opened`` are the fuses that
    are open at first: bits of each part (a row for each place), its judged elements below them.
    """

    network: Network
    tables: tuple[PartTable, ...]
    variant: Numbers
    figures: tuple[NetworkFigures, ...]
    figure: Numbers
    extras: tuple[tuple[Extra, ...], ...]
    extra: Numbers
    supply: Levels
    opened: Numbers

    @property
    def count(self) -> int:
        """Return how many columns there are."""
        return len(self.supply)


def asked_by(network: Network, scenes: Sequence[Scene]) -> Asked:
    """Return the columns that scenes of one network ask."""
    tables = new_tables(network)
    casts = {id(scene.cast): scene.cast for scene in scenes}
    column_of = {key: at for at, key in enumerate(casts)}
    of_cast = np.array(
        [[table.variant(part) for table, part in zip(tables, cast.parts, strict=True)] for cast in casts.values()],
        dtype=np.int64,
    ).reshape(len(casts), len(tables))
    figures = {id(scene.figures): scene.figures for scene in scenes}
    figure_of = {key: at for at, key in enumerate(figures)}
    extra_of: dict[tuple[Extra, ...], int] = {}
    opened = np.zeros((len(tables), len(scenes)), dtype=np.int64)
    for column, scene in enumerate(scenes):
        if scene.opened:
            opened[:, column] = opened_bits(network, scene.opened)
    return Asked(
        network=network,
        tables=tables,
        variant=of_cast[[column_of[id(scene.cast)] for scene in scenes]].T,
        figures=tuple(figures.values()),
        figure=np.array([figure_of[id(scene.figures)] for scene in scenes], dtype=np.int64),
        extra=np.array([extra_of.setdefault(scene.extras, len(extra_of)) for scene in scenes], dtype=np.int64),
        extras=tuple(extra_of),
        supply=np.array([scene.supply for scene in scenes]),
        opened=opened,
    )


def scene_at(asked: Asked, column: int, joins: tuple[AddedJoin, ...]) -> Scene:
    """Return what a column asks as a scene; ``joins`` are those of its faults."""
    network = asked.network
    variants = asked.variant[:, column].tolist()
    opened = 0
    for place, bits in zip(network.places, asked.opened[:, column].tolist(), strict=True):
        opened |= bits >> len(place.template.judged) << place.fuse
    return Scene(
        network=network,
        cast=cast_of(network, tuple(table.variants[at] for table, at in zip(asked.tables, variants, strict=True))),
        figures=asked.figures[int(asked.figure[column])],
        supply=float(asked.supply[column]),
        opened=opened,
        extras=asked.extras[int(asked.extra[column])],
        joins=joins,
    )


def new_tables(network: Network) -> tuple[PartTable, ...]:
    """Return an empty table for each place of a network."""
    words = word_count(network)
    return tuple(PartTable(place, words) for place in network.places)


def word_count(network: Network) -> int:
    """Return how many words of 64 bits the branches of a network take."""
    return len(network.branches) // 64 + 1


def opened_bits(network: Network, opened: int) -> list[int]:
    """Return open fuses of a network as bits of each of its parts."""
    found = []
    for place in network.places:
        fuses = opened >> place.fuse & (1 << len(place.template.fuses)) - 1
        found.append(fuses << len(place.template.judged))
    return found
