"""What the tests see of a drawing: lines, boxes and words as they were drawn, and where they break a hard rule.

A rule breaker is said in words, so that a failing test shows where to look.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.drawing.connection.diagram import marks_on, put_connection
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.connection.written import Roles, written_on
from app.drawing.frame.title_block import SheetWords, draw_frame, sheet_around
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import Text
from app.job.model import Layout
from app.job.names import part_of
from app.tables.wire_rows import roles_in

CAPITAL = 0.76
"""The height of the tallest letters above the baseline, in ems of either font; above it a text box is blank."""


@dataclass(frozen=True)
class Segment:
    """A straight piece of a conductor."""

    conductor: str
    a: Point
    b: Point

    @property
    def level(self) -> bool:
        return self.a.y == self.b.y

    @property
    def box(self) -> Box:
        return Box(min(self.a.x, self.b.x), min(self.a.y, self.b.y), abs(self.a.x - self.b.x), abs(self.a.y - self.b.y))


class Seen:
    """A connection diagram on a recorder."""

    def __init__(
        self,
        layout: Layout,
        catalogue: Catalogue,
        point: OperatingPoint | None = None,
        insides: bool = False,
        roles: Roles | None = None,
    ) -> None:
        self.layout = layout
        self.plan: Plan = plan_connection(layout, catalogue, insides)
        self.recorder = Recorder()
        self.roles = roles_in(build_circuit(layout, catalogue)) if roles is None else roles
        self.written = written_on(self.plan, self.roles)
        put_connection(self.recorder, self.plan, catalogue, point, self.written)
        marks = marks_on(self.plan, catalogue, point, bool(self.written.purposes))
        self.sheet = sheet_around(self.plan.content, marks)
        draw_frame(self.recorder, self.sheet, marks, SheetWords("Job", "as left", "Connection diagram", "", ""))
        self.segments = list(self._segments())
        self.rows: dict[int, list[Segment]] = defaultdict(list)
        self.columns: dict[int, list[Segment]] = defaultdict(list)
        for segment in self.segments:
            track = self.rows[segment.a.y] if segment.level else self.columns[segment.a.x]
            track.append(segment)
        self.texts = [record for record in self.recorder.drawn("text") if record.text is not None]

    def groups(self, name: str) -> list[str]:
        """Return the values of an attribute of all groups, in order of drawing."""
        return [record.attributes[name] for record in self.recorder.drawn("begin") if name in record.attributes]

    def wires(self) -> list[Record]:
        """Return the lines of the conductors."""
        return [record for record in self.recorder.drawn("line") if record.attributes.get("class") == "wire"]

    def cutting(self, box: Box) -> Iterator[Segment]:
        """Yield the segments with a point inside a box, its edge not counted."""
        for y in range(box.y + 1, box.bottom):
            yield from (s for s in self.rows.get(y, ()) if s.box.x < box.right and box.x < s.box.right)
        for x in range(box.x + 1, box.right):
            yield from (s for s in self.columns.get(x, ()) if s.box.y < box.bottom and box.y < s.box.bottom)

    def _segments(self) -> Iterator[Segment]:
        for record in self.wires():
            name = record.within("data-conductor")
            assert name is not None
            for a, b in pairwise(record.points):
                yield Segment(name, a, b)


def slanted(seen: Seen) -> list[str]:
    """Return the pieces that are neither level nor upright."""
    return [f"{s.conductor} {s.a} {s.b}" for s in seen.segments if s.a.x != s.b.x and s.a.y != s.b.y]


def shared_segments(seen: Seen) -> list[str]:
    """Return where two conductors lie on each other, but for the few u beside a screw that both are landed on."""
    found = []
    for track in [*seen.rows.values(), *seen.columns.values()]:
        for number, one in enumerate(track):
            for other in track[number + 1 :]:
                shared = min(_high(one), _high(other)) - max(_low(one), _low(other))
                if shared > 0 and one.conductor != other.conductor and not _beside_screw(seen, one, other):
                    found.append(f"{one.conductor} and {other.conductor} at {one.a} {one.b}, {other.a} {other.b}")
    return found


def touching(seen: Seen) -> list[str]:
    """Return where a bend or end of one conductor lies on another that it shares no screw with there."""
    found = []
    for segment in seen.segments:
        for corner in (segment.a, segment.b):
            on = [s for s in seen.rows.get(corner.y, ()) if s.box.x <= corner.x <= s.box.right]
            on += [s for s in seen.columns.get(corner.x, ()) if s.box.y <= corner.y <= s.box.bottom]
            found += [
                f"{segment.conductor} touches {other.conductor} at {corner}"
                for other in on
                if other.conductor != segment.conductor and not _common_screws(seen, segment, other)
            ]
    return found


def crossings(seen: Seen) -> int:
    """Return how often conductors cross."""
    columns = [s for s in seen.segments if not s.level]
    return sum(
        row.box.x < column.a.x < row.box.right and column.box.y < row.a.y < column.box.bottom
        for row in seen.segments
        if row.level
        for column in columns
        if row.conductor != column.conductor
    )


def through_boxes(seen: Seen) -> list[str]:
    """Return where a conductor enters the box of a part; into a splice go those that are joined there."""
    found = []
    for name, part in seen.plan.boxes.items():
        for segment in seen.cutting(part.box):
            landed = {part_of(end) for end in seen.layout.conductors[segment.conductor].landed()}
            if not (part.is_splice() and name in landed):
                found.append(f"{segment.conductor} through {name} at {segment.a} {segment.b}")
    return found


def through_words(seen: Seen) -> list[str]:
    """Return where a conductor runs through words."""
    return [
        f"{segment.conductor} through {record.text.words!r} at {record.text.at}"
        for record in seen.texts
        if record.text is not None
        for segment in seen.cutting(inked(record.text))
    ]


def overlapping_words(seen: Seen) -> list[str]:
    """Return pairs of words that lie on each other, by the whole boxes of their fonts."""
    boxes = sorted((box_of_text(record.text), record.text.words) for record in seen.texts if record.text is not None)
    found = []
    for number, (box, words) in enumerate(boxes):
        for other, other_words in boxes[number + 1 :]:
            if other.x >= box.right:
                break
            if box.overlaps(other):
                found.append(f"{words!r} on {other_words!r} at {box} {other}")
    return found


def words_outside(seen: Seen) -> list[str]:
    """Return words that are not wholly on the sheet."""
    return [
        record.text.words
        for record in seen.texts
        if record.text is not None and not _inside(box_of_text(record.text), seen.sheet)
    ]


def overlapping_parts(seen: Seen) -> list[str]:
    """Return pairs of parts that stand on each other."""
    boxes = list(seen.plan.boxes.items())
    return [
        f"{name} on {other_name}"
        for number, (name, one) in enumerate(boxes)
        for other_name, other in boxes[number + 1 :]
        if one.box.overlaps(other.box)
    ]


def inked(text: Text) -> Box:
    """Return the box of words without the blank above their capitals."""
    box = box_of_text(text)
    blank = (text.at.y - box.y if text.upright else text.at.x - box.x) - round(CAPITAL * text.font.size)
    return (
        Box(box.x, box.y + blank, box.w, box.h - blank)
        if text.upright
        else Box(box.x + blank, box.y, box.w - blank, box.h)
    )


RULES = (
    slanted,
    shared_segments,
    touching,
    through_boxes,
    through_words,
    overlapping_words,
    words_outside,
    overlapping_parts,
)


def _low(segment: Segment) -> int:
    return segment.box.x if segment.level else segment.box.y


def _high(segment: Segment) -> int:
    return segment.box.right if segment.level else segment.box.bottom


def _common_screws(seen: Seen, one: Segment, other: Segment) -> set[str]:
    conductors = seen.layout.conductors
    return set(conductors[one.conductor].landed()) & set(conductors[other.conductor].landed())


def _beside_screw(seen: Seen, one: Segment, other: Segment) -> bool:
    """Return whether the shared piece lies where conductors on one screw fan out: 12 u in front of it."""
    low, high = max(_low(one), _low(other)), min(_high(one), _high(other))
    middle = Point((low + high) // 2, one.a.y) if one.level else Point(one.a.x, (low + high) // 2)
    for terminal in _common_screws(seen, one, other):
        part = seen.plan.boxes[part_of(terminal)]
        fan = part.box.grown(12, 12, 12, 12)
        if fan.x <= middle.x <= fan.right and fan.y <= middle.y <= fan.bottom:
            return True
    return False


def _inside(box: Box, sheet: Box) -> bool:
    return sheet.x <= box.x and box.right <= sheet.right and sheet.y <= box.y and box.bottom <= sheet.bottom
