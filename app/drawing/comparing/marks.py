"""The marks of a drawing of two layouts: by weight, dash and shape, each with its word beside it on the drawing."""

from __future__ import annotations

from app.drawing.connection.draw_part import LETTER_START, SCREW
from app.drawing.connection.landings import OUTWARD, Landing
from app.drawing.connection.loose_ends import RING
from app.drawing.connection.part_box import LETTER_COLUMN, Screw
from app.drawing.frame.legend import SAMPLE, Mark
from app.drawing.surface.geometry import GRID, Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import HEAVY, LETTER, MARK, SMALL, THIN, Pen, Surface, Text

WAS = Pen(1.25, "3 4")
"""What was there before and is no longer."""
NEW = Pen(2.75)
NEW_NOT_IN_USE = Pen(2.75, "12 6")
LENGTH, HALF = 8, 4
HEAD_HALF = 5
"""Of a mark at a landing."""
BEFORE_PORT, BEFORE_RING = 2, RING
"""How far it stays from the port, where a foreign wire may cross, and from the middle of a ring that stands there."""
CLEAR = BEFORE_RING + LENGTH
"""What labels leave free for it."""
GONE_HALF = 8
"""Half the size of the cross through a screw."""
GONE = "gone"


def put_arrow(surface: Surface, landing: Landing, before: int = BEFORE_PORT) -> None:
    """Draw the mark of an end that was landed: a head that points to its screw, so far ``before`` the port."""
    surface.shape(_head(_before_port(landing, before), OUTWARD[landing.side]), {"class": "landed-here"})


def put_cross(surface: Surface, landing: Landing, before: int = BEFORE_PORT) -> None:
    """Draw the mark of an end that came off, so far ``before`` the port."""
    at, out = _before_port(landing, before), OUTWARD[landing.side]
    _cross(surface, Point(at.x - HALF * out.x, at.y - HALF * out.y), HALF, "came-off")


def put_gone(surface: Surface, screw: Screw) -> None:
    """Draw the mark of a screw that went with its part; beside it the word where there is room."""
    _cross(surface, screw.at, GONE_HALF, "screw-gone", THIN)
    out, width = OUTWARD[screw.side], width_of(GONE, SMALL)
    if out.y == 0 and LETTER_START + width_of(screw.letter, LETTER) + width + HALF <= LETTER_COLUMN:
        at = Point(screw.at.x - LETTER_COLUMN * out.x, screw.at.y + HALF)
        surface.text(Text(at, GONE, SMALL, width, "start" if out.x > 0 else "end"), {"class": "words"})


def _before_port(landing: Landing, before: int) -> Point:
    out = OUTWARD[landing.side]
    return Point(landing.port.x - before * out.x, landing.port.y - before * out.y)


def _head(base: Point, out: Point) -> tuple[Point, Point, Point]:
    tip = Point(base.x - LENGTH * out.x, base.y - LENGTH * out.y)
    side = Point(HEAD_HALF * out.y, HEAD_HALF * out.x)
    return tip, Point(base.x + side.x, base.y + side.y), Point(base.x - side.x, base.y - side.y)


def _cross(surface: Surface, at: Point, half: int, name: str, pen: Pen = MARK) -> None:
    for up in (half, -half):
        surface.line((Point(at.x - half, at.y - up), Point(at.x + half, at.y + up)), pen, {"class": name})


def _stays(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)


def _new(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), NEW)
    surface.shape(_head(Point(at.x + LENGTH, at.y), Point(1, 0)))


def _moved(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), THIN)
    surface.line((at, Point(at.x + 2 * GRID, at.y)), NEW)
    surface.shape(_head(Point(at.x + LENGTH, at.y), Point(1, 0)))


def _came_off(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), WAS)
    _cross(surface, Point(at.x + GRID, at.y), HALF, "came-off")


def _box(surface: Surface, at: Point, pen: Pen) -> None:
    surface.rect(Box(at.x + GRID, at.y - 6, SAMPLE - 2 * GRID, 12), pen)


def _screw_gone(surface: Surface, at: Point) -> None:
    centre = Point(at.x + SAMPLE // 2, at.y)
    surface.circle(centre, SCREW, THIN)
    _cross(surface, centre, GONE_HALF, "screw-gone", THIN)


MARKS = (
    Mark("stays", "wire as it was, with its name and insulation code", _stays),
    Mark("wire-new", "new wire, landed at the arrowheads", _new),
    Mark("end-moved", "end that was moved to this screw", _moved),
    Mark("came-off", "as it was: came off this screw, and where it is now", _came_off),
    Mark("part-new", "new part, or one that was replaced", lambda surface, at: _box(surface, at, HEAVY)),
    Mark("part-gone", "part that was taken out", lambda surface, at: _box(surface, at, WAS)),
    Mark("screw-gone", "screw that went with the replaced part", _screw_gone),
)
"""In the order of the legend; those of a connection diagram follow."""
