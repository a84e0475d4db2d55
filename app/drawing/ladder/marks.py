"""The marks of a ladder, for the legend of its sheet."""

from __future__ import annotations

from app.drawing.frame.legend import SAMPLE, Mark, marks_named
from app.drawing.surface.geometry import Point
from app.drawing.surface.verbs import MARK, THIN, Surface

RING = 4
"""The radius of a screw in u."""
DOT = 3
"""The radius of a joint."""
CHEVRON = 6


def chevron(surface: Surface, at: Point, toward: int) -> None:
    """Draw the head of a line that goes on elsewhere; ``toward`` is 1 to the right, -1 to the left."""
    back = at.x - toward * CHEVRON
    surface.line((Point(back, at.y - 5), at, Point(back, at.y + 5)), THIN)


def _rail(surface: Surface, at: Point) -> None:
    middle = at.x + SAMPLE // 2
    surface.line((Point(middle, at.y - 7), Point(middle, at.y + 7)), MARK)
    surface.line((Point(middle, at.y), Point(at.x + SAMPLE, at.y)), THIN)
    surface.circle(Point(middle, at.y), DOT, None)


def _screw(surface: Surface, at: Point) -> None:
    middle = at.x + SAMPLE // 2
    surface.line((at, Point(middle - RING, at.y)), THIN)
    surface.circle(Point(middle, at.y), RING, THIN)
    surface.line((Point(middle + RING, at.y), Point(at.x + SAMPLE, at.y)), THIN)


def _tie(surface: Surface, at: Point) -> None:
    middle = at.x + SAMPLE // 2
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)
    surface.line((Point(middle, at.y), Point(middle, at.y + 7)), THIN)
    surface.circle(Point(middle, at.y), DOT, None)


MARKS = (
    Mark("rail", "rail, hot at the left, common at the right", _rail),
    Mark("screw", "screw, with the part and the letter", _screw),
    Mark("tie", "joined: rungs that are tied together", _tie),
)
"""The marks that only a ladder has."""


def marks_of(names: set[str]) -> tuple[Mark, ...]:
    """Return the marks of these names: those of a ladder first, then those that it shares with other drawings."""
    return (*(mark for mark in MARKS if mark.name in names), *marks_named(names))
