"""What the connection diagrams of the demos come to: crossings, bends, length, time, and what one move changes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from app.catalogue.opening import Opened
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.drawing.connection.diagram import draw_connection
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.connection.region_routes import route_plot
from app.explain.roles import roles_of
from app.tables.wire_rows import roles_in
from tests.drawing.moves import moves
from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS, opened
from tests.figures.measure import timed


def figures() -> Iterator[str]:
    """Yield the table of the two demos of the budget, then what moving each part by one step changes."""
    for name in (DUAL_FUEL, HUNDRED_PARTS):
        job = opened(name)
        layout = job.job.layouts[job.job.default_layout()]
        plan = plan_connection(layout, job.catalogue)
        yield f"{name}: {measures(plan)}"
        yield f"{name} drawn with no route and no role kept: {timed(partial(drawn_anew, job)).ms()}"
        yield f"{name} drawn again: {timed(partial(drawn_again, job)).ms()}"
        found = list(moves(layout, job.catalogue, every=1 if name == DUAL_FUEL else 10))
        others, changed = sum(len(move.others) for move in found), sum(len(move.changed) for move in found)
        away, far = sum(len(move.away) for move in found), sum(len(move.away & move.changed) for move in found)
        yield (
            f"{name}, one part moved by one step: of {others} routes of other parts {changed} change "
            f"({100 * changed / max(others, 1):.1f} %); of {away} away from its channels {far}"
        )


def drawn_anew(job: Opened) -> str:
    """Draw a job as if nothing had been drawn before, with what each conductor is for worked out anew too."""
    route_plot.cache_clear()
    layout = job.job.default_layout()
    circuit = build_circuit(job.job.layouts[layout], job.catalogue)
    points = solve_all(circuit, situations_of(circuit.layout, job.catalogue))
    roles = roles_of(circuit.layout, job.catalogue, circuit, points)
    return draw_connection(job.job, layout, job.catalogue, roles=roles)


def drawn_again(job: Opened) -> str:
    """Draw it as after a change elsewhere, with the routes and roles that are kept."""
    layout = job.job.default_layout()
    roles = roles_in(build_circuit(job.job.layouts[layout], job.catalogue))
    return draw_connection(job.job, layout, job.catalogue, roles=roles)


def measures(plan: Plan) -> str:
    """Return crossings, bends, length and broken conductors in words."""
    pieces = [piece for course in plan.courses.values() for piece in course.pieces]
    bends = sum(len(piece) - 2 for piece in pieces)
    length = sum(abs(a.x - b.x) + abs(a.y - b.y) for piece in pieces for a, b in pairwise(piece))
    broken = sum(course.broken for course in plan.courses.values())
    return f"{len(plan.courses)} conductors, {plan.crossings} crossings, {bends} bends, {length} u, {broken} broken"
