"""Jumpers between two terminals of one part: fitted, or removed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from app.catalogue.catalogue import settings_of
from app.catalogue.kind import JumperElement, Kind
from app.circuit.operating_point import OperatingPoint
from app.drawing.connection.part_box import PartBox, jumpers_at_screws
from app.drawing.surface.geometry import GRID, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import MARK, NOT_IN_USE, SMALL, Anchor, Surface, Text
from app.job.model import Part

INSIDE = 12
"""The join lies between the screws and their letters."""
GAP = 5
REMOVED = "removed"


class DrawnJumper(NamedTuple):
    """A jumper of a part and whether it is fitted."""

    name: str
    first: Point
    second: Point
    inward: int
    fitted: bool


def jumpers_of(part: Part, kind: Kind, box: PartBox, point: OperatingPoint | None) -> Iterator[DrawnJumper]:
    """Yield the jumpers of a part whose two terminals are on one upright side."""
    settings = settings_of(kind, part)
    for name in jumpers_at_screws(kind):
        element = kind.elements[name]
        assert isinstance(element, JumperElement)
        first, second = sorted((box.screws[node] for node in element.between), key=lambda screw: screw.at)
        value = settings[element.by]
        if point is not None:
            value = point.situation.set.get(f"{box.part}.{element.by}", value)
        inward = 1 if first.side == "left" else -1
        yield DrawnJumper(element.by, first.at, second.at, inward, value == "fitted")


def draw_jumper(surface: Surface, part: str, jumper: DrawnJumper, words: str = "") -> None:
    """Draw a join, or the gap that it left with a dot on either side; ``words`` stand beside it instead of ours."""
    state = "fitted" if jumper.fitted else REMOVED
    x = jumper.first.x + INSIDE * jumper.inward
    corners = (Point(x, jumper.first.y), Point(x, jumper.second.y))
    surface.begin({"data-jumper": f"{part}.{jumper.name}", "data-state": state}, f"jumper {jumper.name}, {state}")
    if jumper.fitted:
        surface.line((_edge(jumper.first, jumper), *corners, _edge(jumper.second, jumper)), MARK)
    else:
        middle = jumper.first.y + GRID
        upper, lower = Point(x, middle - GAP), Point(x, middle + GAP)
        surface.line((_edge(jumper.first, jumper), corners[0], upper), NOT_IN_USE)
        surface.line((lower, corners[1], _edge(jumper.second, jumper)), NOT_IN_USE)
        for end in (upper, lower):
            surface.circle(end, 2, None)
    shown = words or ("" if jumper.fitted else REMOVED)
    if shown:
        anchor: Anchor = "start" if jumper.inward > 0 else "end"
        at = Point(jumper.first.x + 52 * jumper.inward, jumper.first.y + GRID + 4)
        surface.text(Text(at, shown, SMALL, width_of(shown, SMALL), anchor))
    surface.end()


def _edge(screw: Point, jumper: DrawnJumper) -> Point:
    return Point(screw.x + 5 * jumper.inward, screw.y)
