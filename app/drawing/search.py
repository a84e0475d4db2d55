"""The way with the fewest bends between two ports, then the shortest one, found by flooding whole rows at once.

Rules of the file: from each port spreads what can be reached with no bend, one bend, two bends …, as one mask a row;
where the floods of both ports first meet, a way with the fewest bends exists, and going back through the floods gives
it. The search is complete: None means that there is no way inside the window.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from app.drawing.field import Field, Node, span

Mask = list[int]
BENDS_MOST = 15
TRIED_MOST = 6
"""Of the ways with the fewest bends, so many are compared."""
CROSSING_COST = 4
"""A crossing is worth a detour of so many lanes."""


class Port(NamedTuple):
    """Where a wire starts: a lattice point and the direction in which it leaves, (1, 0) for to the right."""

    at: Node
    di: int
    dj: int

    @property
    def sideways(self) -> bool:
        """Return whether it leaves along its row."""
        return self.dj == 0


class Window(NamedTuple):
    """The part of the field in which is searched, ends included."""

    left: int
    top: int
    right: int
    bottom: int


class _Flood:
    """What is reached from one port: one row mask list for each number of bends, rows counted from the window's top."""

    def __init__(self, field: Field, port: Port, window: Window) -> None:
        self.field, self.port, self.window = field, port, window
        self.across = span(window.left, window.right)
        self.levels: list[Mask] = [_ray(field, port, window)]
        self.sideways = [port.sideways]

    def spread(self) -> bool:
        """Add one bend; return whether anything new was reached."""
        sideways = not self.sideways[-1]
        reach = self._across() if sideways else self._down()
        known = self.levels[-2] if len(self.levels) > 1 else None
        self.levels.append(reach)
        self.sideways.append(sideways)
        return any(reach) if known is None else reach != known

    def _down(self) -> Mask:
        seeds, mask = self.levels[-1], self.across
        free = self.field.free_down[self.window.top : self.window.bottom + 1]
        reach = [0] * len(free)
        flow = 0
        for k, seed in enumerate(seeds):
            if seed or flow:
                reach[k] = flow = (flow | seed) & free[k] & mask
        flow = 0
        for k in range(len(free) - 1, -1, -1):
            flow |= reach[k]
            if flow:
                flow &= free[k]
                reach[k] |= flow
        return reach

    def _across(self) -> Mask:
        seeds, mask, runs_of = self.levels[-1], self.across, self.field.runs
        reach = []
        for j, seed in enumerate(seeds, start=self.window.top):
            reached = 0
            if seed:
                for run in runs_of(j):
                    if run & seed:
                        reached |= run
            reach.append(reached & mask)
        return reach

    def way_back(self, node: Node, level: int) -> list[Node]:
        """Return the nodes from the port to ``node``, which was reached with ``level`` bends."""
        way = [node]
        goal = self.port.at
        while level > 1:
            node = self._bend_before(node, level, goal)
            way.append(node)
            level -= 1
        if level:
            way.append(Node(node.i, goal.j) if self.port.sideways else Node(goal.i, node.j))
        if way[-1] != goal:
            way.append(goal)
        way.reverse()
        return way

    def _bend_before(self, node: Node, level: int, goal: Node) -> Node:
        """Return the nearest good bend from which ``node`` was reached: on the way to the port, else just past it."""
        top = self.window.top
        before, here = self.levels[level - 1], self.levels[level]
        if self.sideways[level]:
            run = _run_around(here[node.j - top], node.i)
            return Node(_nearest(run & before[node.j - top], node.i, goal.i), node.j)
        return Node(node.i, top + _nearest_row(before, here, 1 << node.i, node.j - top, goal.j - top))


def _nearest_row(before: Mask, here: Mask, bit: int, start: int, goal: int) -> int:
    """Return the row with ``bit`` in ``before`` that lies best on the way from ``start`` to ``goal``.

    Rows are tried from ``start`` as far as ``here`` has the bit without a break, towards the goal first.
    """
    step = 1 if goal >= start else -1
    found = []
    for direction in (step, -step):
        k = start
        while 0 <= k < len(here) and here[k] & bit:
            if before[k] & bit:
                if direction == step and (goal - k) * step >= 0:
                    return k
                found.append(k)
                break
            k += direction
    return min(found, key=lambda k: (abs(k - start) + abs(k - goal), k))


def find_way(
    field: Field, a: Port, b: Port, window: Window, near: int = 0, bends_most: int = BENDS_MOST
) -> list[Node] | None:
    """Return the nodes of the best way from ``a`` to ``b`` inside ``window``: its ends and bends; None without one.

    ``near`` is a mask of columns in which a wire of the same bundle runs down: beside them is a good place.
    """
    floods = (_Flood(field, a, window), _Flood(field, b, window))
    straight = _straight(floods[0], floods[1])
    if straight is not None:
        return straight
    if a.sideways == b.sideways:
        floods[0].spread()
    # A meeting makes one bend more than both floods together have made.
    while len(floods[0].levels) + len(floods[1].levels) - 1 <= bends_most:
        meeting = [x & y for x, y in zip(floods[0].levels[-1], floods[1].levels[-1], strict=True)]
        if any(meeting):
            return _best(field, floods[0], floods[1], meeting, near)
        grown = [flood.spread() for flood in floods]
        if not any(grown):
            return None
    return None


def _straight(first: _Flood, second: _Flood) -> list[Node] | None:
    a, b = first.port, second.port
    if a.sideways != b.sideways or not any(x & y for x, y in zip(first.levels[0], second.levels[0], strict=True)):
        return None
    return [a.at, b.at]


def _best(field: Field, first: _Flood, second: _Flood, meeting: Mask, near: int) -> list[Node]:
    levels = len(first.levels) - 1, len(second.levels) - 1
    best: tuple[int, list[Node]] | None = None
    for node in _promising(meeting, first, second, near):
        way = first.way_back(node, levels[0])
        way += reversed(second.way_back(node, levels[1])[:-1])
        cost = _length(way) + CROSSING_COST * field.crossings(way) - _beside(way, near)
        if best is None or cost < best[0]:
            best = cost, way
    if best is None:
        raise AssertionError("a meeting has at least one node")
    return best[1]


def _promising(meeting: Mask, first: _Flood, second: _Flood, near: int) -> list[Node]:
    """Return the nodes of a meeting by which the shortest ways can lead, a few of them."""
    a, b = first.port.at, second.port.at
    nodes: list[tuple[int, Node]] = []
    for j, row in enumerate(meeting, start=first.window.top):
        if row:
            detour = abs(j - a.j) + abs(j - b.j)
            nodes += [(detour + abs(i - a.i) + abs(i - b.i), Node(i, j)) for i in _columns_to_try(row, a.i, b.i, near)]
    nodes.sort()
    return [node for _, node in nodes[:TRIED_MOST]]


def _columns_to_try(row: int, first: int, last: int, near: int) -> Iterator[int]:
    between = row & span(first, last)
    beside = between & ((near << 1) | (near >> 1))
    if beside:
        yield (beside & -beside).bit_length() - 1
    if between:
        yield from _first_bits(between, 3)
        yield between.bit_length() - 1
        return
    low, high = min(first, last), max(first, last)
    below = row & ((1 << low) - 1)
    if below:
        yield below.bit_length() - 1
    above = row >> high
    if above:
        yield high + (above & -above).bit_length() - 1


def _first_bits(mask: int, most: int) -> Iterator[int]:
    while mask and most:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
        most -= 1


def _nearest(mask: int, here: int, goal: int) -> int:
    """Return the bit of ``mask`` that lies best on the way from ``here`` to ``goal``: nearest to here among those."""
    between = mask & span(here, goal)
    if between:
        return between.bit_length() - 1 if here > goal else (between & -between).bit_length() - 1
    low, high = min(here, goal), max(here, goal)
    below, above = mask & ((1 << low) - 1), mask >> high
    candidates = []
    if below:
        candidates.append(below.bit_length() - 1)
    if above:
        candidates.append(high + (above & -above).bit_length() - 1)
    return min(candidates, key=lambda bit: (abs(bit - here) + abs(bit - goal), bit))


def _run_around(mask: int, bit: int) -> int:
    """Return the unbroken run of ``mask`` that holds ``bit``."""
    gaps = ~mask
    above = gaps >> bit
    last = bit + (above & -above).bit_length() - 2
    below = gaps & ((1 << bit) - 1)
    return span(below.bit_length(), last)


def _ray(field: Field, port: Port, window: Window) -> Mask:
    """Return what is reached straight ahead, the port included."""
    rows = [0] * (window.bottom - window.top + 1)
    i, j = port.at
    if port.sideways:
        free = field.free_across[j] & span(window.left, window.right) | 1 << i
        run = _run_around(free, i)
        rows[j - window.top] = run & ~((1 << i) - 1) if port.di > 0 else run & ((1 << i + 1) - 1)
        return rows
    rows[j - window.top] = 1 << i
    k = j + port.dj
    while window.top <= k <= window.bottom and field.free_down[k] >> i & 1:
        rows[k - window.top] = 1 << i
        k += port.dj
    return rows


def _length(way: list[Node]) -> int:
    return sum(abs(a.i - b.i) + abs(a.j - b.j) for a, b in pairwise(way))


def _beside(way: list[Node], near: int) -> int:
    """Return 1 where a piece down runs beside one of its bundle."""
    beside = (near << 1) | (near >> 1)
    return int(any(a.i == b.i and beside >> a.i & 1 for a, b in pairwise(way)))
