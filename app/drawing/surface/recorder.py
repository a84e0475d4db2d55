"""A surface that remembers what was drawn: for tests, for measuring and for drawing it again elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from app.drawing.surface.geometry import Box, Point, box_around, box_of_points
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import NO_ATTRIBUTES, Attributes, Pen, Surface, Text


@dataclass(frozen=True)
class Record:
    """One thing that was drawn: its verb, where, how, and the group in which it lies."""

    verb: str
    points: tuple[Point, ...] = ()
    box: Box | None = None
    radius: int = 0
    pen: Pen | None = None
    text: Text | None = None
    title: str = ""
    attributes: Attributes = field(default_factory=dict)
    groups: tuple[Attributes, ...] = ()

    def bounds(self) -> Box | None:
        """Return the box that this fills (a line without its width), None for a group."""
        if self.text is not None:
            return box_of_text(self.text)
        if self.verb == "circle":
            centre = self.points[0]
            return Box(centre.x - self.radius, centre.y - self.radius, 2 * self.radius, 2 * self.radius)
        if self.verb == "arch":
            return _box_of_arch(*self.points)
        return self.box or box_of_points(self.points)

    def within(self, name: str) -> str | None:
        """Return the value of an attribute of the nearest group that has it."""
        for group in reversed(self.groups):
            if name in group:
                return group[name]
        return None


class Recorder:
    """A surface whose ``records`` are everything drawn, in order."""

    def __init__(self) -> None:
        self.records: list[Record] = []
        self._groups: list[Attributes] = []

    def begin(self, attributes: Attributes = NO_ATTRIBUTES, title: str = "") -> None:
        """Open a group."""
        self.records.append(Record("begin", title=title, attributes=attributes, groups=tuple(self._groups)))
        self._groups.append(attributes)

    def end(self) -> None:
        """Close a group."""
        self._groups.pop()
        self.records.append(Record("end", groups=tuple(self._groups)))

    def line(self, points: Sequence[Point], pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember a line."""
        self._keep(Record("line", tuple(points), pen=pen, attributes=attributes, groups=tuple(self._groups)))

    def rect(self, box: Box, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember a box."""
        self._keep(Record("rect", box=box, pen=pen, attributes=attributes, groups=tuple(self._groups)))

    def circle(self, centre: Point, radius: int, pen: Pen | None, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember a ring or dot."""
        self._keep(
            Record("circle", (centre,), radius=radius, pen=pen, attributes=attributes, groups=tuple(self._groups))
        )

    def arch(self, start: Point, end: Point, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember a half circle."""
        self._keep(Record("arch", (start, end), pen=pen, attributes=attributes, groups=tuple(self._groups)))

    def shape(self, points: Sequence[Point], attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember a filled polygon."""
        self._keep(Record("shape", tuple(points), attributes=attributes, groups=tuple(self._groups)))

    def text(self, text: Text, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Remember words."""
        self._keep(Record("text", text=text, attributes=attributes, groups=tuple(self._groups)))

    def drawn(self, verb: str) -> Iterator[Record]:
        """Yield what was drawn by one verb (``begin`` gives the groups)."""
        return (record for record in self.records if record.verb == verb)

    def bounds(self) -> Box | None:
        """Return the box around everything drawn."""
        return box_around(box for record in self.records if (box := record.bounds()) is not None)

    def replay(self, surface: Surface) -> None:
        """Draw everything again on another surface."""
        replay_records(self.records, surface)

    def _keep(self, record: Record) -> None:
        self.records.append(record)


def replay_records(records: Iterable[Record], surface: Surface) -> None:
    """Draw what was remembered on another surface."""
    for record in records:
        _replay_one(record, surface)


def _box_of_arch(start: Point, end: Point) -> Box | None:
    """Return the box of the half circle to the left of the way, y being down."""
    top = Point((start.x + end.x + end.y - start.y) // 2, (start.y + end.y - end.x + start.x) // 2)
    return box_of_points((start, end, top))


def _replay_one(record: Record, surface: Surface) -> None:
    if record.verb == "begin":
        surface.begin(record.attributes, record.title)
    elif record.verb == "end":
        surface.end()
    elif record.verb == "line" and record.pen is not None:
        surface.line(record.points, record.pen, record.attributes)
    elif record.verb == "rect" and record.box is not None and record.pen is not None:
        surface.rect(record.box, record.pen, record.attributes)
    elif record.verb == "circle":
        surface.circle(record.points[0], record.radius, record.pen, record.attributes)
    elif record.verb == "arch" and record.pen is not None:
        surface.arch(record.points[0], record.points[1], record.pen, record.attributes)
    elif record.verb == "shape":
        surface.shape(record.points, record.attributes)
    elif record.text is not None:
        surface.text(record.text, record.attributes)
