"""What the tests see of a drawn ladder: lines, symbols and words, and where they break a hard rule.

Nothing here asks where the plan meant to put something: all is read from what was drawn. A breach is said in words.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.catalogue.catalogue import Catalogue
from app.circuit.operating_point import OperatingPoint
from app.drawing.ladder.diagram import ladder_drawing
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.text_width import box_of_text
from app.drawing.symbols.symbol import HALF, LONG
from app.job.model import Layout
from tests.drawing.seen import inked


@dataclass(frozen=True)
class Line:
    """A straight line of the circuit, with the nearest of the groups in which it lies that says what it is."""

    a: Point
    b: Point
    record: Record

    @property
    def level(self) -> bool:
        return self.a.y == self.b.y

    @property
    def box(self) -> Box:
        return Box(min(self.a.x, self.b.x), min(self.a.y, self.b.y), abs(self.a.x - self.b.x), abs(self.a.y - self.b.y))

    def meets_inside(self, point: Point) -> bool:
        """Return whether a point lies on the line, but not at its ends."""
        box = self.box
        on = box.x <= point.x <= box.right and box.y <= point.y <= box.bottom
        return on and point not in (self.a, self.b)


class SeenLadder:
    """A ladder diagram on a recorder."""

    def __init__(self, layout: Layout, catalogue: Catalogue, point: OperatingPoint | None = None) -> None:
        self.drawing = ladder_drawing(layout, catalogue, point)
        self.recorder = Recorder()
        self.drawing.put(self.recorder)
        self.lines = list(self._lines())
        self.rows: dict[int, list[Line]] = defaultdict(list)
        self.columns: dict[int, list[Line]] = defaultdict(list)
        for line in self.lines:
            (self.rows[line.a.y] if line.level else self.columns[line.a.x]).append(line)
        self.texts = [record for record in self.recorder.drawn("text") if record.text is not None]
        self.dots = [r.points[0] for r in self.recorder.drawn("circle") if r.pen is None and not _in_symbol(r)]
        self.rings = [(r.points[0], r.radius) for r in self.recorder.drawn("circle") if r.pen and not _in_symbol(r)]
        self.symbols = list(self._symbols())

    def _lines(self) -> Iterator[Line]:
        for record in self.recorder.drawn("line"):
            if record.attributes.get("class") == "wire":
                for a, b in pairwise(record.points):
                    yield Line(a, b, record)

    def cutting(self, box: Box) -> Iterator[Line]:
        """Yield the lines with a point inside a box, its edge not counted."""
        for y in range(box.y + 1, box.bottom):
            yield from (s for s in self.rows.get(y, ()) if s.box.x < box.right and box.x < s.box.right)
        for x in range(box.x + 1, box.right):
            yield from (s for s in self.columns.get(x, ()) if s.box.y < box.bottom and box.y < s.box.bottom)

    def named(self) -> Iterator[tuple[Point, str]]:
        """Yield each ring, dot and head of a place with the name of that place."""
        for record in self.recorder.records:
            if record.verb in ("circle", "line"):
                name = record.within("data-terminal") or record.within("data-point")
                if name is not None:
                    yield record.points[1 if record.verb == "line" else 0], name

    def _symbols(self) -> Iterator[tuple[str, str, Box]]:
        """Yield for each symbol the element, the name of the symbol and its box, from its left lead."""
        for at, record in enumerate(self.recorder.records):
            if record.verb == "begin" and "data-symbol" in record.attributes:
                lead = self.recorder.records[at + 1].points[0]
                element, behind = record.within("data-element"), record.within("data-behind")
                assert element is not None
                element = element if behind is None else f"{element}:{behind}"
                yield element, record.attributes["data-symbol"], Box(lead.x, lead.y - HALF, LONG, 2 * HALF)


def _in_symbol(record: Record) -> bool:
    return record.within("data-symbol") is not None


def slanted(seen: SeenLadder) -> list[str]:
    """Return the lines that are neither level nor upright."""
    return [f"{line.a} {line.b}" for line in seen.lines if line.a.x != line.b.x and line.a.y != line.b.y]


def lying_on_each_other(seen: SeenLadder) -> list[str]:
    """Return pairs of lines that share more than a point."""
    found = []
    for track in (*seen.rows.values(), *seen.columns.values()):
        spans = sorted((min(line.a, line.b), max(line.a, line.b)) for line in track)
        found += [f"{one} and {other}" for one, other in pairwise(spans) if other[0] < one[1]]
    return found


def touching(seen: SeenLadder) -> list[str]:
    """Return where a line ends on another one without a dot that says that they are joined."""
    ends = {end for line in seen.lines for end in (line.a, line.b)} - set(seen.dots)
    near = ((end, line) for end in ends for line in (*seen.rows.get(end.y, ()), *seen.columns.get(end.x, ())))
    return [f"{end} on {line.a} {line.b}" for end, line in near if line.meets_inside(end)]


def joints_without_dot(seen: SeenLadder) -> list[str]:
    """Return where three lines or more end in one point without a dot or a screw that says that they are joined."""
    ends = Counter(end for line in seen.lines for end in (line.a, line.b))
    return [f"{count} lines at {end}" for end, count in ends.items() if count > 2 and end not in seen.dots]


def dots_on_crossings(seen: SeenLadder) -> list[str]:
    """Return the dots at which no line ends: two lines that only cross must not look joined."""
    ends = {end for line in seen.lines for end in (line.a, line.b)}
    leads = {Point(box.x, box.y + HALF) for _, _, box in seen.symbols}
    leads |= {Point(box.right, box.y + HALF) for _, _, box in seen.symbols}
    return [f"{dot}" for dot in seen.dots if dot not in ends | leads]


def through_symbols(seen: SeenLadder) -> list[str]:
    """Return the lines that run through a symbol."""
    return [f"{line.a} {line.b} through {e}" for e, _, box in seen.symbols for line in seen.cutting(box)]


def through_words(seen: SeenLadder) -> list[str]:
    """Return the lines that run through words."""
    return [
        f"{line.a} {line.b} through {record.text.words!r}"
        for record in seen.texts
        if record.text is not None
        for line in seen.cutting(inked(record.text))
    ]


def through_rings(seen: SeenLadder) -> list[str]:
    """Return the lines that run through a screw that they do not end on."""
    boxes = [Box(at.x - radius, at.y - radius, 2 * radius, 2 * radius) for at, radius in seen.rings]
    return [f"{line.a} {line.b} through {box}" for box in boxes for line in seen.cutting(box)]


def overlapping_words(seen: SeenLadder) -> list[str]:
    """Return pairs of words that lie on each other, by the whole boxes of their fonts; words in symbols not counted."""
    return _overlaps(
        [(box_of_text(r.text), r.text.words) for r in seen.texts if r.text is not None and not _in_symbol(r)]
    )


def words_on_symbols(seen: SeenLadder) -> list[str]:
    """Return words that lie on a symbol or on a screw."""
    boxes = [box for _, _, box in seen.symbols]
    boxes += [Box(at.x - radius, at.y - radius, 2 * radius, 2 * radius) for at, radius in seen.rings]
    words = [inked(record.text) for record in seen.texts if record.text is not None and not _in_symbol(record)]
    return _overlaps([*((box, "symbol") for box in boxes), *((box, "words") for box in words)])


def overlapping_symbols(seen: SeenLadder) -> list[str]:
    """Return pairs of symbols that lie on each other."""
    return _overlaps([(box, element) for element, _, box in seen.symbols])


def _overlaps(boxes: Sequence[tuple[Box, str]]) -> list[str]:
    """Return the pairs of boxes that lie on each other."""
    found = []
    ordered = sorted(boxes, key=lambda each: (each[0].y, each))
    for number, (box, what) in enumerate(ordered):
        for other, other_what in ordered[number + 1 :]:
            if other.y >= box.bottom:
                break
            if box.overlaps(other):
                found.append(f"{what!r} on {other_what!r} at {box} {other}")
    return found


def outside(seen: SeenLadder) -> list[str]:
    """Return what is not wholly within the content of the drawing."""
    room = seen.drawing.content
    found = []
    for record in seen.recorder.records:
        box = record.bounds()
        if box is not None and not (
            room.x <= box.x and room.y <= box.y and box.right <= room.right and box.bottom <= room.bottom
        ):
            found.append(f"{record.verb} {box}")
    return found


def cut_apart(seen: SeenLadder) -> list[str]:
    """Return words that do not lie wholly in one rung or between rungs: a sheet that ends there would cut them."""
    edges = {edge for box in seen.drawing.whole for edge in (box.y, box.bottom)}
    boxes = [(inked(record.text), record.text.words) for record in seen.texts if record.text is not None]
    return [f"{words!r}" for box, words in boxes for y in range(box.y + 1, box.bottom) if y in edges]


RULES = (
    slanted,
    lying_on_each_other,
    touching,
    joints_without_dot,
    dots_on_crossings,
    through_symbols,
    through_words,
    through_rings,
    overlapping_words,
    words_on_symbols,
    overlapping_symbols,
    outside,
    cut_apart,
)


def broken_rules(seen: SeenLadder) -> dict[str, list[str]]:
    """Return what breaks a hard rule, by rule."""
    return {rule.__name__: found for rule in RULES if (found := rule(seen))}
