"""What a row shows in one band: pieces of its line, and words in the free room between its edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import SMALL
from app.drawing.timing.axis import AROUND_WORDS, CIRCLE_ROOM
from app.drawing.timing.chart import Edge, Row
from app.drawing.timing.level import Level
from app.drawing.timing.plan import Band, Column
from app.drawing.timing.words import lasts

CLEAR = 4
WORDS_LEAST = 24
"""Room in which words would be mostly an ellipsis is left empty."""


class Piece(NamedTuple):
    """A row from one edge to the next within a band: x, level, what it is in words (where that is to be read).

    ``clear`` is the room before its right end that belongs to links.
    """

    left: int
    right: int
    level: Level
    words: str
    clear: int = 0


class Placed(NamedTuple):
    """Words, and the x of their middle."""

    middle: int
    words: str


class Delay(NamedTuple):
    """A timer that runs along a row: from x to x, with how long that is."""

    left: int
    right: int
    words: Placed


def edges_in(row: Row, band: Band) -> Iterator[tuple[Edge, Column]]:
    """Yield the edges of a row that lie in a band."""
    for edge in row.edges:
        column = band.column(edge.when)
        if column is not None:
            yield edge, column


def pieces_of(row: Row, band: Band) -> Iterator[Piece]:
    """Yield the pieces of a row in a band, from left to right."""
    first = band.columns[0].when
    last = row.edge_before(first)
    x, level, words = band.left, row.level_before(first), _words(row, last) if last is not None else row.start_words
    for edge, column in edges_in(row, band):
        yield Piece(x, column.x, level, words, column.left)
        x, level, words = column.x, edge.level, _words(row, edge)
    yield Piece(x, band.right, level, words)


def words_of(row: Row, band: Band) -> Iterator[Placed]:
    """Yield what is written along a row that is done from outside: what it is made to be."""
    if row.section == "done":
        for piece in pieces_of(row, band):
            # A value that is cut says something else, so it stands whole or not at all.
            whole = piece.level == "value"
            room = _room_for(piece.words, _free(row, band, piece.left, piece.right), whole=whole)
            if piece.words and room is not None:
                yield room


def delays_of(row: Row, band: Band) -> Iterator[Delay]:
    """Yield the timers that run along a row, where their words find room."""
    for before, edge in pairwise((None, *row.edges)):
        if edge is None or edge.since_ms is None or (before is not None and before.when.at_ms > edge.since_ms):
            continue
        begins = [column for column in band.columns if column.when.at_ms == edge.since_ms]
        end = band.column(edge.when)
        if not begins or end is None:
            continue
        at_beginning = before is not None and before.when.at_ms == edge.since_ms
        left = max(column.x for column in begins) + CIRCLE_ROOM if at_beginning else begins[0].x + CLEAR
        words = lasts(edge.when.at_ms - edge.since_ms)
        room = _room_for(words, _free(row, band, left, end.x), whole=True)
        if room is not None:
            yield Delay(left, end.x - 2, room)


def _words(row: Row, edge: Edge) -> str:
    return edge.now if row.section == "done" else ""


def _free(row: Row, band: Band, left: int, right: int) -> Iterator[tuple[int, int]]:
    """Yield the room between two x that neither circles nor links nor grid lines need, from left to right."""
    taken = {column.x for _, column in edges_in(row, band)}
    starts = [(band.left, 0), *((c.x, CIRCLE_ROOM if c.x in taken else CLEAR) for c in band.columns)]
    ends = [*((c.x, c.left) for c in band.columns), (band.right, 0)]
    for (a, after), (b, before) in zip(starts, ends, strict=True):
        low, high = max(left, a + after), min(right, b - before)
        if b > left and a < right and high - low >= WORDS_LEAST:
            yield low, high


def _room_for(words: str, rooms: Iterator[tuple[int, int]], *, whole: bool = False) -> Placed | None:
    """Return where words go: the first room that holds them, else the widest, shortened (if they may be)."""
    found = list(rooms)
    need = width_of(words, SMALL) + 2 * AROUND_WORDS
    fits = [room for room in found if room[1] - room[0] >= need]
    if fits:
        return Placed(_middle(_widest(fits) if whole else fits[0]), words)
    if whole or not found:
        return None
    room = _widest(found)
    shown = fitted(words, SMALL, room[1] - room[0] - 2 * AROUND_WORDS)
    return Placed(_middle(room), shown) if shown else None


def _widest(rooms: Sequence[tuple[int, int]]) -> tuple[int, int]:
    return max(rooms, key=lambda room: (room[1] - room[0], -room[0]))


def _middle(room: tuple[int, int]) -> int:
    return (room[0] + room[1]) // 2
