"""Ways of at most two bends, found without a search: most wires need no more."""

from __future__ import annotations

from app.drawing.field import Field, Node, span
from app.drawing.ports import Port, Window, bits_of, ray

TRIED_MOST = 40


def find_short_way(field: Field, a: Port, b: Port, window: Window, near: int) -> list[Node] | None:
    """Return the best way with no bend, one or two inside ``window``; None without one.

    Of ways that are equally short the one that crosses least is best, then one beside ``near``, a mask of columns.
    """
    ahead, behind = ray(field, a, window), ray(field, b, window)
    if a.sideways != b.sideways:
        return _one_bend(a, b, ahead, behind)
    both = ahead & behind
    if not both:
        return None
    if (a.at.j == b.at.j) if a.sideways else (a.at.i == b.at.i):
        return [a.at, b.at]
    return _two_down(field, a.at, b.at, both, near) if a.sideways else _two_across(field, a.at, b.at, both)


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
    best: tuple[int, int, int, int] | None = None
    for i in _to_try(columns, a.i, b.i):
        if field.free_column[i] & between != between:
            continue
        crossed = (
            (field.wires_down[a.j] & span(a.i, i)).bit_count()
            + (field.wires_across[i] & between).bit_count()
            + (field.wires_down[b.j] & span(i, b.i)).bit_count()
        )
        found = (_detour(i, a.i, b.i), crossed, -(beside >> i & 1), i)
        if best is None or found < best:
            best = found
    return None if best is None else [a, Node(best[3], a.j), Node(best[3], b.j), b]


def _two_across(field: Field, a: Node, b: Node, rows: int) -> list[Node] | None:
    """Return the way along the column of ``a``, across one of ``rows``, and along the column of ``b``."""
    between = span(a.i, b.i)
    best: tuple[int, int, int] | None = None
    for j in _to_try(rows, a.j, b.j):
        if field.free_across[j] & between != between:
            continue
        crossed = (
            (field.wires_across[a.i] & span(a.j, j)).bit_count()
            + (field.wires_down[j] & between).bit_count()
            + (field.wires_across[b.i] & span(j, b.j)).bit_count()
        )
        found = (_detour(j, a.j, b.j), crossed, j)
        if best is None or found < best:
            best = found
    return None if best is None else [a, Node(a.i, best[2]), Node(b.i, best[2]), b]


def _to_try(mask: int, first: int, last: int) -> list[int]:
    """Return bits of ``mask`` between both, else those just outside."""
    between = mask & span(first, last)
    if between:
        return bits_of(between, TRIED_MOST)
    above = mask >> max(first, last)
    if above:
        return [max(first, last) + bit for bit in bits_of(above, TRIED_MOST)]
    low = min(first, last)
    return [bit for bit in range(low, max(low - TRIED_MOST, -1), -1) if mask >> bit & 1]


def _detour(bit: int, first: int, last: int) -> int:
    return abs(bit - first) + abs(bit - last) - abs(first - last)
