"""Each part moved by one step of the grid to each side, and which conductors then take another way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.surface.geometry import GRID, Point
from app.job.model import Layout
from tests.drawing.channels import beside, in_channels_of, landed_on

STEPS = ((GRID, 0), (0, GRID), (-GRID, 0), (0, -GRID))


class Move(NamedTuple):
    """What one move of a ``part`` by a ``step`` comes to, in ids of conductors.

    ``others`` are landed on no part that moved, ``away`` those of them that run in no channel that it left or entered,
    ``changed`` those of them that take another way. ``reached`` are those of the changed ones to which the change is
    handed on: from the part to lines in its channels, and from each line that changed to lines in a channel with it.
    """

    part: str
    step: tuple[int, int]
    others: frozenset[str]
    away: frozenset[str]
    changed: frozenset[str]
    reached: frozenset[str]


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
    away = others - in_channels_of(before, moved) - in_channels_of(after, moved)
    changed = {wire for wire in others if after.courses[wire] != before.courses[wire]}
    return Move(
        part,
        step,
        frozenset(others),
        frozenset(away),
        frozenset(changed),
        frozenset(_handed_on(changed, away, before, after)),
    )


def _handed_on(changed: set[str], away: set[str], before: Plan, after: Plan) -> set[str]:
    """Return which changed lines are reached from those near the part, from one changed line to the next."""
    reached = changed - away
    waiting = list(reached)
    while waiting and reached != changed:
        wire = waiting.pop()
        new = (beside(before, wire) | beside(after, wire)) & changed - reached
        reached |= new
        waiting += new
    return reached
