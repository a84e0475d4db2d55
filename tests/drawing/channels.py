"""Which channels a part has on a drawing, and which conductors run in them.

A channel is free space between grounds. Those of a part are the strips beside its four sides, as wide as the part, and
the strips in which its own conductors run: each straight piece swept to both sides as far as the next ground. Another
conductor runs in a channel where a piece of its line enters it; in a strip of a conductor only a piece that lies the
same way counts, for what merely crosses needs no lane there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from app.drawing.connection.landings import grounds_of
from app.drawing.connection.plan import Plan
from app.drawing.routing.course import Course
from app.drawing.surface.geometry import Box, Point

RIM = 500
"""Around everything on the sheet, where there is free space too."""


class Channel(NamedTuple):
    """A strip of free space; ``level`` tells which way lines in it lie, None where either way counts."""

    box: Box
    level: bool | None


def landed_on(plan: Plan, parts: Iterable[str]) -> set[str]:
    """Return the conductors that are landed on any of some parts."""
    wanted = set(parts)
    return {
        wire
        for wire, conductor in plan.layout.conductors.items()
        if any(terminal.split(".")[0] in wanted for terminal in conductor.landed())
    }


def in_channels_of(plan: Plan, parts: Iterable[str]) -> set[str]:
    """Return the conductors that run in a channel of any of some parts."""
    channels = [channel for part in parts for channel in channels_of(plan, part)]
    return {wire for wire, course in plan.courses.items() if _runs_in(course, channels)}


def channels_of(plan: Plan, part: str) -> Iterator[Channel]:
    """Yield the channels of a part."""
    grounds = grounds_of(plan.layout, plan.boxes, plan.landings)
    sheet = plan.content.grown(RIM, RIM, RIM, RIM)
    others = [ground for name, ground in grounds.items() if name != part]
    for level in (False, True):
        yield Channel(_swept(grounds[part], level, others, sheet), None)
    for wire in landed_on(plan, [part]):
        yield from _beside(plan, wire, list(grounds.values()), sheet)


def beside(plan: Plan, wire: str) -> set[str]:
    """Return the conductors that run in a channel in which this one runs."""
    grounds = grounds_of(plan.layout, plan.boxes, plan.landings)
    channels = list(_beside(plan, wire, list(grounds.values()), plan.content.grown(RIM, RIM, RIM, RIM)))
    return {other for other, course in plan.courses.items() if _runs_in(course, channels)}


def _beside(plan: Plan, wire: str, grounds: list[Box], sheet: Box) -> Iterator[Channel]:
    """Yield the strips in which the pieces of a conductor lie."""
    for box, level in _straight_pieces(plan.courses[wire]):
        yield Channel(_swept(box, level, grounds, sheet), level)


def _straight_pieces(course: Course) -> Iterator[tuple[Box, bool]]:
    for piece in course.pieces:
        for a, b in pairwise(piece):
            yield _between(a, b), a.y == b.y


def _between(a: Point, b: Point) -> Box:
    return Box(min(a.x, b.x), min(a.y, b.y), abs(a.x - b.x), abs(a.y - b.y))


def _swept(box: Box, level: bool, grounds: Iterable[Box], sheet: Box) -> Box:
    """Return a box swept up and down (``level``), or to both sides, as far as the next ground."""
    if level:
        facing = [ground for ground in grounds if ground.x < box.right and box.x < ground.right]
        top = max([ground.bottom for ground in facing if ground.bottom <= box.y], default=sheet.y)
        bottom = min([ground.y for ground in facing if ground.y >= box.bottom], default=sheet.bottom)
        return Box(box.x, top, box.w, bottom - top)
    facing = [ground for ground in grounds if ground.y < box.bottom and box.y < ground.bottom]
    left = max([ground.right for ground in facing if ground.right <= box.x], default=sheet.x)
    right = min([ground.x for ground in facing if ground.x >= box.right], default=sheet.right)
    return Box(left, box.y, right - left, box.h)


def _runs_in(course: Course, channels: Iterable[Channel]) -> bool:
    pieces = list(_straight_pieces(course))
    return any(
        channel.level in (None, level) and _touch(box, channel.box) for channel in channels for box, level in pieces
    )


def _touch(a: Box, b: Box) -> bool:
    return a.x <= b.right and b.x <= a.right and a.y <= b.bottom and b.y <= a.bottom
