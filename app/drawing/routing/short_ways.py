"""Ways of at most two bends, found without a search: most wires need no more."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.ports import Port, Window, bits_of, ray


def find_short_way(field: Field, a: Port, b: Port, window: Window, near: int) -> list[Node] | None:
    """Return the best way with no bend, one or two inside ``window``; None without one.

    Of ways that are equally short the one that crosses least is best, then one beside ``near``, a mask of columns.
    """
    ahead, behind = ray(field, a, window), ray(field, b, window)
    if a.sideways != b.sideways:
        return _one_bend(a, b, ahead, behind)
    both = ahead & behind
    if not both:
        return [a.at, b.at] if _neighbours_facing(a, b) else None
    if (a.at.j == b.at.j) if a.sideways else (a.at.i == b.at.i):
        return [a.at, b.at]
    return _two_down(field, a.at, b.at, both, near) if a.sideways else _two_across(field, a.at, b.at, both)


def _neighbours_facing(a: Port, b: Port) -> bool:
    """Return whether the two leave towards each other with no point between, so that neither sees past the other."""
    return Node(a.at.i + a.di, a.at.j + a.dj) == b.at and (a.di, a.dj) == (-b.di, -b.dj)


def _one_bend(a: Port, b: Port, ahead: int, behind: int) -> list[Node] | None:
    level, upright = (a, b) if a.sideways else (b, a)
    across, down = (ahead, behind) if a.sideways else (behind, ahead)
    corner = Node(upright.at.i, level.at.j)
    if not (across >> corner.i & 1 and down >> corner.j & 1):
        return None
    return [a.at, corner, b.at]


def _two_down(field: Field, a: Node, b: Node, columns: int, near: int) -> list[Node] | None:
    """Return the way along the row of ``a``, down or up one of ``columns``, and along the row of ``b``."""
    between = span(a.j, b.j)
    beside = (near << 1) | (near >> 1)
    for group in _by_detour(columns, a.i, b.i):
        open_columns = [i for i in group if field.free_column[i] & between == between]
        if open_columns:
            crossed = {
                i: (field.wires_down[a.j] & span(a.i, i)).bit_count()
                + (field.wires_across[i] & between).bit_count()
                + (field.wires_down[b.j] & span(i, b.i)).bit_count()
                for i in open_columns
            }
            best = min(open_columns, key=lambda i: (crossed[i], -(beside >> i & 1), i))
            return [a, Node(best, a.j), Node(best, b.j), b]
    return None


def _two_across(field: Field, a: Node, b: Node, rows: int) -> list[Node] | None:
    """Return the way along the column of ``a``, across one of ``rows``, and along the column of ``b``."""
    between = span(a.i, b.i)
    for group in _by_detour(rows, a.j, b.j):
        open_rows = [j for j in group if field.free_across[j] & between == between]
        if open_rows:
            crossed = {
                j: (field.wires_across[a.i] & span(a.j, j)).bit_count()
                + (field.wires_down[j] & between).bit_count()
                + (field.wires_across[b.i] & span(j, b.j)).bit_count()
                for j in open_rows
            }
            best = min(open_rows, key=lambda j: (crossed[j], j))
            return [a, Node(a.i, best), Node(b.i, best), b]
    return None


def _by_detour(mask: int, first: int, last: int) -> Iterator[list[int]]:
    """Yield the bits of ``mask``: those between both, which ask for no detour, then further and further outside."""
    low, high = min(first, last), max(first, last)
    between = mask & span(low, high)
    if between:
        yield bits_of(between, high - low + 1)
    above, below = mask >> high + 1, mask & ((1 << low) - 1)
    while above or below:
        up = (above & -above).bit_length() if above else 0
        down = low + 1 - below.bit_length() if below else 0
        step = min(each for each in (up, down) if each)
        group = [bit for bit, far in ((low - step, down), (high + step, up)) if far == step]
        yield group
        if up == step:
            above &= above - 1
        if down == step:
            below ^= 1 << low - step
