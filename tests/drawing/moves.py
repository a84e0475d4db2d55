"""Each part moved by one step of the grid to each side, and which conductors then take another way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.surface.geometry import GRID, Point
from app.job.model import Layout
from tests.drawing.channels import in_channels_of, landed_on

STEPS = ((GRID, 0), (0, GRID), (-GRID, 0), (0, -GRID))


class Move(NamedTuple):
    """What one move of a ``part`` by a ``step`` comes to, in ids of conductors.

    ``others`` are landed on no part that moved, ``away`` those of them that run in no channel that it left or entered,
    ``changed`` those of them that take another way.
    """

    part: str
    step: tuple[int, int]
    others: frozenset[str]
    away: frozenset[str]
    changed: frozenset[str]


def moves(layout: Layout, catalogue: Catalogue, every: int = 1) -> Iterator[Move]:
    """Yield every move of every part, or of ``every`` so many."""
    before = plan_connection(layout, catalogue)
    for part in sorted(layout.parts)[::every]:
        for step in STEPS:
            yield _moved(before, catalogue, part, step)


def _moved(before: Plan, catalogue: Catalogue, part: str, step: tuple[int, int]) -> Move:
    layout, box = before.layout, before.boxes[part].box
    there = layout.parts[part].model_copy(update={"at": Point(box.x + step[0], box.y + step[1])})
    after = plan_connection(layout.model_copy(update={"parts": {**layout.parts, part: there}}), catalogue)
    # A part that stood in the way gives way, and has moved as well.
    moved = [name for name, each in before.boxes.items() if after.boxes[name].box != each.box]
    landed = {wire for wire, conductor in layout.conductors.items() if conductor.landed()}
    others = landed - landed_on(before, moved)
    return Move(
        part,
        step,
        frozenset(others),
        frozenset(others - in_channels_of(before, moved) - in_channels_of(after, moved)),
        frozenset(wire for wire in others if after.courses[wire] != before.courses[wire]),
    )
