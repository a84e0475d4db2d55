"""What the connection diagrams of the demos come to: crossings, bends, length, and how much one move changes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.surface.geometry import GRID, Point
from app.job.model import Layout
from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS, opened


def figures() -> Iterator[str]:
    """Yield the table of the two demos of the budget, then what moving each part by one step changes."""
    for name in (DUAL_FUEL, HUNDRED_PARTS):
        job = opened(name)
        layout = job.job.layouts[job.job.default_layout()]
        plan = plan_connection(layout, job.catalogue)
        yield f"{name}: {measures(plan)}"
        touched, others, changed = moves(layout, job.catalogue, plan, every=1 if name == DUAL_FUEL else 10)
        yield (
            f"{name}, one part moved by one step: of {others} routes of other parts {changed} change "
            f"({100 * changed / max(others, 1):.1f} %), beside {touched} of the part itself"
        )


def measures(plan: Plan) -> str:
    """Return crossings, bends, length and broken conductors in words."""
    pieces = [piece for course in plan.courses.values() for piece in course.pieces]
    bends = sum(len(piece) - 2 for piece in pieces)
    length = sum(abs(a.x - b.x) + abs(a.y - b.y) for piece in pieces for a, b in pairwise(piece))
    broken = sum(course.broken for course in plan.courses.values())
    return f"{len(plan.courses)} conductors, {plan.crossings} crossings, {bends} bends, {length} u, {broken} broken"


def moves(layout: Layout, catalogue: Catalogue, before: Plan, every: int) -> tuple[int, int, int]:
    """Return how many routes belong to a moved part, how many to others, and how many of those others changed."""
    touched = others = changed = 0
    for name in sorted(layout.parts)[::every]:
        at = before.boxes[name].box
        there = layout.parts[name].model_copy(update={"at": Point(at.x, at.y + GRID)})
        after = plan_connection(layout.model_copy(update={"parts": {**layout.parts, name: there}}), catalogue)
        own = {
            wire
            for wire, conductor in layout.conductors.items()
            if any(e.startswith(f"{name}.") for e in conductor.landed())
        }
        touched += len(own)
        others += len(layout.conductors) - len(own)
        changed += len(differing(before, after) - own)
    return touched, others, changed


def differing(before: Plan, after: Plan) -> set[str]:
    """Return the conductors that take another way."""
    return {wire for wire, course in before.courses.items() if after.courses[wire] != course}
