"""A safety sits in the common lead

What it checks
Whether the contact of a safety (a float switch, a pressure switch, a limit) lies between what it is to stop and the
common of the transformer, instead of in the hot side.

Why it matters
Open, it leaves the hot side on the load. Where common is grounded, a conductor that touches metal behind the safety is
a new way back, and the load runs on with the safety open. Parts that share the opened common are then fed through
each other with part of the volts (Kirchhoff's laws; that no contact belongs between a coil and the grounded common is
a rule of industrial control standards, from memory).

What to do
Join the common again without the safety, and let the safety open the call or the supply of what it is to stop.

Limits
Only safeties with a terminal on either side are judged: what lies inside a part is as its maker made it. Whether the
common is grounded is known only where the drawing says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.bypass import safety_contacts, wired_across
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join
from app.checks.facts.probes import measured, supply_beside
from app.checks.facts.strain import bridges
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

NAME = "safety-in-common-leg"
SEVERITY: Severity = "warning"

_FLOAT = {"fl": "float-switch"}

GOOD = (
    Good("float-in-the-call", gas_and_cooling({"w7": "fb.Y fl.A", "w9": "fl.B ou.Y"}, _FLOAT)),
    Good("float-in-the-supply", gas_and_cooling({"w3": "fb.R fl.A", "w9": "fl.B tc.R"}, _FLOAT), near_miss=True),
    Good("one-lead-of-the-float-on-common", gas_and_cooling({"w9": "fb.C fl.A"}, _FLOAT), near_miss=True),
)
BAD = (
    Bad(
        "float-in-the-common-of-the-outdoor-unit",
        gas_and_cooling({"w8": "fb.C fl.A", "w9": "fl.B ou.C"}, _FLOAT),
        finds=(("element:fl.float_c", "part:ou"),),
    ),
    Bad(
        "float-in-the-common-of-the-transformer",
        heat_pump({"w2": "xf.C fl.A", "w12": "fl.B ah.C"}, _FLOAT),
        finds=(("element:fl.float_c", "part:ah", "part:ou", "part:tc"),),
    ),
)


@dataclass(frozen=True, slots=True)
class _InCommon:
    """A safety in a common lead, its side away from the source, and the parts that return through it."""

    contact: Join
    switch: str
    behind: str
    parts: tuple[str, ...]


def check(context: CheckContext) -> Iterable[Finding]:
    across = context.once(wired_across)
    for join, switch in context.once(safety_contacts):
        if join not in across and _is_between_terminals(context, join):
            found = _in_common(context, join, switch)
            if found is not None and found.parts:
                yield _finding(context, found)


def _is_between_terminals(context: CheckContext, join: Join) -> bool:
    return all(side in context.terminals and context.wiring.landed_on(side) for side in (join.a, join.b))


def _in_common(context: CheckContext, join: Join, switch: str) -> _InCommon | None:
    """Return what a safety cuts off from common: it lies on a source's common side, and one side of it only by it."""
    bridged = {bridge.winding.name for bridge in context.once(bridges)}
    for winding in context.windings:
        if winding.name in bridged or not context.at_rest.same(join.a, winding.common):
            continue
        without = Islands([each for each in context.at_rest.added if each != join], context.wired)
        cut_off = [side for side in (join.a, join.b) if not without.same(side, winding.common)]
        if len(cut_off) == 1:
            returning = (node for node in without.members(cut_off[0]) if context.function_of(node) == "common")
            parts = {part_of(node) for node in returning} & context.wired_parts
            return _InCommon(join, switch, cut_off[0], tuple(sorted(parts)))
    return None


def _finding(context: CheckContext, found: _InCommon) -> Finding:
    labels = [context.label_of(part) for part in found.parts]
    safety = context.wiring.kinds[found.contact.part].switches[found.switch].use or found.switch
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(found.contact.by, *(f"part:{part}" for part in found.parts)),
        message=(
            f"{context.label_of(found.contact.part)} ({safety}) opens the common of {' and '.join(labels)} "
            f"and not the hot side."
        ),
        why="Open, it leaves 24 V on the load, and a conductor that touches metal is a new way back past it.",
        situation=_telling_point(context, found).situation,
        assumes=context.unseen_from((found.behind,)),
        evidence=_evidence(context, found),
    )


def _telling_point(context: CheckContext, found: _InCommon) -> OperatingPoint:
    """Return the first call in which the safety carries current, else idle."""
    name = f"{found.contact.part}.{found.contact.inner}"
    points = context.points_of(found.contact.part)
    return next((point for point in points[1:] if point.elements[name].amps > 0.01), context.idle)


def _evidence(context: CheckContext, found: _InCommon) -> Evidence:
    """In a call a meter from the supply to the safety reads the full 24 V; in the hot side it would read none."""
    point = _telling_point(context, found)
    supply = supply_beside(context, found.behind)
    other = supply or next(side for side in (found.contact.a, found.contact.b) if side != found.behind)
    return measured(context, point, found.behind, other)
