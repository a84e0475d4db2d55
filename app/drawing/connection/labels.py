"""What stands beside a conductor: its id and insulation code, above its lane in each landing.

Rules of the file: a label lies between two lanes and inside the landing, where no foreign conductor comes, so it can
collide with nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.connection.landings import LABEL_START, OUTWARD, EndName, Landing, label_words
from app.drawing.connection.plan import Plan
from app.drawing.routing.course import Course
from app.drawing.surface.geometry import GRID, Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import SMALL, Text

ABOVE_LINE = 3
BETWEEN_LINES = 2
"""Under another lane a label sits lower, so that it touches neither line when both are heavy."""


def end_labels(plan: Plan) -> Iterator[tuple[EndName, Text]]:
    """Yield the label of every landed end, and one for each conductor of the spare area at its end 0."""
    for name, course in plan.courses.items():
        conductor = plan.layout.conductors[name]
        if not conductor.landed():
            yield EndName(name, 0), _spare_label(_words(EndName(name, 0), plan, course), course.pieces[0])
            continue
        for index in (0, 1):
            end = EndName(name, index)
            if end in plan.landings:
                yield end, _landing_label(_words(end, plan, course), plan.landings[end], plan.said.clear)


def _words(end: EndName, plan: Plan, course: Course) -> tuple[str, str]:
    """Return the id of a conductor and what comes after it."""
    other = EndName(end.conductor, 1 - end.number)
    conductor = plan.layout.conductors[end.conductor]
    name, rest = label_words(end, plan.called[end.conductor], conductor, course.broken, plan.said)
    if other in plan.loose and plan.loose[other].beyond is None:
        return name, f"{rest} {plan.loose[other].words}".strip()
    return name, rest


def _landing_label(words: tuple[str, str], landing: Landing, clear: int) -> Text:
    out = OUTWARD[landing.side]
    above = ABOVE_LINE if landing.lane == 0 else BETWEEN_LINES
    shown = _shortened(*words, landing.length() - LABEL_START - clear)
    width = width_of(shown, SMALL)
    if out.y == 0:
        at = Point(landing.edge.x + LABEL_START * out.x, landing.port.y - above)
        return Text(at, shown, SMALL, width, "start" if out.x > 0 else "end")
    at = Point(landing.port.x - above, landing.edge.y + LABEL_START * out.y)
    return Text(at, shown, SMALL, width, "start" if out.y < 0 else "end", upright=False)


def _shortened(name: str, rest: str, most: int) -> str:
    """Return both words, the id shortened where they do not fit: a code says nothing when it is cut."""
    whole = f"{name} {rest}".strip()
    room = most - width_of(f" {rest}", SMALL)
    if not rest or room < 2 * GRID or width_of(whole, SMALL) <= most:
        return fitted(whole, SMALL, most)
    return f"{fitted(name, SMALL, room)} {rest}"


def _spare_label(said: tuple[str, str], line: tuple[Point, ...]) -> Text:
    words = fitted(" ".join(said).strip(), SMALL, line[1].x - line[0].x - 2 * GRID)
    return Text(Point(line[0].x + GRID, line[0].y - ABOVE_LINE), words, SMALL, width_of(words, SMALL))
