"""Where a long drawing is cut: in gaps, through as few conductors as can be, into as few pieces as fit.

Rules of the file: it knows one direction only and is asked once for each. A cut goes through nothing that should stay
whole. Where every line that a piece could reach goes through something, the pieces overlap: the next one begins before
what was cut, so that all that fits onto a sheet is whole on some sheet.
"""

from __future__ import annotations

import sys
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from app.drawing.surface.geometry import GRID

CLEAR = 3
"""What a cut keeps away from what stays whole, in u."""


class Span(NamedTuple):
    """A stretch from ``start`` to ``end`` in u."""

    start: int
    end: int


class Room(NamedTuple):
    """How long a piece may be in u: one with marks at neither end, at one end, at both.

    Marks stand where a cut crosses lines; one that crosses none needs no room for them.
    """

    alone: int
    outer: int
    inner: int


_Cost = tuple[int, int, int, int]
"""What a way of cutting costs, the worst first: pieces, overlaps, lines crossed, how uneven the pieces are."""


class _Place(NamedTuple):
    """A line up to which a piece may reach: where it then ends, where the next one begins, how many lines cross it."""

    at: int
    end: int
    next_start: int
    crossed: int

    @property
    def is_marked(self) -> bool:
        """Return whether the pieces on both sides of a cut here need room for marks."""
        return self.crossed > 0 or self.next_start < self.end


class Strip:
    """What is to be cut in one direction: ``whole`` should not be cut, ``lines`` had better not be crossed."""

    def __init__(self, extent: Span, whole: Iterable[Span], lines: Iterable[Span]) -> None:
        self.extent = extent
        self._whole = [Span(start - CLEAR, end + CLEAR) for start, end in sorted(set(whole))]
        first = extent.start // GRID * GRID + GRID // 2
        # Between two grid lines no conductor runs along a cut.
        self._ats = [at for at in range(first, extent.end, GRID) if at > extent.start]
        self._crossed = dict.fromkeys(self._ats, 0)
        for start, end in lines:
            for at in _inside(self._ats, start, end):
                self._crossed[at] += 1
        self._known: dict[int, list[_Place]] = {}

    def pieces(self, room: Room) -> tuple[Span, ...]:
        """Return the pieces into which this is cut, in order; one where it fits."""
        if self.extent.end - self.extent.start <= room.alone:
            return (self.extent,)
        for most in (room.outer, room.inner):
            search = _Search(self.extent, self._places(most - 2 * GRID), room)
            if search.best(self.extent.start) is not NO_WAY:
                break
        return tuple(search.pieces())

    def _places(self, most: int) -> list[_Place]:
        """Return the lines on which may be cut, where nothing stays whole that is longer than ``most``."""
        kept = [span for span in self._whole if span.end - span.start <= most]
        if len(kept) not in self._known:
            through: dict[int, list[Span]] = {at: [] for at in self._ats}
            for span in kept:
                for at in _inside(self._ats, span.start, span.end):
                    through[at].append(span)
            self._known[len(kept)] = [self._place(at, through) for at in self._ats]
        return self._known[len(kept)]

    def _place(self, at: int, through: Mapping[int, Sequence[Span]]) -> _Place:
        """Return what a cut near ``at`` does; ``through`` gives what it would go through at each place."""
        begins = min([at, *(span.start for span in through[at])])
        start = _at_or_before(self._ats, begins, self.extent.start)
        # What the next piece would cut at its beginning must be whole here; nothing more is shown twice.
        ends = max([start, *(span.end for span in through.get(start, ()) if span.end <= at)])
        end = self._ats[bisect_left(self._ats, ends)] if start < at else at
        # What is cut is cut where one piece ends and the other begins, which may both come before ``at``.
        return _Place(at, end, start, max(self._crossed.get(start, 0), self._crossed.get(end, 0)))


NO_WAY: tuple[_Cost, _Place | None] = (sys.maxsize, 0, 0, 0), None


class _Search:
    """The cheapest way to cut what is left, found once for each place where a piece may begin."""

    def __init__(self, extent: Span, places: list[_Place], room: Room) -> None:
        self.extent = extent
        self.places = places
        self.ats = [place.at for place in places]
        self.room = room
        self.marked = {place.next_start for place in places if place.is_marked} - {extent.start}
        self.known: dict[int, tuple[_Cost, _Place | None]] = {}

    def pieces(self) -> Iterator[Span]:
        """Yield the pieces of the cheapest way."""
        start = self.extent.start
        _cost, place = self.best(start)
        while place is not None:
            yield Span(start, place.end)
            start = place.next_start
            _cost, place = self.best(start)
        yield Span(start, self.extent.end)

    def best(self, start: int) -> tuple[_Cost, _Place | None]:
        """Return what is cheapest from ``start`` on: its cost, and where it cuts first, None where the rest fits."""
        if start not in self.known:
            self.known[start] = self._found(start)
        return self.known[start]

    def _found(self, start: int) -> tuple[_Cost, _Place | None]:
        rest = self.extent.end - start
        marks = int(start in self.marked)
        if start > self.extent.start and rest <= self.room[marks]:
            return (1, 0, 0, rest * rest), None
        reach, to_marks = self.room[marks], self.room[marks + 1]
        found = NO_WAY
        low, high = bisect_right(self.ats, start + to_marks // 4), bisect_right(self.ats, start + reach)
        for place in self.places[low:high]:
            if place.next_start <= start or (place.is_marked and place.at > start + to_marks):
                continue
            then = self.best(place.next_start)
            if then is NO_WAY:
                continue
            pieces, overlaps, crossed, uneven = then[0]
            long = place.end - start
            overlaps += place.next_start < place.at
            cost = (pieces + 1, overlaps, crossed + place.crossed, uneven + long * long)
            if cost < found[0]:
                found = cost, place
        return found


def _inside(ats: list[int], start: int, end: int) -> list[int]:
    low = bisect_right(ats, start)
    high = bisect_right(ats, end - 1)
    return ats[low:high]


def _at_or_before(ats: list[int], at: int, otherwise: int) -> int:
    place = bisect_right(ats, at)
    return ats[place - 1] if place else otherwise
