"""How conductors come to a screw: which lane each takes in front of it, and where it leaves the landing.

Rules of the file: in front of a side with screws lies a landing that no foreign conductor enters.
Conductors on one screw share the short piece next to it and fan out ``GRID`` u away from it, each into a lane of its
own with its label above; where they part stands a joint dot.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

from app.catalogue.kind import Side
from app.drawing.connection.part_box import PartBox, Screw
from app.drawing.connection.said import NOTHING_SAID, Said
from app.drawing.surface.geometry import GRID, Box, Point, up_to_grid
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.job.model import Conductor, Layout
from app.job.names import letter_of, part_of, short_names

LANDING_LEAST = 60
LABEL_START = GRID + 4
"""From the edge of the box to where a label begins, just past the point where lanes part."""
OUTWARD: Mapping[Side, Point] = {
    "left": Point(-1, 0),
    "right": Point(1, 0),
    "top": Point(0, -1),
    "bottom": Point(0, 1),
}


class EndName(NamedTuple):
    """One end of a conductor; ``number`` is 0 or 1."""

    conductor: str
    number: int


class Landing(NamedTuple):
    """A landed end: from ``screw`` along a lane to ``port``, where it leaves the landing towards ``side``.

    ``edge`` is where it leaves the box: the screw itself, but for a splice, which lies inside. ``lane`` is the number
    of the lane on its screw and side, ``shared`` how many conductors are there.
    """

    screw: Point
    edge: Point
    port: Point
    side: Side
    lane: int
    shared: int

    def path(self) -> tuple[Point, ...]:
        """Return the points from the screw to the port."""
        if self.lane == 0:
            return (self.screw, self.port)
        out = OUTWARD[self.side]
        fan = Point(self.edge.x + GRID * out.x, self.edge.y + GRID * out.y)
        turned = Point(fan.x, self.port.y) if out.y == 0 else Point(self.port.x, fan.y)
        return (self.screw, fan, turned, self.port)

    def length(self) -> int:
        """Return how long the landing is, from the edge of the box to the port."""
        return abs(self.port.x - self.edge.x) if OUTWARD[self.side].y == 0 else abs(self.port.y - self.edge.y)

    def joint(self) -> Point | None:
        """Return where the next lane leaves this one, None for the last lane."""
        if self.lane + 1 == self.shared:
            return None
        out = OUTWARD[self.side]
        if out.y == 0:
            return Point(self.edge.x + GRID * out.x, self.port.y)
        return Point(self.port.x, self.edge.y + GRID * out.y)


def land_ends(
    layout: Layout, boxes: Mapping[str, PartBox], continued: Collection[str] = (), said: Said = NOTHING_SAID
) -> dict[EndName, Landing]:
    """Return how every landed end comes to its screw; the label of a ``continued`` conductor names its other end.

    On one screw the lanes are in the order of where the other ends lie, so that conductors do not cross at once.
    """
    on_screw: dict[tuple[str, Side], list[EndName]] = {}
    for name, conductor in layout.conductors.items():
        for number, terminal in enumerate(conductor.ends):
            if isinstance(terminal, str):
                end = EndName(name, number)
                on_screw.setdefault((terminal, _side(end, terminal, layout, boxes)), []).append(end)
    lengths = _lengths(on_screw, layout, continued, said)
    landings: dict[EndName, Landing] = {}
    for terminal, side in sorted(on_screw):
        screw, box = screw_of(terminal, boxes), boxes[part_of(terminal)].box
        edge = screw.at if not screw.both else Point(box.x if side == "left" else box.right, screw.at.y)
        ends = on_screw[terminal, side]
        ordered = ends
        if len(ends) > 1:
            ordered = sorted(ends, key=lambda end: (_place_in_lanes(end, side, layout, boxes), end))
        for lane, end in enumerate(ordered):
            port = _port(edge, side, lane, lengths[part_of(terminal), side])
            landings[end] = Landing(screw.at, edge, port, side, lane, len(ordered))
    return landings


def ground_of(box: PartBox, landings: Iterable[Landing]) -> Box:
    """Return the box in which no foreign line has a point: the part, and its landings up to just before their ports."""
    out = dict.fromkeys(OUTWARD, 0)
    out.update(dict.fromkeys(box.sides, GRID))
    for landing in landings:
        out[landing.side] = max(out[landing.side], landing.length() - 1)
    return box.box.grown(out["left"], out["top"], out["right"], out["bottom"])


def grounds_of(layout: Layout, boxes: Mapping[str, PartBox], landings: Mapping[EndName, Landing]) -> dict[str, Box]:
    """Return the ground of every part."""
    of_part: dict[str, list[Landing]] = {name: [] for name in boxes}
    for end, landing in landings.items():
        terminal = layout.conductors[end.conductor].ends[end.number]
        if isinstance(terminal, str):
            of_part[part_of(terminal)].append(landing)
    return {name: ground_of(boxes[name], found) for name, found in of_part.items()}


def names_on(layout: Layout, said: Said) -> Mapping[str, str]:
    """Return what each conductor is called on the drawing."""
    return {**short_names(layout.conductors), **said.called}


def label_words(end: EndName, called: str, conductor: Conductor, continued: bool, said: Said) -> tuple[str, str]:
    """Return what stands beside an end: what its conductor is called, and the code of its insulation or its way on."""
    rest = said.after.get(end, conductor.insulation or "")
    if not continued:
        return called, rest
    way_on = f"to {conductor.ends[1 - end.number]}"
    return called, f"{rest} {way_on}" if end in said.after else way_on


def _lengths(
    on_screw: Mapping[tuple[str, Side], list[EndName]], layout: Layout, continued: Collection[str], said: Said
) -> dict[tuple[str, Side], int]:
    """Return how long the landing of each side of each part is: as long as its longest label asks for."""
    lengths: dict[tuple[str, Side], int] = {}
    called = names_on(layout, said)
    for (terminal, side), ends in on_screw.items():
        labels = (
            label_words(end, called[end.conductor], layout.conductors[end.conductor], end.conductor in continued, said)
            for end in ends
        )
        widest = max(width_of(" ".join(label).strip(), SMALL) for label in labels)
        length = min(max(up_to_grid(LABEL_START + widest + said.clear), LANDING_LEAST), said.landing_most)
        key = part_of(terminal), side
        lengths[key] = max(lengths.get(key, 0), length)
    return lengths


def _side(end: EndName, terminal: str, layout: Layout, boxes: Mapping[str, PartBox]) -> Side:
    """Return the side on which a conductor leaves; at a splice the one that it reaches with fewer bends."""
    screw = screw_of(terminal, boxes)
    other = layout.conductors[end.conductor].ends[1 - end.number]
    if not screw.both or not isinstance(other, str):
        return screw.side
    box, far = boxes[part_of(terminal)].box, screw_of(other, boxes)
    if far.both or OUTWARD[far.side].x == 0:
        return "left" if far.at.x < screw.at.x else "right"
    # From a side that faces the splice there are two bends, and from one that faces away as well, around that end.
    port = far.at.x + LANDING_LEAST * OUTWARD[far.side].x
    if far.side == "right":
        return "left" if port <= box.x - LANDING_LEAST else "right"
    return "right" if port >= box.right + LANDING_LEAST else "left"


def screw_of(terminal: str, boxes: Mapping[str, PartBox]) -> Screw:
    """Return the screw of ``part.LETTER``."""
    return boxes[part_of(terminal)].screws[letter_of(terminal)]


def _port(edge: Point, side: Side, lane: int, length: int) -> Point:
    out = OUTWARD[side]
    if out.y == 0:
        return Point(edge.x + length * out.x, edge.y + GRID * lane)
    return Point(edge.x + GRID * lane, edge.y + length * out.y)


def _place_in_lanes(end: EndName, side: Side, layout: Layout, boxes: Mapping[str, PartBox]) -> tuple[int, int]:
    """Return what sorts the lanes of a screw, by where the other ends lie along this side.

    Those that come back to the same side go in the outermost lanes, the shortest of them furthest out, where they cross
    none of the others. An end that is not landed comes last.
    """
    conductor = layout.conductors[end.conductor]
    here, other = conductor.ends[end.number], conductor.ends[1 - end.number]
    if not isinstance(here, str) or not isinstance(other, str):
        return 3, 0
    upright = side in ("left", "right")
    from_, to = (screw_of(terminal, boxes).at for terminal in (here, other))
    far = to.y - from_.y if upright else to.x - from_.x
    if far and _side(EndName(end.conductor, 1 - end.number), other, layout, boxes) == side:
        return (0, -far) if far < 0 else (2, -far)
    return 1, far
