"""Where everything of a connection diagram lies, before anything is drawn."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.landings import EndName, Landing, grounds_of, land_ends, names_on
from app.drawing.connection.loose_ends import LooseEnd, LooseEnds, Spares, place_loose_ends, place_spares
from app.drawing.connection.part_box import PartBox
from app.drawing.connection.placing import place_parts
from app.drawing.connection.routes import route_conductors
from app.drawing.connection.said import NOTHING_SAID, Said
from app.drawing.routing.course import Course, Routes, straightened
from app.drawing.surface.geometry import Box, Point, box_around, box_of_points
from app.drawing.surface.text_width import box_of_text
from app.job.model import Layout

AGAIN_MOST = 1
SPARE_AREA_GAP = 24
EMPTY = Box(0, 0, 480, 240)
"""The content of a sheet on which nothing stands."""


@dataclass(frozen=True)
class Plan:
    """The geometry of a connection diagram.

    ``called`` is what people call each conductor, ``content`` the box around parts and conductors.
    """

    layout: Layout
    called: Mapping[str, str]
    boxes: Mapping[str, PartBox]
    landings: Mapping[EndName, Landing]
    loose: Mapping[EndName, LooseEnd]
    courses: Mapping[str, Course]
    crossings: int
    content: Box
    said: Said = NOTHING_SAID


def plan_connection(layout: Layout, catalogue: Catalogue, insides: bool = False, said: Said = NOTHING_SAID) -> Plan:
    """Return where the parts, conductors and loose ends of a layout lie, and with ``insides`` what is in the parts.

    ``said`` are the words of a view that says more than the layout does.
    """
    boxes = place_parts(layout, catalogue, insides, said.landing_most)
    landings, loose, routes = _lead(layout, boxes, (), said)
    for _ in range(AGAIN_MOST):
        broken = routes.broken
        if not broken:
            break
        # The landings become longer, so that a broken conductor can say where it goes on.
        landings, loose, routes = _lead(layout, boxes, broken, said)
    courses = dict(routes.courses)
    courses.update((end.conductor, _loose_course(end, landings)) for end in loose.ends)
    content = _content(boxes, courses, loose.ends)
    spares = _spares_below(layout, content, boxes, courses, loose, said)
    courses.update((name, Course((line,))) for name, line in spares.lines.items())
    return Plan(
        layout,
        names_on(layout, said),
        boxes,
        landings,
        {**loose.ends, **spares.ends},
        dict(sorted(courses.items())),
        routes.crossings,
        _content(boxes, courses, {**loose.ends, **spares.ends}),
        said,
    )


def _lead(
    layout: Layout, boxes: Mapping[str, PartBox], continued: Collection[str], said: Said
) -> tuple[dict[EndName, Landing], LooseEnds, Routes]:
    landings = land_ends(layout, boxes, continued, said)
    grounds = grounds_of(layout, boxes, landings)
    loose = place_loose_ends(layout, grounds, landings, said)
    return landings, loose, route_conductors(layout, grounds, landings, loose.kept)


def _loose_course(end: EndName, landings: Mapping[EndName, Landing]) -> Course:
    """Return the course of a conductor with a loose end, from end 0 to end 1."""
    path = straightened(landings[EndName(end.conductor, 1 - end.number)].path())
    return Course((path if end.number == 1 else path[::-1],))


def _spares_below(
    layout: Layout,
    content: Box,
    boxes: Mapping[str, PartBox],
    courses: Mapping[str, Course],
    loose: LooseEnds,
    said: Said,
) -> Spares:
    """Return the spare area at the left, no further down than what lies above it asks for.

    On paper it then shares a sheet with that; below everything it mostly had one for itself.
    """
    spares = place_spares(layout, Point(content.x, content.y), said)
    right = max((box.right for box in _words_of(spares.ends)), default=content.x) + SPARE_AREA_GAP
    if not spares.lines:
        return spares
    # Nothing lies to the left of it, and lines run level or upright: those that reach it have a point there.
    points = (point for course in courses.values() for piece in course.pieces for point in piece)
    reached = [point.y for point in points if point.x < right]
    drawn = (*(box.ground() for box in boxes.values()), *_words_of(loose.ends))
    reached += [box.bottom for box in drawn if box.x < right]
    return spares.lowered(max(reached, default=content.y) + SPARE_AREA_GAP - content.y)


def _words_of(ends: Mapping[EndName, LooseEnd]) -> list[Box]:
    return [box_of_text(end.beyond) for end in ends.values() if end.beyond is not None]


def _content(boxes: Mapping[str, PartBox], courses: Mapping[str, Course], loose: Mapping[EndName, LooseEnd]) -> Box:
    points = [point for course in courses.values() for piece in course.pieces for point in piece]
    found = [box.ground() for box in boxes.values()]
    found += _words_of(loose)
    lines = box_of_points(points)
    return box_around(found + ([lines] if lines else [])) or EMPTY
