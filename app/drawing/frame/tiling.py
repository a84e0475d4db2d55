"""How a drawing is cut up: into bands that lie one after another, and each band into tiles of its own.

Rules of the file: bands are rows or columns, whichever gives fewer tiles. A band is no longer than what is drawn in it,
so that no tile is empty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from app.drawing.frame.cutting import Room, Span, Strip
from app.drawing.frame.measured import PEN, Measured, inside
from app.drawing.surface.geometry import Box


class Rooms(NamedTuple):
    """How large a tile may be in u, from left to right and from top to bottom."""

    across: Room
    down: Room


class Cut(NamedTuple):
    """A line along which tiles part: what comes before it ends at ``end``, what comes after it begins at ``start``.

    ``level`` tells whether level lines cross it; ``band`` is the band that is cut there, None between two bands. Where
    ``start`` comes before ``end``, tiles overlap.
    """

    level: bool
    end: int
    start: int
    band: int | None


class Border(NamedTuple):
    """Where two tiles, by their numbers from 0, lie beside each other: along which cut, and how much of it."""

    before: int
    after: int
    cut: Cut
    along: Span


@dataclass(frozen=True)
class Tiling:
    """The tiles of a drawing band by band, and where they meet."""

    bands: tuple[tuple[Box, ...], ...]
    rows: bool

    @property
    def tiles(self) -> tuple[Box, ...]:
        """Return all tiles in their order."""
        return tuple(tile for band in self.bands for tile in band)

    def price(self, whole: Sequence[Box]) -> tuple[int, int, int]:
        """Return how many of these boxes lie whole on no tile, how many tiles there are, and how many cuts overlap."""
        tiles = self.tiles
        broken = sum(not any(inside(box, tile) for tile in tiles) for box in whole)
        return broken, len(tiles), sum(cut.start < cut.end for cut in {border.cut for border in self.borders()})

    def borders(self) -> list[Border]:
        """Return where tiles meet: beside each other in a band, then from band to band."""
        found, first = [], 0
        for number, band in enumerate(self.bands):
            for place, (one, other) in enumerate(pairwise(band), start=first):
                cut = Cut(self.rows, _long(one, self.rows).end, _long(other, self.rows).start, number)
                found.append(Border(place, place + 1, cut, _long(one, not self.rows)))
            if number + 1 < len(self.bands):
                found += self._between(first, band, self.bands[number + 1])
            first += len(band)
        return found

    def _between(self, first: int, band: Sequence[Box], following: Sequence[Box]) -> list[Border]:
        across = not self.rows
        cut = Cut(across, _long(band[0], across).end, _long(following[0], across).start, None)
        found = []
        for place, one in enumerate(band, start=first):
            for other_place, other in enumerate(following, start=first + len(band)):
                a, b = _long(one, self.rows), _long(other, self.rows)
                shared = Span(max(a.start, b.start), min(a.end, b.end))
                if shared.start < shared.end:
                    found.append(Border(place, other_place, cut, shared))
        return found


def tiled(seen: Measured, rooms: Rooms) -> Tiling:
    """Return a drawing cut into as few tiles as will do, in gaps where there are any."""
    ways = (_in_bands(seen, rooms, rows=True), _in_bands(seen, rooms, rows=False))
    return min(ways, key=lambda way: way.price(seen.drawing.whole))


def _in_bands(seen: Measured, rooms: Rooms, *, rows: bool) -> Tiling:
    major, minor = (rooms.down, rooms.across) if rows else (rooms.across, rooms.down)
    bands = (seen.down if rows else seen.across).pieces(major)
    whole = [(_long(box, rows), _long(box, not rows)) for box in seen.whole]
    drawn = [(_long(box, rows), _long(box, not rows)) for box in seen.drawn]
    return Tiling(
        tuple(
            tuple(_box(piece, band, rows) for piece in _strip(seen, band, whole, drawn, rows).pieces(minor))
            for band in bands
        ),
        rows,
    )


def _strip(
    seen: Measured, band: Span, whole: Sequence[tuple[Span, Span]], drawn: Sequence[tuple[Span, Span]], rows: bool
) -> Strip:
    """Return a band as what is to be cut; ``whole`` and ``drawn`` tell where things lie along and across it."""
    start, end = band
    shown = [long for long, wide in drawn if wide.start <= end and start <= wide.end]
    full = _long(seen.content, rows)
    extent = Span(min(long.start for long in shown), max(long.end for long in shown)) if shown else full
    return Strip(
        Span(max(extent.start - PEN, full.start), min(extent.end + PEN, full.end)),
        [long for long, wide in whole if start <= wide.start and wide.end <= end],
        [s.along for s in seen.segments if s.level is rows and start < s.across < end],
    )


def _long(box: Box, across: bool) -> Span:
    """Return the stretch of a box from left to right, or from top to bottom."""
    return Span(box.x, box.right) if across else Span(box.y, box.bottom)


def _box(long: Span, wide: Span, across: bool) -> Box:
    (x, right), (y, bottom) = (long, wide) if across else (wide, long)
    return Box(x, y, right - x, bottom - y)
