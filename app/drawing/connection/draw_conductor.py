"""One conductor on the sheet: its line, its ends with their labels, arrowheads when it carries."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from app.circuit.operating_point import OperatingPoint
from app.drawing.connection.landings import EndName
from app.drawing.connection.live import State, arrowheads, conductor_state, pen_of
from app.drawing.connection.loose_ends import RING, LooseEnd
from app.drawing.connection.plan import Plan
from app.drawing.connection.written import Written
from app.drawing.frame.drawing import GIVES_WAY
from app.drawing.surface.geometry import GRID, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import THIN, UNKNOWN, Surface, Text
from app.job.model import Conductor, End, UnknownEnd

SCREW = 5


def draw_conductor(surface: Surface, name: str, plan: Plan, written: Written, point: OperatingPoint | None) -> None:
    """Draw a conductor with its ends and labels."""
    conductor, _course = plan.layout.conductors[name], plan.courses[name]
    state = conductor_state(name, conductor, point) if point is not None else None
    surface.begin(attributes_of(name, plan, state), spoken(plan.called[name], conductor, written.spoken(name)))
    pen = pen_of(conductor, state)
    drawn = visible_pieces(name, plan)
    for piece in drawn:
        surface.line(piece, pen, {"class": "wire"})
    if plan.courses[name].broken:
        for piece in (drawn[0], drawn[1][::-1]):
            surface.line(arrow_on(piece), THIN, {"class": "goes-on"})
    toward = point.conductors[name].toward if point is not None and name in point.conductors else None
    if toward is not None:
        for piece, before, after in _clear_of_labels(name, plan, drawn):
            way = (piece, before, after) if toward == 1 else (piece[::-1], after, before)
            for head in arrowheads(*way, written.kept_free):
                surface.shape(head, {"class": "head"})
    for index in (0, 1):
        draw_end(surface, EndName(name, index), plan, written.labels)
    if name in written.purposes:
        surface.text(written.purposes[name], {"class": GIVES_WAY})
    surface.end()


def spoken(name: str, conductor: Conductor, purpose: str = "") -> str:
    """Return a conductor in words, with what it is for where that is known."""
    code = f", {conductor.insulation}" if conductor.insulation else ""
    said = f"{name}{code}: {_end_words(conductor.ends[0])} to {_end_words(conductor.ends[1])}"
    return f"{said}. {purpose[0].upper()}{purpose[1:]}." if purpose else said


def _end_words(end: End) -> str:
    if isinstance(end, UnknownEnd):
        return f"not seen ({end.unknown})"
    return end if end is not None else "not landed"


def attributes_of(name: str, plan: Plan, state: State | None) -> dict[str, str]:
    """Return what the group of a conductor says of it."""
    conductor, course = plan.layout.conductors[name], plan.courses[name]
    path = " ; ".join(" ".join(f"{x},{y}" for x, y in piece) for piece in course.pieces)
    attributes = {"data-conductor": name, "data-path": path, "class": "conductor"}
    if conductor.cable:
        attributes["data-cable"] = conductor.cable
    if state is not None:
        attributes["data-live"] = state
        attributes["class"] = f"conductor {state}"
    return attributes


def visible_pieces(name: str, plan: Plan) -> list[tuple[Point, ...]]:
    """Return the pieces as they are drawn: from the edge of a screw or ring."""
    pieces = [list(piece) for piece in plan.courses[name].pieces]
    for index, piece, at in ((0, pieces[0], 0), (1, pieces[-1], -1)):
        end = EndName(name, index)
        cut = SCREW if end in plan.landings else RING
        piece[at] = _toward(piece[at], piece[1 if at == 0 else -2], cut)
    return [tuple(piece) for piece in pieces]


def _toward(start: Point, goal: Point, distance: int) -> Point:
    dx, dy = goal.x - start.x, goal.y - start.y
    return Point(start.x + distance * ((dx > 0) - (dx < 0)), start.y + distance * ((dy > 0) - (dy < 0)))


def _clear_of_labels(
    name: str, plan: Plan, drawn: list[tuple[Point, ...]]
) -> Iterator[tuple[tuple[Point, ...], int, int]]:
    """Yield each piece with the lengths at its start and end that lie beside labels."""
    beside = [
        plan.landings[end].length() + GRID * plan.landings[end].lane - GRID if end in plan.landings else 0
        for end in (EndName(name, 0), EndName(name, 1))
    ]
    if len(drawn) == 1:
        yield drawn[0], beside[0], beside[1]
    else:
        yield drawn[0], beside[0], 0
        yield drawn[1], 0, beside[1]


def arrow_on(piece: tuple[Point, ...]) -> tuple[Point, Point, Point]:
    """Return the open tip at the end of a piece that goes on elsewhere."""
    tip = piece[-1]
    back = _toward(tip, piece[-2], 6)
    dx, dy = (5, 0) if back.x == tip.x else (0, 5)
    return Point(back.x + dx, back.y + dy), tip, Point(back.x - dx, back.y - dy)


def draw_end(surface: Surface, end: EndName, plan: Plan, labels: Mapping[EndName, Text]) -> None:
    """Draw an end of a conductor: the mark of one that is not landed, and what is written beside it."""
    landed = plan.layout.conductors[end.conductor].ends[end.number]
    at = plan.landings[end].screw if end in plan.landings else plan.loose[end].at
    surface.begin(
        {
            "data-end": f"{end.conductor}.{end.number}",
            "data-landed": landed if isinstance(landed, str) else "",
            "data-x": str(at.x),
            "data-y": str(at.y),
            "class": "end",
        }
    )
    if end in plan.loose:
        _loose(surface, plan.loose[end])
    if end in labels:
        surface.text(labels[end], {"class": "label"})
    surface.end()


def _loose(surface: Surface, loose: LooseEnd) -> None:
    if loose.known:
        surface.circle(loose.at, RING, THIN)
    else:
        width = width_of("?", UNKNOWN)
        surface.text(Text(Point(loose.at.x, loose.at.y + 4), "?", UNKNOWN, width, "middle"), {"class": "unknown"})
    if loose.beyond is not None:
        surface.text(loose.beyond, {"class": "words"})
