"""One wire of two layouts: a line that stays, one that is new, one that came off, or an end that was moved."""

from __future__ import annotations

from collections.abc import Mapping

from app.drawing.comparing.marks import BEFORE_PORT, BEFORE_RING, NEW, NEW_NOT_IN_USE, WAS, put_arrow, put_cross
from app.drawing.comparing.together import Line
from app.drawing.connection.draw_conductor import arrow_on, attributes_of, draw_end, visible_pieces
from app.drawing.connection.landings import OUTWARD, EndName, Landing
from app.drawing.connection.live import pen_of
from app.drawing.connection.plan import Plan
from app.drawing.surface.geometry import GRID, Point
from app.drawing.surface.verbs import THIN, Pen, Surface, Text


def draw_line(
    surface: Surface,
    key: str,
    line: Line,
    plan: Plan,
    labels: Mapping[EndName, Text],
    moved: tuple[int, ...],
    title: str,
) -> None:
    """Draw a line with its marks, ends and labels; ``moved`` are the numbers of its ends that were moved."""
    change = {"data-change": f"{line.fate}{', as it was' if line.was else ''}"} if line.fate is not None else {}
    surface.begin({**attributes_of(key, plan, None), **change}, title)
    pieces = visible_pieces(key, plan)
    for piece in pieces:
        surface.line(piece, _pen(key, line, plan), {"class": "wire"})
    if plan.courses[key].broken:
        for piece in (pieces[0], pieces[1][::-1]):
            surface.line(arrow_on(piece), THIN, {"class": "goes-on"})
    for end in landed_anew(line, moved):
        landing = plan.landings.get(EndName(key, end))
        if landing is not None:
            if line.fate == "moved":
                surface.line(lane_of(landing), NEW, {"class": "moved"})
            put_arrow(surface, landing, _before(EndName(key, end), line, plan))
    for end in (0, 1) if line.was else ():
        landing = plan.landings.get(EndName(key, end))
        if landing is not None:
            put_cross(surface, landing, _before(EndName(key, end), line, plan))
    for end in (0, 1):
        _end(surface, EndName(key, end), line, plan, labels)
    surface.end()


def landed_anew(line: Line, moved: tuple[int, ...]) -> tuple[int, ...]:
    """Return the ends that are landed where they were not."""
    if line.was:
        return ()
    return (0, 1) if line.fate == "new" else moved if line.fate == "moved" else ()


def lane_of(landing: Landing) -> tuple[Point, Point]:
    """Return the piece of a landing that no other conductor on the same screw shares."""
    out, port = OUTWARD[landing.side], landing.port
    long = landing.length() - GRID
    return Point(port.x - long * out.x, port.y - long * out.y), port


def _before(end: EndName, line: Line, plan: Plan) -> int:
    """Return how far before the port of an end its mark stands: a ring or a question mark may be there."""
    other = EndName(end.conductor, 1 - end.number)
    return BEFORE_RING if other in plan.loose and line.end is None else BEFORE_PORT


def _pen(key: str, line: Line, plan: Plan) -> Pen:
    if line.was:
        return WAS
    conductor = plan.layout.conductors[key]
    if line.fate == "new":
        return NEW if len(conductor.landed()) == 2 else NEW_NOT_IN_USE
    return pen_of(conductor, None)


def _end(surface: Surface, end: EndName, line: Line, plan: Plan, labels: Mapping[EndName, Text]) -> None:
    if line.end is None or end in plan.landings:
        draw_end(surface, end, plan, labels)
        return
    # What an old screw held is not loose: it is elsewhere, and no ring is drawn.
    beyond = plan.loose[end].beyond
    if beyond is not None:
        surface.text(beyond, {"class": "words"})
