"""How conductors come to a screw: which lane each takes in front of it, and where it leaves the landing.

Rules of the file: in front of a side with screws lies a landing of ``LANDING`` u that no foreign conductor enters.
Conductors on one screw share the short piece next to it and fan out ``GRID`` u away from it, each into a lane of its
own with its label above; where they part stands a joint dot.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from app.catalogue.kind import Side
from app.drawing.geometry import GRID, Point
from app.drawing.part_box import LANDING, PartBox, Screw
from app.job.model import Layout
from app.job.names import letter_of, part_of

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

    ``lane`` is the number of the lane on its screw; ``shared`` how many conductors are on the screw.
    """

    screw: Point
    port: Point
    side: Side
    lane: int
    shared: int

    def path(self) -> tuple[Point, ...]:
        """Return the points from the screw to the port."""
        fan = self.fan()
        return (self.screw, self.port) if fan is None else (self.screw, fan, self._lane_start(), self.port)

    def fan(self) -> Point | None:
        """Return the point at which this conductor leaves the straight line from the screw, None where it does not."""
        if self.lane == 0:
            return None
        out = OUTWARD[self.side]
        return Point(self.screw.x + GRID * out.x, self.screw.y + GRID * out.y)

    def _lane_start(self) -> Point:
        out = OUTWARD[self.side]
        if out.y == 0:
            return Point(self.screw.x + GRID * out.x, self.port.y)
        return Point(self.port.x, self.screw.y + GRID * out.y)


def land_ends(layout: Layout, boxes: Mapping[str, PartBox]) -> dict[EndName, Landing]:
    """Return how every landed end comes to its screw.

    On one screw the lanes are in the order of where the other ends lie, so that conductors do not cross at once.
    """
    on_screw: dict[str, list[EndName]] = {}
    for name, conductor in layout.conductors.items():
        for number, terminal in enumerate(conductor.ends):
            if isinstance(terminal, str):
                on_screw.setdefault(terminal, []).append(EndName(name, number))
    landings: dict[EndName, Landing] = {}
    for terminal in sorted(on_screw):
        screw = screw_of(terminal, boxes)
        ordered = sorted(on_screw[terminal], key=lambda end: (_across(end, screw, layout, boxes), end))
        for lane, end in enumerate(ordered):
            landings[end] = Landing(screw.at, _port(screw, lane), screw.side, lane, len(ordered))
    return landings


def screw_of(terminal: str, boxes: Mapping[str, PartBox]) -> Screw:
    """Return the screw of ``part.LETTER``."""
    return boxes[part_of(terminal)].screws[letter_of(terminal)]


def _port(screw: Screw, lane: int) -> Point:
    out = OUTWARD[screw.side]
    if out.y == 0:
        return Point(screw.at.x + LANDING * out.x, screw.at.y + GRID * lane)
    return Point(screw.at.x + GRID * lane, screw.at.y + LANDING * out.y)


def _across(end: EndName, screw: Screw, layout: Layout, boxes: Mapping[str, PartBox]) -> int:
    """Return where the other end lies along the side of this screw; an end that is not landed comes last."""
    other = layout.conductors[end.conductor].ends[1 - end.number]
    if not isinstance(other, str):
        return 1_000_000
    at = screw_of(other, boxes).at
    return at.y if screw.side in ("left", "right") else at.x
