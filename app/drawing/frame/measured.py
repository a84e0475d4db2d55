"""What the frame must know of a drawing to cut it: what stays whole, which lines run where, what lies in a window."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from app.drawing.frame.cutting import Span, Strip
from app.drawing.frame.drawing import CONDUCTOR, GIVES_WAY, WIRE, Drawing
from app.drawing.surface.geometry import Box, Point, box_around
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.verbs import Font

PEN = 4
"""More than half the widest line."""
SCREW = 6
"""A conductor ends no further than this from the part on which it is landed: on the edge of a screw."""
BESIDE = 18
"""No cut comes so near to a part, in u: there conductors on one screw fan out."""
CUT = ("line", "rect")
"""What a window may show in part."""


class Segment(NamedTuple):
    """A straight piece of a line that is told where a sheet ends, from its lower to its higher coordinate."""

    line: str
    level: bool
    across: int
    """The coordinate that all its points share."""
    along: Span


@dataclass(frozen=True)
class Measured:
    """A drawing as it was drawn."""

    drawing: Drawing
    records: tuple[Record, ...]

    @cached_property
    def content(self) -> Box:
        """Return the box around all that is drawn, lines with their width."""
        drawn = [box for box in self._boxes if box is not None]
        around = box_around([self.drawing.content, *drawn]) or self.drawing.content
        return around.grown(PEN, PEN, PEN, PEN)

    @cached_property
    def _boxes(self) -> tuple[Box | None, ...]:
        return tuple(record.bounds() for record in self.records)

    @cached_property
    def fonts(self) -> frozenset[Font]:
        """Return the fonts of its words."""
        return frozenset(record.text.font for record in self.records if record.text is not None)

    @cached_property
    def whole(self) -> tuple[Box, ...]:
        """Return what should not be cut: parts, screws with their letters, words, and what is no line."""
        loose = [box for record in self.records if _stays_whole(record) and (box := record.bounds()) is not None]
        # A part that is nearly as large as a sheet is kept whole by itself, where what is beside it has no room.
        return (*self._grown, *self.drawing.whole, *_groups_without_lines(self.records), *loose)

    @cached_property
    def with_room(self) -> tuple[Box, ...]:
        """Return what the drawing wants whole, with the room beside it, as far as something is drawn there."""
        return tuple(_within(box, self.content) for box in self._grown)

    @cached_property
    def _grown(self) -> tuple[Box, ...]:
        return tuple(box.grown(BESIDE, BESIDE, BESIDE, BESIDE) for box in self.drawing.whole)

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Return the straight pieces of all lines that are told where a sheet ends."""
        return tuple(_segments(self.records, self.drawing.goes_on))

    @cached_property
    def ends(self) -> tuple[Point, ...]:
        """Return where the lines of conductors begin and end."""
        return tuple(
            point
            for record in self.records
            if record.verb == "line" and record.within(CONDUCTOR) is not None
            for point in (record.points[0], record.points[-1])
        )

    @cached_property
    def across(self) -> Strip:
        """Return all this from left to right, to be cut into columns."""
        return Strip(
            Span(self.content.x, self.content.right),
            [Span(box.x, box.right) for box in self.whole],
            [segment.along for segment in self.segments if segment.level],
        )

    @cached_property
    def down(self) -> Strip:
        """Return all this from top to bottom, to be cut into rows."""
        return Strip(
            Span(self.content.y, self.content.bottom),
            [Span(box.y, box.bottom) for box in self.whole],
            [segment.along for segment in self.segments if not segment.level],
        )

    @cached_property
    def drawn(self) -> tuple[Box, ...]:
        """Return the boxes of all that is drawn, each straight piece of a line apart."""
        return tuple(box for record in self.records for box in _pieces(record))

    def seen_through(self, window: Box, hidden: Sequence[Box] = ()) -> tuple[Record, ...]:
        """Return what a window shows, without groups of which it shows nothing. Words are shown whole or not at all.

        Nothing is shown of what stands in a ``hidden`` box, because another window shows it whole.
        """
        kept: list[Record] = []
        opened: list[Record] = []
        for record, box in zip(self.records, self._boxes, strict=True):
            if record.verb == "begin":
                opened.append(record)
            elif record.verb == "end":
                if opened:
                    opened.pop()
                else:
                    kept.append(record)
            elif box is not None and _touches(box, window) and _shows(record, box, window):
                if any(_stands_in(record, box, other) for other in hidden):
                    continue
                kept += opened
                opened.clear()
                kept.append(record)
        return tuple(kept)


def measured(drawing: Drawing) -> Measured:
    """Return a drawing with what it consists of."""
    recorder = Recorder()
    drawing.put(recorder)
    return Measured(drawing, tuple(recorder.records))


def inside(box: Box, window: Box) -> bool:
    """Return whether a box lies in a window, edges counted."""
    return window.x <= box.x and box.right <= window.right and window.y <= box.y and box.bottom <= window.bottom


def _within(box: Box, other: Box) -> Box:
    left, top = max(box.x, other.x), max(box.y, other.y)
    right, bottom = min(box.right, other.right), min(box.bottom, other.bottom)
    return Box(left, top, right - left, bottom - top)


def _shows(record: Record, box: Box, window: Box) -> bool:
    """Return whether a window shows anything of what lies in a box that it touches."""
    if record.verb == "line":
        return any(_touches(piece, window) for piece in _pieces(record))
    return record.verb in CUT or inside(box, window)


def _stands_in(record: Record, box: Box, other: Box) -> bool:
    """Return whether something is part of what fills the other box: in it, or on its edge as a screw is."""
    return inside(box, other) if record.verb == "line" else _touches(box, other)


def _touches(box: Box, window: Box) -> bool:
    """Return whether they share more than a point on the window's right or lower edge."""
    across = window.x < box.right + (box.w == 0) and box.x < window.right
    return across and window.y < box.bottom + (box.h == 0) and box.y < window.bottom


def _pieces(record: Record) -> list[Box]:
    """Return the boxes that something fills, each straight piece of a line apart."""
    if record.verb == "line":
        return [_box(a, b) for a, b in pairwise(record.points)]
    box = record.bounds()
    return [box] if box is not None else []


def _stays_whole(record: Record) -> bool:
    if record.verb == "line":
        return any(a.x != b.x and a.y != b.y for a, b in pairwise(record.points))
    return record.verb not in ("begin", "end", "rect") and record.attributes.get("class") != GIVES_WAY


def _groups_without_lines(records: Iterable[Record]) -> Iterator[Box]:
    """Yield the box of each group that holds neither lines nor groups, such as a screw with its letter."""
    found: list[Record] | None = None
    for record in records:
        if record.verb == "begin":
            found = []
        elif record.verb == "end":
            box = box_around(box for one in found or () if (box := one.bounds()) is not None)
            if box is not None:
                yield box
            found = None
        elif record.verb == "line":
            found = None
        elif found is not None:
            found.append(record)


def _segments(records: Iterable[Record], goes_on: Sequence[str]) -> Iterator[Segment]:
    for record in records:
        is_wire = record.verb == "line" and record.attributes.get("class") == WIRE
        name = next((name for each in goes_on if (name := record.within(each)) is not None), None) if is_wire else None
        if name is None:
            continue
        for a, b in pairwise(record.points):
            if a.y == b.y:
                yield Segment(name, True, a.y, Span(min(a.x, b.x), max(a.x, b.x)))
            elif a.x == b.x:
                yield Segment(name, False, a.x, Span(min(a.y, b.y), max(a.y, b.y)))


def _box(a: Point, b: Point) -> Box:
    return Box(min(a.x, b.x), min(a.y, b.y), abs(a.x - b.x), abs(a.y - b.y))
