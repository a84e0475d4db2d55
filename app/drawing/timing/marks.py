"""The marks of a timing chart, for its legend, and how the smaller of them are drawn wherever they stand."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.frame.legend import SAMPLE, Mark
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import HEAVY, MARK, SMALL, THIN, Pen, Surface, Text
from app.drawing.timing.level import Level
from app.drawing.timing.on_row import delays_of
from app.drawing.timing.plan import Plan

UNKNOWN_PEN = Pen(1.25, "5 4")
GRID_PEN = Pen(0.75, "1 5")
HALF = 13
"""From the middle of a row up to where it is on, and down to where it is off."""
SMALL_HALF = 5
"""The same in the legend."""
CIRCLE = 10
CIRCLE_AWAY = 13
"""From an edge to the middle of its circle."""
HEAD_LONG, HEAD_HALF = 7, 3
HATCH = 7
DOUBLE = 2
"""Half of what lies between the two lines of a stretch that is drawn wider than it lasts."""
BASELINE = 4
"""From the middle of small words down to their baseline."""


def draw_head(surface: Surface, tip: Point, toward: int) -> None:
    """Draw an arrowhead that points to the right (``toward`` is 1) or to the left (-1)."""
    back = tip.x - toward * HEAD_LONG
    surface.shape((tip, Point(back, tip.y - HEAD_HALF), Point(back, tip.y + HEAD_HALF)))


def draw_level(surface: Surface, left: Point, right: int, level: Level, *, clear: int = 0, half: int = HALF) -> None:
    """Draw a piece of a row from a point on its middle to an x.

    ``clear`` is the room before that x which belongs to links; ``half`` is how far from the middle on and off are.
    """
    if right <= left.x:
        return
    above, below = left.y - half, left.y + half
    if level in ("on", "off", "value"):
        y, pen = (above, HEAVY) if level == "on" else (below, THIN)
        surface.line((Point(left.x, y), Point(right, y)), pen)
        return
    pen = UNKNOWN_PEN if level == "unknown" else THIN
    surface.line((Point(left.x, above), Point(right, above)), pen)
    surface.line((Point(left.x, below), Point(right, below)), pen)
    if level == "chatters":
        # Beside the circle there is no hatching, so that its number can be read, nor where arrows end.
        for x in range(left.x + CIRCLE_AWAY + CIRCLE + HATCH, right - clear, HATCH):
            surface.line((Point(x, above), Point(x, below)), THIN)


def draw_axis_piece(surface: Surface, left: Point, right: int, manner: str) -> None:
    """Draw a stretch of the axis: one line to scale, two where it is wider, a break where it is cut."""
    if manner == "wider":
        for y in (left.y - DOUBLE, left.y + DOUBLE):
            surface.line((Point(left.x, y), Point(right, y)), THIN)
    elif manner == "cut":
        middle = (left.x + right) // 2
        surface.line((left, Point(middle - 4, left.y)), MARK)
        surface.line((Point(middle + 4, left.y), Point(right, left.y)), MARK)
        for x in (middle - 4, middle + 4):
            surface.line((Point(x - 3, left.y + 6), Point(x + 3, left.y - 6)), THIN)
    else:
        surface.line((left, Point(right, left.y)), HEAVY if manner == "no-time" else MARK)


def draw_delay(surface: Surface, left: Point, right: int, gap: tuple[int, int]) -> None:
    """Draw the line of a timer from a point to an x, with a gap for its words."""
    if gap[0] > left.x:
        surface.line((left, Point(gap[0], left.y)), THIN)
    if gap[1] < right:
        surface.line((Point(gap[1], left.y), Point(right, left.y)), THIN)
    surface.line((Point(left.x, left.y - 4), Point(left.x, left.y + 4)), THIN)
    draw_head(surface, Point(right, left.y), 1)


def draw_number(surface: Surface, centre: Point, number: int) -> None:
    """Draw the circle of an edge with its number."""
    words = str(number)
    surface.circle(centre, CIRCLE, THIN)
    surface.text(Text(Point(centre.x, centre.y + BASELINE), words, SMALL, width_of(words, SMALL), "middle"))


def marks_on(plan: Plan) -> tuple[Mark, ...]:
    """Return the marks that stand on a chart, in the order of the legend."""
    names = set(_names(plan))
    return tuple(mark for mark in MARKS if mark.name in names)


def _names(plan: Plan) -> Iterator[str]:
    for row in plan.chart.rows:
        yield row.start
        for edge in row.edges:
            yield edge.level
            yield "edge"
            if edge.by is not None:
                yield "moves"
    for band in plan.bands:
        yield from (stretch.manner for stretch in band.onward if stretch is not None)
        yield from ("delay" for row in plan.chart.rows for _ in delays_of(row, band))
    if plan.chart.repeats_from_ms is not None:
        yield "repeats"


def _level(level: Level) -> Mark:
    meaning = {
        "on": "on, pulled in or closed",
        "off": "off, released or open",
        "unknown": "not known whether on or off",
        "chatters": "pulls in and lets go without end",
        "value": "a value, written above",
    }[level]

    def draw(surface: Surface, at: Point) -> None:
        if level in ("unknown", "chatters"):
            draw_level(surface, at, at.x + SAMPLE, level, half=SMALL_HALF)
        else:
            surface.line((at, Point(at.x + SAMPLE, at.y)), HEAVY if level == "on" else THIN)

    return Mark(level, meaning, draw)


def _edge(surface: Surface, at: Point) -> None:
    surface.circle(Point(at.x + SAMPLE // 2, at.y), 8, THIN)
    surface.text(Text(Point(at.x + SAMPLE // 2, at.y + BASELINE), "7", SMALL, width_of("7", SMALL), "middle"))


def _moves(surface: Surface, at: Point) -> None:
    surface.line((Point(at.x + 12, at.y + 6), Point(at.x + 4, at.y + 6), Point(at.x + 4, at.y - 2)), THIN)
    surface.line((Point(at.x + 4, at.y - 2), Point(at.x + SAMPLE - HEAD_LONG, at.y - 2)), THIN)
    draw_head(surface, Point(at.x + SAMPLE, at.y - 2), 1)


def _delay(surface: Surface, at: Point) -> None:
    draw_delay(surface, at, at.x + SAMPLE, (at.x + SAMPLE // 2, at.x + SAMPLE // 2))


def _repeats(surface: Surface, at: Point) -> None:
    draw_bracket(surface, at, at.x + SAMPLE)


def draw_bracket(surface: Surface, left: Point, right: int) -> None:
    """Draw a bracket below the axis from a point to an x."""
    up = left.y - 5
    surface.line((Point(left.x, up), left, Point(right, left.y), Point(right, up)), THIN)


def _axis(manner: str, meaning: str) -> Mark:
    def draw(surface: Surface, at: Point) -> None:
        draw_axis_piece(surface, at, at.x + SAMPLE, manner)
        for x in (at.x, at.x + SAMPLE) if manner == "no-time" else ():
            surface.line((Point(x, at.y - 4), Point(x, at.y + 4)), MARK)

    return Mark(manner, meaning, draw)


EVENT = Mark("edge", "an event, by its number in the table", _edge)
MARKS = (
    _level("on"),
    _level("off"),
    _level("value"),
    _level("unknown"),
    _level("chatters"),
    EVENT,
    Mark("moves", "moves that at the same instant", _moves),
    Mark("delay", "a timer runs", _delay),
    _axis("to-scale", "time to scale"),
    _axis("wider", "time drawn wider than it lasts"),
    _axis("cut", "time cut short"),
    _axis("no-time", "one instant, step by step; no time passes"),
    Mark("repeats", "comes back without end", _repeats),
)
"""Every mark, in the order in which a legend lists them."""
