"""The elimination of ``app.circuit.linear`` with a column for each question.

Steps and arithmetic are the same, level by level; as there, nothing is ever subtracted, so that a node whose sum is
zero is exactly the last of its component.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.circuit.batch.array_types import Columns
from app.circuit.batch.levels import Gathered, Level, Levels, Rank

Roots = NDArray[np.int16]
COLUMNS_AT_ONCE = 512
"""So many columns stay within the cache of a processor while they are eliminated."""
NOWHERE = np.int16(-1)


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """Volts of each node (row) at 100 % supply and the last node of its component, a column for each question.

    ``entries`` and ``inverse`` are the eliminated network: branches of each node when it went, and one over their sum
    (0 where there are none). With them further currents are answered by substitution alone.
    """

    volts: Columns
    root: Roots
    entries: Columns
    inverse: Columns


def eliminate_columns(levels: Levels, fed: Sequence[bool], entries: Columns, injected: Columns) -> Solved:
    """Return the solution of each column; both arrays are used up.

    Args:
        levels: order and places.
        fed: for each level whether amps can reach any of its nodes, see ``fed_levels``.
        entries: siemens between pairs of nodes (rows) for each column.
        injected: amps into each node (row) for each column.
    """
    inverse = np.zeros_like(injected)
    volts = np.zeros_like(injected)
    root = np.empty(injected.shape, dtype=np.int16)
    root[:] = np.arange(levels.nodes, dtype=np.int16)[:, None]
    count = injected.shape[1]
    for start in range(0, count, COLUMNS_AT_ONCE):
        part = slice(start, min(start + COLUMNS_AT_ONCE, count))
        _forward(levels, fed, entries[:, part], injected[:, part], inverse[:, part])
        _backward(levels, entries[:, part], injected[:, part], inverse[:, part], volts[:, part], root[:, part])
    return Solved(volts, root, entries, inverse)


def substitute(levels: Levels, entries: Columns, inverse: Columns, injected: Columns) -> Columns:
    """Return the volts for other currents into networks that are eliminated already; ``injected`` is used up."""
    for level in levels.levels:
        share = entries[level.star]
        _times(share, level.ranks, inverse[level.nodes] * injected[level.nodes])
        add_rows(injected, level.amps, share[level.amps.order])
    volts = np.zeros_like(injected)
    for level in reversed(levels.levels):
        _volts_of(level, entries[level.star], injected, inverse, volts)
    return volts


def fed_levels(levels: Levels, nodes: Iterable[int]) -> list[bool]:
    """Return for each level whether amps that enter at some nodes can reach any of its nodes."""
    reached = set(nodes)
    fed = []
    for level in levels.levels:
        fed.append(not reached.isdisjoint(level.nodes.tolist()))
        if fed[-1]:
            reached.update(level.other.tolist())
    return fed


def _forward(levels: Levels, fed: Sequence[bool], entries: Columns, injected: Columns, inverse: Columns) -> None:
    for level, is_fed in zip(levels.levels, fed, strict=True):
        star = entries[level.star]
        one_over = _one_over(sum_of_ranks(star, level.ranks))
        inverse[level.nodes] = one_over
        if not is_fed and not len(level.one):
            continue
        share = star.copy() if len(level.one) else star
        _times(share, level.ranks, one_over)
        if len(level.one):
            add_rows(entries, level.mesh, share[level.one] * star[level.two])
        if is_fed:
            _times(share, level.ranks, injected[level.nodes])
            add_rows(injected, level.amps, share[level.amps.order])


def _backward(
    levels: Levels, entries: Columns, injected: Columns, inverse: Columns, volts: Columns, root: Roots
) -> None:
    for level in reversed(levels.levels):
        star = entries[level.star]
        far = np.where(star != 0, root[level.other], NOWHERE)
        first = far[: level.ranks[0][1]]
        for start, end in level.ranks[1:]:
            part = first[: end - start]
            np.maximum(part, far[start:end], out=part)
        root[level.nodes] = np.where(first < 0, root[level.nodes], first)
        _volts_of(level, star, injected, inverse, volts)


def _volts_of(level: Level, star: Columns, injected: Columns, inverse: Columns, volts: Columns) -> None:
    star *= volts[level.other]
    amps = sum_of_ranks(star, level.ranks)
    amps += injected[level.nodes]
    amps *= inverse[level.nodes]
    volts[level.nodes] = amps


def _one_over(total: Columns) -> Columns:
    """Return one over each total, 0 for those that are 0."""
    alone = total == 0
    if not alone.any():
        found: Columns = 1 / total
        return found
    return np.where(alone, 0, 1 / np.where(alone, 1, total))


def _times(rows: Columns, ranks: Sequence[Rank], factor: Columns) -> None:
    for start, end in ranks:
        rows[start:end] *= factor[: end - start]


def sum_of_ranks(rows: Columns, ranks: Sequence[Rank]) -> Columns:
    """Return the sums of rows that stand in ranks; a new array."""
    total = rows[: ranks[0][1]].copy()
    for start, end in ranks[1:]:
        total[: end - start] += rows[start:end]
    return total


def add_rows(into: Columns, gathered: Gathered, rows: Columns) -> None:
    """Add rows, which stand in the ranks of ``gathered``, into their targets; ``rows`` is used up."""
    total = rows[: gathered.ranks[0][1]]
    for start, end in gathered.ranks[1:]:
        total[: end - start] += rows[start:end]
    into[gathered.targets] += total
