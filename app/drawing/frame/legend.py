"""The marks that a drawing may use, each drawn small with its meaning; a sheet lists those that stand on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import HEAVY, MARK, NAME, NOT_IN_USE, SMALL, THIN, UNKNOWN, Pen, Surface, Text

LEGEND_LINE = 18
LEGEND_WIDTH = 324
SAMPLE = 60
MATCH_LINE = Pen(1.25, "2 4")
"""Along which sheets part."""


class Mark(NamedTuple):
    """A mark: its sample, drawn from a point on its left end, and its meaning."""

    name: str
    meaning: str
    draw: Callable[[Surface, Point], None]


def draw_legend(surface: Surface, at: Point, marks: Sequence[Mark]) -> None:
    """Draw the legend with its upper left corner at ``at``."""
    surface.begin({"class": "legend"})
    surface.text(Text(Point(at.x, at.y + 12), "Marks on this sheet", NAME, width_of("Marks on this sheet", NAME)))
    for number, mark in enumerate(marks, start=1):
        y = at.y + 12 + number * LEGEND_LINE
        surface.begin({"data-mark": mark.name})
        mark.draw(surface, Point(at.x, y - 4))
        surface.text(Text(Point(at.x + SAMPLE + 16, y), mark.meaning, SMALL, width_of(mark.meaning, SMALL)))
        surface.end()
    surface.end()


def _wire(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)


def _hot(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), HEAVY)


def _carrying(surface: Surface, at: Point) -> None:
    _hot(surface, at)
    x = at.x + SAMPLE // 2 + 6
    surface.shape((Point(x, at.y), Point(x - 12, at.y - 5), Point(x - 12, at.y + 5)))


def _not_in_use(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), NOT_IN_USE)


def _not_landed(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE - 12, at.y)), NOT_IN_USE)
    surface.circle(Point(at.x + SAMPLE - 6, at.y), 6, THIN)


def _not_seen(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE - 12, at.y)), NOT_IN_USE)
    surface.text(Text(Point(at.x + SAMPLE - 6, at.y + 4), "?", UNKNOWN, width_of("?", UNKNOWN), "middle"))


def _joint(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)
    surface.line((Point(at.x + SAMPLE // 2, at.y), Point(at.x + SAMPLE // 2, at.y + 7)), THIN)
    surface.circle(Point(at.x + SAMPLE // 2, at.y), 3, None)


def _crossing(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)
    surface.line((Point(at.x + SAMPLE // 2, at.y - 7), Point(at.x + SAMPLE // 2, at.y + 7)), THIN)


def _fitted(surface: Surface, at: Point) -> None:
    left, right = Point(at.x + 5, at.y), Point(at.x + SAMPLE - 5, at.y)
    surface.line((Point(left.x + 5, at.y), Point(right.x - 5, at.y)), MARK)
    surface.circle(left, 5, THIN)
    surface.circle(right, 5, THIN)


def _removed(surface: Surface, at: Point) -> None:
    middle = at.x + SAMPLE // 2
    for screw, inward in ((Point(at.x + 5, at.y), 1), (Point(at.x + SAMPLE - 5, at.y), -1)):
        surface.circle(screw, 5, THIN)
        dot = Point(middle - 5 * inward, at.y)
        surface.line((Point(screw.x + 5 * inward, at.y), dot), NOT_IN_USE)
        surface.circle(dot, 2, None)


def _spare(surface: Surface, at: Point) -> None:
    surface.line((Point(at.x + 12, at.y), Point(at.x + SAMPLE - 12, at.y)), NOT_IN_USE)
    for x in (at.x + 6, at.x + SAMPLE - 6):
        surface.circle(Point(x, at.y), 6, THIN)


def _splice(surface: Surface, at: Point) -> None:
    middle = Point(at.x + SAMPLE // 2, at.y)
    surface.rect(Box(middle.x - 14, at.y - 7, 28, 14), MARK)
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)
    surface.circle(middle, 3, None)


def _part_unknown(surface: Surface, at: Point) -> None:
    surface.rect(Box(at.x, at.y - 7, SAMPLE, 14), NOT_IN_USE)


def _opaque(surface: Surface, at: Point) -> None:
    middle = Point(at.x + SAMPLE // 2, at.y)
    surface.circle(middle, 5, THIN)
    draw_not_24_v(surface, middle, Point(1, 0))


def _volts(surface: Surface, at: Point) -> None:
    width = width_of("24.0 V", SMALL)
    surface.text(Text(Point(at.x + SAMPLE // 2, at.y + 4), "24.0 V", SMALL, width, "middle"))


def draw_not_24_v(surface: Surface, screw: Point, inward: Point) -> None:
    """Draw the two strokes beside a screw behind which nothing is computed."""
    for far in (9, 14):
        x, y = screw.x + far * inward.x, screw.y + far * inward.y
        surface.line((Point(x - 2, y + 6), Point(x + 2, y - 6)), MARK)


def _continued(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE - 16, at.y)), THIN)
    surface.line(
        (Point(at.x + SAMPLE - 22, at.y - 5), Point(at.x + SAMPLE - 16, at.y), Point(at.x + SAMPLE - 22, at.y + 5)),
        THIN,
    )


def _match(surface: Surface, at: Point) -> None:
    cut = at.x + SAMPLE // 2
    surface.line((at, Point(cut, at.y)), THIN)
    surface.line((Point(cut, at.y - 7), Point(cut, at.y + 7)), MATCH_LINE)
    surface.text(Text(Point(cut + 4, at.y + 4), "w9", SMALL, width_of("w9", SMALL)))


MATCH = Mark("match", "goes on at the same name there", _match)
"""For a drawing that is cut into sheets."""

MARKS = (
    Mark("conductor", "conductor, with its name and insulation code", _wire),
    Mark("conductor-for", "conductor: its name, its insulation code, what it is for", _wire),
    Mark("not-in-use", "conductor not in use, or not sure", _not_in_use),
    Mark("spare", "spare: landed at neither end", _spare),
    Mark("not-landed", "end that is landed nowhere", _not_landed),
    Mark("not-seen", "end that could not be seen", _not_seen),
    Mark("joint", "conductors on one screw", _joint),
    Mark("splice", "splice: conductors joined, no screw", _splice),
    Mark("crossing", "conductors cross, not joined", _crossing),
    Mark("jumper-fitted", "jumper, fitted", _fitted),
    Mark("jumper-removed", "jumper, removed", _removed),
    Mark("continued", "goes on at the terminal that is named", _continued),
    Mark("opaque", "not 24 V: nothing is computed behind it", _opaque),
    Mark("part-unknown", "part of which the kind is not known", _part_unknown),
    Mark("hot", "hot", _hot),
    Mark("carrying", "carries, toward the load and back to common", _carrying),
    Mark("volts", "volts to the common of its source", _volts),
)
"""Every mark, in the order in which a legend lists them."""


def marks_named(names: set[str]) -> tuple[Mark, ...]:
    """Return the marks of these names, in the order of the legend."""
    return tuple(mark for mark in MARKS if mark.name in names)
