"""Ends that are landed nowhere or disappear: where each is drawn, and what is written beside it.

Rules of the file: a loose end lies at the landing of its conductor's other end, in line with its lane, with its words
beyond it where there is room and in its label where there is not. A conductor that is landed at neither end lies in the
spare area below the parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.drawing.geometry import GRID, PITCH, Box, Point, box_around
from app.drawing.landings import OUTWARD, EndName, Landing, grounds_of
from app.drawing.part_box import PartBox
from app.drawing.surface import SMALL, Anchor, Text
from app.drawing.text_width import fitted, width_of
from app.job.model import Conductor, Layout, UnknownEnd

RING = 6
NOT_LANDED = "not landed"
WORDS_MOST = 96
SPARE_LENGTH = 144
SPARE_AREA_GAP = 48


@dataclass(frozen=True)
class LooseEnd:
    """An end at ``at``. ``words`` say what it is; ``beyond`` is where they stand, None where there is no room."""

    at: Point
    known: bool
    words: str
    beyond: Text | None


@dataclass(frozen=True)
class LooseEnds:
    """All loose ends of a layout, the lines of the conductors in the spare area, and what is kept free of lines."""

    ends: Mapping[EndName, LooseEnd]
    spare: Mapping[str, tuple[Point, Point]]
    kept: tuple[Box, ...]


def place_loose_ends(layout: Layout, boxes: Mapping[str, PartBox], landings: Mapping[EndName, Landing]) -> LooseEnds:
    """Return where every end that is not landed is drawn."""
    ends: dict[EndName, LooseEnd] = {}
    kept: list[Box] = []
    grounds = list(grounds_of(layout, boxes, landings).values())
    spare: list[str] = []
    for name in sorted(layout.conductors):
        conductor = layout.conductors[name]
        landed = conductor.landed()
        if not landed:
            spare.append(name)
        elif len(landed) == 1:
            index = 0 if not isinstance(conductor.ends[0], str) else 1
            loose, room = _in_line(conductor, index, landings[EndName(name, 1 - index)], [*grounds, *kept])
            ends[EndName(name, index)] = loose
            kept.append(room)
    lines = _spare_area(spare, layout, grounds, ends)
    return LooseEnds(ends, lines, tuple(kept))


def _in_line(conductor: Conductor, index: int, landing: Landing, taken: Iterable[Box]) -> tuple[LooseEnd, Box]:
    out, port = OUTWARD[landing.side], landing.port
    known, words = _words(conductor, index)
    length = GRID + width_of(words, SMALL) + GRID
    room = _room(port, out, -(-length // GRID) * GRID)
    near = room.grown(GRID - 1, GRID - 1, GRID - 1, GRID - 1)
    # The landing of the screw itself is beside the room, never in it.
    ahead = Box(
        near.x + GRID * max(out.x, 0),
        near.y + GRID * max(out.y, 0),
        near.w - GRID * abs(out.x),
        near.h - GRID * abs(out.y),
    )
    if any(ahead.overlaps(box) for box in taken):
        return LooseEnd(port, known, words, None), _room(port, out, 0)
    return LooseEnd(port, known, words, _beyond(port, out, words)), room


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


def _words(conductor: Conductor, index: int) -> tuple[bool, str]:
    end = conductor.ends[index]
    if isinstance(end, UnknownEnd):
        return False, fitted(f"not seen: {end.unknown}" if end.unknown else "not seen", SMALL, WORDS_MOST)
    return True, NOT_LANDED


def _spare_area(
    names: list[str], layout: Layout, grounds: list[Box], ends: dict[EndName, LooseEnd]
) -> dict[str, tuple[Point, Point]]:
    around = box_around(grounds) or Box(0, 0, 0, 0)
    lines = {}
    y = around.bottom + SPARE_AREA_GAP
    for name in sorted(names, key=lambda name: (layout.conductors[name].cable or "", name)):
        x = around.x + WORDS_MOST + 2 * GRID
        first, second = Point(x, y), Point(x + SPARE_LENGTH, y)
        for index, (at, out) in enumerate(((first, Point(-1, 0)), (second, Point(1, 0)))):
            known, words = _words(layout.conductors[name], index)
            ends[EndName(name, index)] = LooseEnd(at, known, words, _beyond(at, out, words))
        lines[name] = first, second
        y += PITCH
    return lines
