"""In which section each row stands, and in which order: what hangs on a row comes right below it.

Rules of the file: a row is laid below the one that it is tied to, that with the tie farthest right first, so that
upright ties cross as few rungs as they can.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.drawing.ladder.rails import Rails
from app.drawing.ladder.rungs import Laid, Row

Key = tuple[str, str]
"""A section: its common and its hot rail; both empty where no source feeds it."""
ADRIFT: Key = ("", "")


@dataclass(frozen=True)
class Ordered:
    """The sections from above to below, each with the places of its rows in the list of rows laid."""

    sections: tuple[tuple[Key, tuple[int, ...]], ...]


def ordered(laid: Laid, rails: Rails) -> Ordered:
    """Return the order of the rows."""
    keys = sorted({(rails.common_of[source], rails.hot_of[source]) for source in rails.hot_of})
    section_of: list[Key] = []
    for number, row in enumerate(laid.rows):
        section_of.append(_section(number, row, laid, rails, keys, section_of))
    found = []
    ranks = ranks_of(laid.rows, rails)
    for key in [*keys, ADRIFT]:
        own = [number for number, section in enumerate(section_of) if section == key]
        if own:
            found.append((key, tuple(_nested(own, laid, rails, ranks))))
    return Ordered(tuple(found))


def _section(number: int, row: Row, laid: Laid, rails: Rails, keys: Sequence[Key], before: Sequence[Key]) -> Key:
    """Return the section of a row: that of its hot rail, else of the row that it is tied to, else of its common."""
    ends = [row.points[0], row.points[-1]]
    on_rails = [rails.rail_of[point] for point in ends if point in rails.rail_of]
    for hot in on_rails:
        for key in keys:
            if key[1] == hot and (key[0] in on_rails or len(on_rails) == 1):
                return key
    tied = [laid.home[point][0] for point in ends if point in laid.home and laid.home[point][0] < number]
    if tied:
        return before[tied[0]]
    return next((key for rail in on_rails for key in keys if rail in key), ADRIFT)


def ranks_of(rows: Sequence[Row], rails: Rails) -> Mapping[str, int]:
    """Return for each point how many pieces at most stand to the left of it."""
    before: dict[str, list[str]] = {}
    for row in rows:
        for piece in row.pieces:
            before.setdefault(piece.b, []).append(piece.a)
    rank: dict[str, int] = {}

    def of(point: str, above: frozenset[str]) -> int:
        if point in rails.rail_of or point in above:
            return 0
        if point not in rank:
            rank[point] = max((1 + of(each, above | {point}) for each in before.get(point, ())), default=0)
        return rank[point]

    for row in rows:
        for point in row.points:
            of(point, frozenset())
    return rank


def _nested(own: Sequence[int], laid: Laid, rails: Rails, ranks: Mapping[str, int]) -> list[int]:
    inside = set(own)
    below: dict[int, list[tuple[tuple[int, int, int], int]]] = {}
    roots = []
    for number in own:
        points = laid.rows[number].points
        first, last = points[0], points[-1]
        tied = [
            (laid.home[point][0], point)
            for point in (first, last)
            if point in laid.home and laid.home[point][0] < number and laid.home[point][0] in inside
        ]
        if not tied:
            roots.append(number)
            continue
        above, point = max(tied)
        closes = point == last
        place = (0, ranks[last], number) if closes else (1, -ranks[first], number)
        below.setdefault(above, []).append((place, number))
    found: list[int] = []
    ahead = roots[::-1]
    while ahead:
        number = ahead.pop()
        found.append(number)
        ahead += [child for _, child in sorted(below.get(number, ()), reverse=True)]
    return found
