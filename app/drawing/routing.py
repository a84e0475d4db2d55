"""Which way every conductor takes across the sheet.

Rules of the file: no two conductors share a segment outside the landings, none enters a box or a landing, and two that
meet cross at right angles. A conductor for which there is no way is not forced: it is drawn as two short pieces, each
with the name of the other end.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.drawing.field import Field
from app.drawing.geometry import GRID, Box, Point, box_around, up_to_grid
from app.drawing.landings import OUTWARD, EndName, Landing, grounds_of
from app.drawing.laying import Way, Wire, lay_wires
from app.drawing.part_box import PartBox
from app.drawing.ports import Port
from app.job.model import Layout
from app.job.names import part_of

MARGIN_LANES = 10
"""Free lanes around all parts."""

CUT = 6


@dataclass(frozen=True)
class Course:
    """The way of one conductor: pieces of line from the screw of end 0 to that of end 1; two where it is broken."""

    pieces: tuple[tuple[Point, ...], ...]

    @property
    def broken(self) -> bool:
        """Return whether no way was found and only its two ends are drawn."""
        return len(self.pieces) > 1


@dataclass(frozen=True)
class Routes:
    """The course of every conductor that is landed at both ends, by id in order, and how often they cross."""

    courses: Mapping[str, Course]
    crossings: int


def route_conductors(
    layout: Layout,
    boxes: Mapping[str, PartBox],
    landings: Mapping[EndName, Landing],
    kept: Sequence[Box] = (),
) -> Routes:
    """Return the routes of a layout.

    ``kept`` are boxes that no conductor may enter, besides the grounds of the parts.
    """
    names = [name for name in sorted(layout.conductors) if len(layout.conductors[name].landed()) == 2]
    field = _empty_field(grounds_of(layout, boxes, landings), landings, kept, len(names))
    wires = [
        Wire(name, _ports(name, field, landings), _bundle(name, layout)) for name in _order(names, layout, landings)
    ]
    laid = lay_wires(wires, field)
    courses = {name: _course(name, laid.ways.get(name), field, landings) for name in names}
    return Routes(courses, field.all_crossings(laid.ways.values()))


def _empty_field(
    grounds: Mapping[str, Box], landings: Mapping[EndName, Landing], kept: Sequence[Box], conductors: int
) -> Field:
    around = box_around([*grounds.values(), *kept]) or Box(0, 0, GRID, GRID)
    margin = GRID * (MARGIN_LANES + min(conductors // 4, 30))
    left, top = around.x // GRID * GRID - margin, around.y // GRID * GRID - margin
    field = Field(Box(left, top, up_to_grid(around.right) + margin - left, up_to_grid(around.bottom) + margin - top))
    for ground in grounds.values():
        field.block(ground)
    for box in kept:
        field.block(box)
    for landing in landings.values():
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


def _bundle(name: str, layout: Layout) -> str:
    """Return what keeps conductors together: their cable, else the two parts that they join."""
    conductor = layout.conductors[name]
    return conductor.cable or " ".join(sorted(part_of(end) for end in conductor.landed()))


def _order(names: Sequence[str], layout: Layout, landings: Mapping[EndName, Landing]) -> list[str]:
    """Return the order of laying: near pairs of parts first, and within a pair nested, so that few cross."""
    pairs: dict[tuple[str, ...], list[str]] = {}
    for name in names:
        pairs.setdefault(tuple(sorted(part_of(end) for end in layout.conductors[name].landed())), []).append(name)
    distance = {pair: min(_distance(name, landings) for name in found) for pair, found in pairs.items()}
    return [
        name
        for pair in sorted(pairs, key=lambda pair: (distance[pair], pair))
        for name in sorted(pairs[pair], key=lambda name: (_nesting(name, landings), name))
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


def straightened(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the ends and bends of a line: no point twice, none in the middle of a straight piece."""
    kept: list[Point] = []
    for point in points:
        if kept and kept[-1] == point:
            continue
        if len(kept) > 1 and (kept[-2].x == kept[-1].x == point.x or kept[-2].y == kept[-1].y == point.y):
            kept.pop()
        kept.append(point)
    return tuple(kept)
