"""The marks of insides, for the legend of a sheet: how to read any symbol, not every symbol there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.drawing.connection.inside.laying import LaidInside
from app.drawing.frame.legend import SAMPLE, Mark
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import HEAVY, LETTER, MARK, THIN, Surface, Text

BARS = ("contact-open", "contact-closed")


def inside_marks(insides: Sequence[LaidInside], live: bool) -> Iterator[Mark]:
    """Yield the marks that explain what is drawn inside the parts of a sheet."""
    names = {cell.symbol.name for inside in insides for cell in inside.cells}
    if names:
        yield Mark("inside-node", "inside a part: goes on at the terminal that is named", _node)
    if names & set(BARS):
        yield Mark("inside-contact", "contact; a stroke across: closed at rest", _contact)
    if any(name.endswith(("-open", "-closed")) for name in names - set(BARS)):
        yield Mark("inside-switch", "switch as it stands, with what moves it under its blade", _switch)
    if names and live:
        yield Mark("inside-acting", "filled or heavy: closed, pulled in, or on", _acting)


def _node(surface: Surface, at: Point) -> None:
    surface.text(Text(Point(at.x + 12, at.y + 5), "R", LETTER, width_of("R", LETTER)))
    surface.line((Point(at.x + 25, at.y), Point(at.x + SAMPLE, at.y)), THIN)


def _contact(surface: Surface, at: Point) -> None:
    middle = at.x + SAMPLE // 2
    for begin, end in ((at.x, middle - 5), (middle + 5, at.x + SAMPLE)):
        surface.line((Point(begin, at.y), Point(end, at.y)), THIN)
    for bar in (middle - 5, middle + 5):
        surface.line((Point(bar, at.y - 6), Point(bar, at.y + 6)), THIN)
    surface.line((Point(middle - 10, at.y + 7), Point(middle + 10, at.y - 7)), THIN)


def _switch(surface: Surface, at: Point) -> None:
    left, right = at.x + 16, at.x + SAMPLE - 16
    surface.line((at, Point(left - 3, at.y)), THIN)
    surface.line((Point(right + 3, at.y), Point(at.x + SAMPLE, at.y)), THIN)
    for post in (left, right):
        surface.circle(Point(post, at.y), 3, THIN)
    surface.line((Point(left + 2, at.y - 2), Point(right - 2, at.y - 7)), MARK)
    surface.line((Point(at.x + SAMPLE // 2, at.y - 4), Point(at.x + SAMPLE // 2, at.y + 7)), THIN)


def _acting(surface: Surface, at: Point) -> None:
    middle = Point(at.x + SAMPLE // 2, at.y)
    surface.line((at, Point(middle.x - 7, at.y)), THIN)
    surface.line((Point(middle.x + 7, at.y), Point(at.x + SAMPLE, at.y)), THIN)
    surface.circle(middle, 6, HEAVY)
    surface.circle(middle, 2, None)
