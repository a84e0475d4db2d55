"""What each conductor is for, written once beside it where there is room; where there is none, the wire list tells it.

Rules of the file: words stand in a strip between two lanes, where no line comes through, so they collide with nothing.
The best place is right after the label of an end, else a stretch along the line, with the name once more. Words are
whole or not there: half of them would say something else.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from app.drawing.connection.labels import ABOVE_LINE
from app.drawing.connection.landings import OUTWARD, EndName, Landing, grounds_of
from app.drawing.connection.plan import Plan
from app.drawing.connection.strips import Strips
from app.drawing.surface.geometry import GRID, Box, Point
from app.drawing.surface.text_width import box_of_text, width_of
from app.drawing.surface.verbs import SMALL, Text
from app.explain.role import Role
from app.explain.role_label import role_labels

AFTER_LABEL = 8
"""Between the label of an end and what comes after it."""
APART = 6
"""From words to a line across their strip: more than half an arrowhead."""
END_MARK = 7
"""From the middle of an end that is not landed, or was not seen, to where words may stand."""
BEGIN = 10
"""From where a stretch begins to words in it."""


def purposes_on(plan: Plan, roles: Mapping[str, Role], labels: Mapping[EndName, Text]) -> dict[str, Text]:
    """Return what is written of the roles of conductors, by conductor; ``labels`` stand at the ends already."""
    if not roles:
        return {}
    strips = _strips_of(plan)
    found: dict[str, Text] = {}
    whole = [name for name, course in plan.courses.items() if name in roles and not course.broken]
    for write in (_after_label, _along):
        for name in whole:
            if name not in found:
                text = write(name, plan, role_labels(roles[name]), labels, strips)
                if text is not None:
                    strips.block(box_of_text(text))
                    found[name] = text
    return dict(sorted(found.items()))


def _strips_of(plan: Plan) -> Strips:
    """Return the strips of a sheet with all that stands in them already."""
    strips = Strips(plan.content)
    for course in plan.courses.values():
        for piece in course.pieces:
            strips.lay(piece)
    for ground in grounds_of(plan.layout, plan.boxes, plan.landings).values():
        # The edge of a part is drawn, so words keep out of the strip that touches it; ports are for lines already.
        strips.block(ground.grown(1, 1, 1, 1), GRID)
    for loose in plan.loose.values():
        strips.block(Box(loose.at.x - END_MARK, loose.at.y - END_MARK, 2 * END_MARK, 2 * END_MARK))
        if loose.beyond is not None:
            strips.block(box_of_text(loose.beyond))
    return strips


def _after_label(
    name: str, plan: Plan, forms: Sequence[str], labels: Mapping[EndName, Text], strips: Strips
) -> Text | None:
    """Return the fullest form that fits after the label of an end; of both ends the one with a screw for itself."""
    if not plan.layout.conductors[name].landed():
        return _after_spare(forms, labels[EndName(name, 0)], plan.courses[name].pieces[0])
    ends = [end for end in (EndName(name, 0), EndName(name, 1)) if end in plan.landings and end in labels]
    ends.sort(key=lambda end: (plan.landings[end].shared > 1, end))
    for words in forms:
        for end in ends:
            text = _continued(words, labels[end], plan.landings[end], _straight_to(end, plan), strips)
            if text is not None:
                return text
    return None


def _after_spare(forms: Sequence[str], label: Text, line: Sequence[Point]) -> Text | None:
    """Return the fullest form that fits after the label of a conductor of the spare area."""
    start = label.at.x + label.width + AFTER_LABEL
    return next(
        (_level(start, label.at.y, words) for words in forms if start + width_of(words, SMALL) <= line[1].x), None
    )


def _level(x: int, y: int, words: str) -> Text:
    return Text(Point(x, y), words, SMALL, width_of(words, SMALL))


def _straight_to(end: EndName, plan: Plan) -> Point:
    """Return where the line first bends beyond the port of an end."""
    piece = plan.courses[end.conductor].pieces[0]
    points = piece if end.number == 0 else piece[::-1]
    port = plan.landings[end].port
    for a, b in pairwise(points):
        if min(a.x, b.x) <= port.x <= max(a.x, b.x) and min(a.y, b.y) <= port.y <= max(a.y, b.y) and b != port:
            return b
    return port


def _continued(words: str, label: Text, landing: Landing, bend: Point, strips: Strips) -> Text | None:
    out, port = OUTWARD[landing.side], landing.port
    level = out.y == 0
    if (bend.y != port.y) if level else (bend.x != port.x):
        return None
    width = width_of(words, SMALL)
    if level:
        start = label.at.x + (label.width + AFTER_LABEL) * out.x
        room = strips.reach(True, port.y, port.x - GRID * out.x, bend.x) - start
        return Text(Point(start, label.at.y), words, SMALL, width, label.anchor) if _fits(width, room, out.x) else None
    start = label.at.y + (label.width + AFTER_LABEL) * out.y
    room = strips.reach(False, port.x, port.y - GRID * out.y, bend.y) - start
    fits = _fits(width, room, out.y)
    return Text(Point(label.at.x, start), words, SMALL, width, label.anchor, upright=False) if fits else None


def _fits(width: int, room: int, direction: int) -> bool:
    return width + APART <= room * direction


def _along(name: str, plan: Plan, forms: Sequence[str], _labels: Mapping[EndName, Text], strips: Strips) -> Text | None:
    """Return the name with the fullest form that fits along the line, in its longest free level stretch if it can."""
    conductor = plan.layout.conductors[name]
    if not conductor.landed():
        return None
    code = f" {conductor.insulation}" if conductor.insulation else ""
    stretches = sorted(_stretches(plan.courses[name].pieces[0], strips), key=lambda one: (not one[0], -_long(one), one))
    for said in dict.fromkeys((plan.called[name] + code, plan.called[name])):
        for form in forms:
            words = f"{said} {form}"
            width = width_of(words, SMALL)
            for level, lane, low, high in stretches:
                if BEGIN + width + APART <= high - low:
                    if level:
                        return _level(low + BEGIN, lane - ABOVE_LINE, words)
                    return Text(Point(lane - ABOVE_LINE, high - BEGIN), words, SMALL, width, upright=False)
    return None


def _stretches(line: Sequence[Point], strips: Strips) -> Iterator[tuple[bool, int, int, int]]:
    """Yield the free stretches beside a line: whether level, its lane, from where to where."""
    for a, b in pairwise(line):
        level = a.y == b.y
        low, high = sorted((a.x, b.x) if level else (a.y, b.y))
        for start, end in strips.stretches(level, a.y if level else a.x, low, high):
            yield level, a.y if level else a.x, start, end


def _long(stretch: tuple[bool, int, int, int]) -> int:
    return stretch[3] - stretch[2]
