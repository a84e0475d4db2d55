"""The way with the fewest bends between two ports, then the shortest one, found by flooding whole rows at once.

Rules of the file: where the floods of both ports first meet, a way with the fewest bends exists, and going back through
the floods gives it. The search is complete: None means that there is no way inside the window with as few bends.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.flood import Flood, Mask
from app.drawing.routing.hooked_ways import find_hooked_way
from app.drawing.routing.ports import Port, Window, bits_of
from app.drawing.routing.short_ways import find_short_way

BENDS_MOST = 15
HOOKED_BENDS = 4
TRIED_MOST = 6
"""Of the ways with the fewest bends, so many are compared."""
CROSSING_COST = 4
BEND_COST = 6
"""A crossing and a bend are each worth a detour of so many lanes."""


def find_way(
    field: Field, a: Port, b: Port, window: Window, near: int = 0, bends_most: int = BENDS_MOST
) -> list[Node] | None:
    """Return the nodes of the best way from ``a`` to ``b`` inside ``window``: its ends and bends; None without one.

    ``near`` is a mask of columns in which a wire of the same bundle runs down: beside them is a good place.
    """
    short = find_short_way(field, a, b, window, near)
    if short is not None:
        return without_repeats(short)
    if a.sideways and b.sideways:
        hooked = find_hooked_way(field, a, b, window, near)
        if hooked is not None or bends_most <= HOOKED_BENDS:
            return without_repeats(hooked) if hooked is not None else None
    first, second = Flood(field, a, window), Flood(field, b, window)
    if a.sideways == b.sideways:
        first.spread()
    # A meeting makes one bend more than both floods together have made; ways with up to two are known not to exist.
    while len(first.levels) + len(second.levels) + 1 <= bends_most:
        grown = second.spread()
        if not first.spread() and not grown:
            return None
        meeting = [x & y for x, y in zip(first.levels[-1], second.levels[-1], strict=True)]
        if any(meeting):
            return without_repeats(_best(field, first, second, meeting, near))
    return None


def without_repeats(way: list[Node]) -> list[Node]:
    """Return the nodes of a way, each once: a wire that turns at its port has its first bend there."""
    return [node for number, node in enumerate(way) if not number or node != way[number - 1]]


def cost_of(way: list[Node], field: Field, a: Port, b: Port) -> int:
    """Return what a way between two ports costs, in lanes: its length, its bends and what it crosses."""
    bends = len(way) - 2
    if len(way) > 1:
        bends += (way[0].j == way[1].j) != a.sideways
        bends += (way[-1].j == way[-2].j) != b.sideways
    return _length(way) + BEND_COST * bends + CROSSING_COST * field.crossings(way)


def _best(field: Field, first: Flood, second: Flood, meeting: Mask, near: int) -> list[Node]:
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


def _promising(meeting: Mask, first: Flood, second: Flood, near: int) -> list[Node]:
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
        yield from bits_of(between, 3)
        yield between.bit_length() - 1
        return
    low, high = min(first, last), max(first, last)
    below = row & ((1 << low) - 1)
    if below:
        yield below.bit_length() - 1
    above = row >> high
    if above:
        yield high + (above & -above).bit_length() - 1


def _length(way: list[Node]) -> int:
    return sum(abs(a.i - b.i) + abs(a.j - b.j) for a, b in pairwise(way))


def _beside(way: list[Node], near: int) -> int:
    """Return 1 where a piece down runs beside one of its bundle."""
    beside = (near << 1) | (near >> 1)
    return int(any(a.i == b.i and beside >> a.i & 1 for a, b in pairwise(way)))
