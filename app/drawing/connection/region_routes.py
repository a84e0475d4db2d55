"""Which way the conductors of one region take: the order in which they are laid, and the lines that come of it.

Rules of the file: the routes of a region depend on its ``Plot`` alone, so those of the last plots are kept: a change
in one region needs no new routes in the others.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

from app.drawing.connection.landings import OUTWARD, EndName, Landing
from app.drawing.routing.course import Course, Routes, straightened
from app.drawing.routing.field import Field
from app.drawing.routing.laying import Way, Wire, lay_wires
from app.drawing.routing.ports import Port
from app.drawing.surface.geometry import Box, Point

PLOTS_KEPT = 64
CUT = 6


class Lead(NamedTuple):
    """A conductor to route: its id, the bundle that it keeps to, and the two parts that it joins, in order."""

    name: str
    bundle: str
    parts: tuple[str, str]


class Plot(NamedTuple):
    """All that the routes of a region depend on: its extent, the boxes that are closed, the landed ends, the leads."""

    extent: Box
    closed: tuple[Box, ...]
    landings: tuple[tuple[EndName, Landing], ...]
    leads: tuple[Lead, ...]


@lru_cache(maxsize=PLOTS_KEPT)
def route_plot(plot: Plot) -> Routes:
    """Return the routes of a region."""
    landings = dict(plot.landings)
    field = _empty_field(plot)
    wires = [Wire(lead.name, _ports(lead.name, field, landings), lead.bundle) for lead in _order(plot.leads, landings)]
    laid = lay_wires(wires, field)
    courses = {lead.name: _course(lead.name, laid.ways.get(lead.name), field, landings) for lead in plot.leads}
    return Routes(courses, field.all_crossings(laid.ways.values()))


def _empty_field(plot: Plot) -> Field:
    field = Field(plot.extent)
    for box in plot.closed:
        field.block(box)
    for _, landing in plot.landings:
        field.reserve(field.node(landing.port), OUTWARD[landing.side].y == 0)
    return field


def _ports(name: str, field: Field, landings: Mapping[EndName, Landing]) -> tuple[Port, Port]:
    """Return both ports, the left one first, so that lanes fill from the left."""
    ports = sorted(
        (field.node(landing.port), OUTWARD[landing.side])
        for landing in (landings[EndName(name, 0)], landings[EndName(name, 1)])
    )
    first, second = (Port(node, out.x, out.y) for node, out in ports)
    return first, second


def _order(leads: Iterable[Lead], landings: Mapping[EndName, Landing]) -> list[Lead]:
    """Return the order of laying: near pairs of parts first, and within a pair nested, so that few cross."""
    pairs: dict[tuple[str, str], list[Lead]] = {}
    for lead in leads:
        pairs.setdefault(lead.parts, []).append(lead)
    distance = {pair: min(_distance(lead.name, landings) for lead in found) for pair, found in pairs.items()}
    return [
        lead
        for pair in sorted(pairs, key=lambda pair: (distance[pair], pair))
        for lead in sorted(pairs[pair], key=lambda lead: (_nesting(lead.name, landings), lead.name))
    ]


def _distance(name: str, landings: Mapping[EndName, Landing]) -> int:
    a, b = landings[EndName(name, 0)].port, landings[EndName(name, 1)].port
    return abs(a.x - b.x) + abs(a.y - b.y)


def _nesting(name: str, landings: Mapping[EndName, Landing]) -> tuple[int, int]:
    """Return what sorts conductors of one pair, whose lanes fill from the left.

    Rising ones from the top, falling ones from the bottom; those that turn back, the inner ones first.
    """
    first, second = sorted((landings[EndName(name, 0)], landings[EndName(name, 1)]), key=lambda end: end.port)
    if first.side == second.side:
        return 0, abs(first.port.y - second.port.y) + abs(first.port.x - second.port.x)
    return (1, first.port.y) if second.port.y <= first.port.y else (2, -first.port.y)


def _course(name: str, way: Way | None, field: Field, landings: Mapping[EndName, Landing]) -> Course:
    start, end = landings[EndName(name, 0)], landings[EndName(name, 1)]
    if way is None:
        return Course((_cut_short(start), _cut_short(end)[::-1]))
    points = [field.point(node) for node in way]
    if points[0] != start.port:
        points.reverse()
    return Course((straightened([*start.path(), *points, *reversed(end.path())]),))


def _cut_short(landing: Landing) -> tuple[Point, ...]:
    """Return the line from a screw to just before its port, where a foreign conductor may pass."""
    path, out = landing.path(), OUTWARD[landing.side]
    return straightened([*path[:-1], Point(path[-1].x - CUT * out.x, path[-1].y - CUT * out.y)])
