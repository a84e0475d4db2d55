"""Ends that are landed nowhere or disappear: where each is drawn, and what is written beside it.

Rules of the file: a loose end lies at the landing of its conductor's other end, in line with its lane, with its words
beyond it where there is room and in its label where there is not. A conductor that is landed at neither end lies in the
spare area at the left, below whatever lies there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from app.drawing.connection.landings import OUTWARD, EndName, Landing
from app.drawing.connection.said import NOTHING_SAID, Said
from app.drawing.surface.geometry import GRID, PITCH, Box, Point, up_to_grid
from app.drawing.surface.text_width import box_of_text, fitted, width_of
from app.drawing.surface.verbs import SMALL, Anchor, Text
from app.job.model import Conductor, Layout, UnknownEnd

RING = 6
NOT_LANDED, NOT_SEEN = "not landed", "not seen"
NOT_SEEN_AT = f"{NOT_SEEN}: "
WORDS_MOST, WORDS_LEAST = 240, 96
"""How much is written beside a loose end where there is room, and what is tried where there is not."""
SPARE_LENGTH = 144


@dataclass(frozen=True)
class LooseEnd:
    """An end at ``at``. ``words`` say what it is; ``beyond`` is where they stand, None where there is no room."""

    at: Point
    known: bool
    words: str
    beyond: Text | None


@dataclass(frozen=True)
class LooseEnds:
    """The loose ends of conductors that are landed at their other end, and what is kept free of lines for them."""

    ends: Mapping[EndName, LooseEnd]
    kept: tuple[Box, ...]


@dataclass(frozen=True)
class Spares:
    """The conductors that are landed at neither end: the line of each, and its two ends."""

    lines: Mapping[str, tuple[Point, Point]]
    ends: Mapping[EndName, LooseEnd]

    def lowered(self, by: int) -> Spares:
        """Return the same further down."""
        lines = {name: (_down(start, by), _down(end, by)) for name, (start, end) in self.lines.items()}
        ends = {
            name: replace(
                end,
                at=_down(end.at, by),
                beyond=None if end.beyond is None else end.beyond._replace(at=_down(end.beyond.at, by)),
            )
            for name, end in self.ends.items()
        }
        return Spares(lines, ends)


def place_loose_ends(
    layout: Layout, grounds: Mapping[str, Box], landings: Mapping[EndName, Landing], said: Said = NOTHING_SAID
) -> LooseEnds:
    """Return where the loose ends of conductors that are landed at their other end are drawn.

    ``grounds`` are those of the parts.
    """
    ends: dict[EndName, LooseEnd] = {}
    kept: list[Box] = []
    for name in sorted(layout.conductors):
        conductor = layout.conductors[name]
        if len(conductor.landed()) == 1:
            index = 0 if not isinstance(conductor.ends[0], str) else 1
            end = EndName(name, index)
            loose, room = _in_line(
                _words(conductor, end, said), landings[EndName(name, 1 - index)], [*grounds.values(), *kept]
            )
            ends[end] = loose
            kept.append(room)
    return LooseEnds(ends, tuple(kept))


def place_spares(layout: Layout, corner: Point, said: Said = NOTHING_SAID) -> Spares:
    """Return the spare area with its upper left corner at ``corner``: a row each, those of one cable together."""
    lines: dict[str, tuple[Point, Point]] = {}
    ends: dict[EndName, LooseEnd] = {}
    spare = [name for name, conductor in layout.conductors.items() if not conductor.landed()]
    widest = max(
        (width_of(_words(layout.conductors[name], EndName(name, 0), said)[1], SMALL) for name in spare), default=0
    )
    x, y = corner.x + up_to_grid(widest) + 2 * GRID, corner.y + GRID
    for name in sorted(spare, key=lambda name: (layout.conductors[name].cable or "", name)):
        lines[name] = Point(x, y), Point(x + SPARE_LENGTH, y)
        for index, (at, out) in enumerate(zip(lines[name], (Point(-1, 0), Point(1, 0)), strict=True)):
            known, words = _words(layout.conductors[name], EndName(name, index), said)
            ends[EndName(name, index)] = LooseEnd(at, known, words, _beyond(at, out, words))
        y += PITCH
    return Spares(lines, ends)


def ends_with_words(ends: Mapping[EndName, LooseEnd]) -> Iterator[Box]:
    """Yield for each loose end the box around it and its words: apart, neither would tell what the other is."""
    for end in ends.values():
        if end.beyond is not None:
            words = box_of_text(end.beyond)
            left, top = min(words.x, end.at.x - GRID), min(words.y, end.at.y - GRID)
            right, bottom = max(words.right, end.at.x + GRID), max(words.bottom, end.at.y + GRID)
            yield Box(left, top, right - left, bottom - top)


def _in_line(told: tuple[bool, str], landing: Landing, taken: Sequence[Box]) -> tuple[LooseEnd, Box]:
    out, port = OUTWARD[landing.side], landing.port
    known, words = told
    if not words:
        return LooseEnd(port, known, words, None), _room(port, out, 0)
    # The mark at the end says already that nobody saw it: where room is short, only where it is lost is written.
    short = words.removeprefix(NOT_SEEN_AT)
    for tried, most in ((words, WORDS_MOST), (short, WORDS_MOST), (short, WORDS_LEAST)):
        words = fitted(tried, SMALL, most)
        length = GRID + width_of(words, SMALL) + GRID
        room = _room(port, out, -(-length // GRID) * GRID)
        if not any(_ahead(room, out).overlaps(box) for box in taken):
            return LooseEnd(port, known, words, _beyond(port, out, words)), room
    return LooseEnd(port, known, words, None), _room(port, out, 0)


def _down(point: Point, by: int) -> Point:
    return Point(point.x, point.y + by)


def _ahead(room: Box, out: Point) -> Box:
    """Return what must be free for words: their room and a lane around it, but not the landing of the screw itself."""
    near = room.grown(GRID - 1, GRID - 1, GRID - 1, GRID - 1)
    return Box(
        near.x + GRID * max(out.x, 0),
        near.y + GRID * max(out.y, 0),
        near.w - GRID * abs(out.x),
        near.h - GRID * abs(out.y),
    )


def _room(port: Point, out: Point, length: int) -> Box:
    x = port.x - length if out.x < 0 else port.x
    y = port.y - length if out.y < 0 else port.y
    return Box(x, y, length * abs(out.x), length * abs(out.y))


def _beyond(port: Point, out: Point, words: str) -> Text:
    width = width_of(words, SMALL)
    if out.y == 0:
        return Text(Point(port.x + GRID * out.x, port.y + 4), words, SMALL, width, "start" if out.x > 0 else "end")
    anchor: Anchor = "start" if out.y < 0 else "end"
    return Text(Point(port.x + 4, port.y + GRID * out.y), words, SMALL, width, anchor, upright=False)


def _words(conductor: Conductor, name: EndName, said: Said) -> tuple[bool, str]:
    """Return whether it is known where an end is, and what stands beside it."""
    end = conductor.ends[name.number]
    if name in said.loose:
        return not isinstance(end, UnknownEnd), fitted(said.loose[name], SMALL, WORDS_MOST)
    if isinstance(end, UnknownEnd):
        return False, fitted(f"{NOT_SEEN_AT}{end.unknown}" if end.unknown else NOT_SEEN, SMALL, WORDS_MOST)
    return True, NOT_LANDED
