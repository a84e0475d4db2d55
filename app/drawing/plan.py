"""Where everything of a connection diagram lies, before anything is drawn."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.drawing.geometry import Box, Point, box_around, box_of_points
from app.drawing.landings import EndName, Landing, land_ends
from app.drawing.loose_ends import LooseEnds, place_loose_ends
from app.drawing.part_box import PartBox
from app.drawing.placing import place_parts
from app.drawing.routing import Course, Routes, route_conductors, straightened
from app.drawing.text_width import box_of_text
from app.job.model import Layout

AGAIN_MOST = 1


@dataclass(frozen=True)
class Plan:
    """The geometry of a connection diagram; ``content`` is the box around parts and conductors."""

    layout: Layout
    boxes: Mapping[str, PartBox]
    landings: Mapping[EndName, Landing]
    loose: LooseEnds
    courses: Mapping[str, Course]
    crossings: int
    content: Box


def plan_connection(layout: Layout, catalogue: Catalogue) -> Plan:
    """Return where the parts, conductors and loose ends of a layout lie."""
    boxes = place_parts(layout, catalogue)
    landings, loose, routes = _lead(layout, boxes, ())
    for _ in range(AGAIN_MOST):
        broken = {name for name, course in routes.courses.items() if course.broken}
        if not broken:
            break
        # The landings become longer, so that a broken conductor can say where it goes on.
        landings, loose, routes = _lead(layout, boxes, broken)
    courses = dict(routes.courses)
    for name in sorted(layout.conductors):
        if name not in courses:
            courses[name] = _loose_course(name, landings, loose)
    return Plan(layout, boxes, landings, loose, courses, routes.crossings, _content(boxes, courses, loose))


def _lead(
    layout: Layout, boxes: Mapping[str, PartBox], continued: Collection[str]
) -> tuple[dict[EndName, Landing], LooseEnds, Routes]:
    landings = land_ends(layout, boxes, continued)
    loose = place_loose_ends(layout, boxes, landings)
    return landings, loose, route_conductors(layout, boxes, landings, loose.kept)


def _loose_course(name: str, landings: Mapping[EndName, Landing], loose: LooseEnds) -> Course:
    """Return the course of a conductor with a loose end, from end 0 to end 1."""
    if name in loose.spare:
        return Course((loose.spare[name],))
    index = 0 if EndName(name, 0) in landings else 1
    path = straightened(landings[EndName(name, index)].path())
    return Course((path if index == 0 else path[::-1],))


def _content(boxes: Mapping[str, PartBox], courses: Mapping[str, Course], loose: LooseEnds) -> Box:
    points = [point for course in courses.values() for piece in course.pieces for point in piece]
    found = [box.ground() for box in boxes.values()]
    found += [box_of_text(end.beyond) for end in loose.ends.values() if end.beyond is not None]
    lines = box_of_points(Point(*point) for point in points)
    return box_around(found + ([lines] if lines else [])) or Box(0, 0, 480, 240)
