"""The order in which nodes are eliminated, found once a network.

Eliminating a node turns the star of its branches into a mesh between its neighbours: each pair of neighbours i, j
gains y_ki · y_kj / Σ y_k. Nothing is ever subtracted, so that a contact of 0.02 Ω beside a leak of 100 kΩ costs no
digits, and a node whose sum is zero is exactly the last one of its component.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from heapq import heapify, heappop, heappush
from typing import NamedTuple

PLANS_KEPT = 64


class Step(NamedTuple):
    """The elimination of one node.

    ``later`` are the neighbours that are eliminated after it; the branch to ``later[i]`` is entry ``first + i``; the
    branch between ``later[i]`` and ``later[j]`` (i < j) is entry ``mesh[i][j - i - 1]``.
    """

    node: int
    later: tuple[int, ...]
    first: int
    mesh: tuple[tuple[int, ...], ...]


class Line(NamedTuple):
    """A step as one solve after the other takes it: where only two neighbours are left, they and the entry between
    them are said by themselves, since nearly every node of a wiring has two when it goes."""

    node: int
    first: int
    pair: tuple[int, int] | None
    between: int
    step: Step


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """Steps in order, the number of entries, and the entry of each pair of nodes (smaller number first).

    ``lines`` are those steps at which anything is left to be done.
    """

    steps: tuple[Step, ...]
    size: int
    entry_of: dict[tuple[int, int], int]
    lines: tuple[Line, ...]

    def entries(self, ends: Iterable[tuple[int, int]]) -> list[int]:
        """Return the entry of each branch, -1 where both its ends are one node."""
        return [-1 if a == b else self.entry_of[(a, b) if a < b else (b, a)] for a, b in ends]


@lru_cache(maxsize=PLANS_KEPT)
def plan_elimination(
    size: int, pairs: tuple[tuple[int, int], ...], last: tuple[int, ...] = (), late: tuple[int, ...] = ()
) -> Plan:
    """Return a plan for ``size`` nodes with branches between ``pairs``: fewest neighbours first, ``last`` at the end.

    What stands in ``last`` is kept for the end because a reference that is eliminated late keeps rounding small, and
    so that the last node of a component is one of them wherever it holds any; ``late`` come just before. The last
    plans are kept: a change to one network leaves the others of its layout as they were.
    """
    near: list[set[int]] = [set() for _ in range(size)]
    for a, b in pairs:
        if a != b:
            near[a].add(b)
            near[b].add(a)
    order, later_of = _order(near, {**dict.fromkeys(late, 1), **dict.fromkeys(last, 2)})
    place = {node: at for at, node in enumerate(order)}
    entry_of: dict[tuple[int, int], int] = {}
    rows: list[tuple[int, tuple[int, ...], int]] = []
    for node, neighbours in zip(order, later_of, strict=True):
        later = tuple(sorted(neighbours, key=place.__getitem__))
        rows.append((node, later, len(entry_of)))
        for other in later:
            entry_of[(node, other) if node < other else (other, node)] = len(entry_of)
    steps = tuple(Step(*row, _mesh(row[1], entry_of)) for row in rows)
    return Plan(steps, len(entry_of), entry_of, tuple(_line(step) for step in steps if step.later))


def _line(step: Step) -> Line:
    pair = (step.later[0], step.later[1]) if len(step.later) == 2 else None
    return Line(step.node, step.first, pair, step.mesh[0][0] if pair else -1, step)


def _mesh(later: tuple[int, ...], entry_of: dict[tuple[int, int], int]) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(entry_of[(a, b) if a < b else (b, a)] for b in later[i + 1 :]) for i, a in enumerate(later))


def _order(near: list[set[int]], turn: dict[int, int]) -> tuple[list[int], list[set[int]]]:
    """Return the nodes in order, and for each the neighbours that it has when it goes."""
    waiting = [(turn.get(node, 0), len(around), node) for node, around in enumerate(near)]
    heapify(waiting)
    gone = [False] * len(near)
    order: list[int] = []
    later_of: list[set[int]] = []
    while waiting:
        _, neighbours, node = heappop(waiting)
        around = near[node]
        # A node whose neighbours have become more or fewer waits under its new number as well.
        if gone[node] or neighbours != len(around):
            continue
        gone[node] = True
        order.append(node)
        later_of.append(around)
        for other in around:
            near[other] |= around
            near[other] -= {other, node}
            heappush(waiting, (turn.get(other, 0), len(near[other]), other))
    return order, later_of
