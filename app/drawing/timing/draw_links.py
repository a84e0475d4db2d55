"""The links of a chart on a surface: from each edge to what it moves."""

from __future__ import annotations

from app.drawing.surface.geometry import Point
from app.drawing.surface.verbs import THIN, Surface
from app.drawing.timing.axis import HOOK_ROOM, LANE
from app.drawing.timing.links import Trunk
from app.drawing.timing.marks import CIRCLE, CIRCLE_AWAY, HEAD_LONG, draw_head
from app.drawing.timing.plan import AXIS_ABOVE, Band, Column, Plan

BESIDE_MIDDLE = 4
"""From the middle of a row down to where a trunk leaves it, and up to where an arrow enters it."""


def draw_links(surface: Surface, plan: Plan, band: Band) -> None:
    """Draw the links of a band."""
    surface.begin({"class": "links"})
    for column in band.columns:
        for trunk in plan.trunks.get(column.when, ()):
            surface.begin({"data-cause": str(trunk.cause), "class": "link"})
            _trunk(surface, band, column, trunk)
            surface.end()
    surface.end()


def _trunk(surface: Surface, band: Band, column: Column, trunk: Trunk) -> None:
    lane = column.x - HOOK_ROOM + 2 - trunk.lane * LANE
    ends = [band.middles[row] - BESIDE_MIDDLE for row in trunk.to_rows if row in band.middles]
    # Where a band goes on below, what is there is reached at the end of the rows that stand here.
    beyond = {_end_of_rows(band, row) for row in trunk.to_rows if row not in band.middles}
    if trunk.from_row in band.middles:
        start = _start(band, column, trunk)
        beginning: tuple[Point, ...] = (start, Point(lane, start.y))
    else:
        beginning = (Point(lane, _end_of_rows(band, trunk.from_row)),)
    along = beginning[-1]
    # The upright line is drawn with the ends furthest up and down; those between only branch off from it.
    up = min((y for y in (*ends, *beyond) if y < along.y), default=None)
    down = max((y for y in (*ends, *beyond) if y > along.y), default=None)
    for y in (*ends, *(beyond - {along.y})):
        corner = beginning if y == up or (y == down and up is None) else (along,) if y == down else ()
        arrow = (Point(column.x - HEAD_LONG, y),) if y not in beyond else ()
        surface.line((*corner, Point(lane, y), *arrow), THIN)
        if arrow:
            draw_head(surface, Point(column.x, y), 1)


def _end_of_rows(band: Band, row: int) -> int:
    """Return the upper or lower end of the rows of a band, beyond which a row lies that does not stand there."""
    return band.box.y + AXIS_ABOVE if row < min(band.middles) else band.foot


def _start(band: Band, column: Column, trunk: Trunk) -> Point:
    middle = band.middles[trunk.from_row]
    if trunk.from_when == column.when:
        return Point(column.x, middle + BESIDE_MIDDLE)
    earlier = band.column(trunk.from_when)
    return Point((earlier or column).x + CIRCLE_AWAY + CIRCLE, middle)
