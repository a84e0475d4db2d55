"""Ways of four bends between two ports that both leave along their rows: along, down, across, down, along.

Rules of the file: both ports' columns are flooded once; a row then joins them where one of its free runs holds a point
of either flood. Adding the points of one flood to the free points of a row carries each of them to the end of its run,
which finds all such rows without looking at single points.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.flood import Flood
from app.drawing.routing.ports import Port, Window, run_around

TRIED_MOST = 12


class _Join(NamedTuple):
    """A way by its length in lanes, its first column, its row and its last column."""

    length: int
    first: int
    row: int
    last: int


def find_hooked_way(field: Field, a: Port, b: Port, window: Window, near: int) -> list[Node] | None:
    """Return the shortest way of four bends inside ``window``, of several the one that crosses least; None without one.

    ``near`` is a mask of columns beside which the wire likes to run.
    """
    columns = Flood(field, a, window), Flood(field, b, window)
    for flood in columns:
        flood.spread()
    joins = _shortest_joins(field, columns, window)
    if not joins:
        return None
    beside = (near << 1) | (near >> 1)
    best = min(joins, key=lambda join: (join.length + 4 * _crossed(field, a.at, b.at, join, beside), join))
    return [
        a.at,
        Node(best.first, a.at.j),
        Node(best.first, best.row),
        Node(best.last, best.row),
        Node(best.last, b.at.j),
        b.at,
    ]


def _shortest_joins(field: Field, columns: tuple[Flood, Flood], window: Window) -> list[_Join]:
    """Return the shortest joins, a few of them, shortest first.

    Rows are looked at from those between the ports outward, and no further than could still give a shorter way.
    """
    a, b = columns[0].port.at, columns[1].port.at
    mask = span(window.left, window.right)
    firsts, lasts = columns[0].levels[1], columns[1].levels[1]
    # Rows between the ports ask for no detour, then come those further and further outside.
    rows = sorted(
        (abs(a.j - j) + abs(j - b.j), j)
        for j, (first, last) in enumerate(zip(firsts, lasts, strict=True), start=window.top)
        if first and last
    )
    across = abs(a.i - b.i)
    joins: list[_Join] = []
    best = 0
    for detour, j in rows:
        least = across + detour
        if joins and (least > best or (least == best and len(joins) >= TRIED_MOST)):
            break
        free = field.free_across[j] & mask
        for join in _joins(free, firsts[j - window.top] & free, lasts[j - window.top] & free, j, a, b):
            joins.append(join)
            best = min(best, join.length) if len(joins) > 1 else join.length
    joins.sort()
    return joins[:TRIED_MOST]


def _joins(free: int, first: int, last: int, j: int, a: Node, b: Node) -> Iterator[_Join]:
    """Yield the best joins in one row, going to the right and going to the left."""
    down = abs(a.j - j) + abs(j - b.j)
    for start, end, swapped in ((first, last, False), (last, first, True)):
        # Points of ``end`` that lie in the same run as a point of ``start`` and not to its left.
        reached = ((free + start ^ free) & free | start) & end
        if not reached:
            continue
        goal = a.i if swapped else b.i
        for high in {_closest(reached, goal), (reached & -reached).bit_length() - 1}:
            run = run_around(free, high) & start & ((1 << high + 1) - 1)
            for low in {run.bit_length() - 1, _closest(run, b.i if swapped else a.i)}:
                one, two = (high, low) if swapped else (low, high)
                yield _Join(abs(a.i - one) + abs(one - two) + abs(two - b.i) + down, one, j, two)


def _closest(mask: int, bit: int) -> int:
    """Return the bit of ``mask`` closest to ``bit``."""
    above = mask >> bit
    below = mask & ((1 << bit) - 1)
    if not above:
        return below.bit_length() - 1
    up = (above & -above).bit_length() - 1
    if below and bit - (below.bit_length() - 1) < up:
        return below.bit_length() - 1
    return bit + up


def _crossed(field: Field, a: Node, b: Node, join: _Join, beside: int) -> int:
    """Return how many wires a way crosses, less one where it runs beside its bundle."""
    across, down = field.wires_down, field.wires_across
    return (
        (across[a.j] & span(a.i, join.first)).bit_count()
        + (down[join.first] & span(a.j, join.row)).bit_count()
        + (across[join.row] & span(join.first, join.last)).bit_count()
        + (down[join.last] & span(join.row, b.j)).bit_count()
        + (across[b.j] & span(join.last, b.i)).bit_count()
        - (beside >> join.first & 1)
    )
