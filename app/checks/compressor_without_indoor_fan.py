"""The compressor runs and the indoor fan does not

What it checks
In each call that runs a compressor, whether an indoor fan of the same air stream runs too, where the layout has one.

Why it matters
Without moving air the indoor coil freezes in cooling, and in heating the refrigerant pressure climbs until the
high-pressure switch opens (handbook 15, common practice).

What to do
Land the fan call from the control on the board, or let the control close the fan together with the compressor.

Limits
Whether the fan really turns is not known: a fan that is called counts as running. A layout in which nothing can move
the air is not judged, nor is a fan whose part is not wired yet.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import Called, CheckContext
from app.checks.facts.commons import parts_without_common
from app.checks.facts.probes import common_beside, measured
from app.checks.facts.strain import is_calm
from app.checks.facts.supplies import parts_without_supply
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump

NAME = "compressor-without-indoor-fan"
SEVERITY: Severity = "warning"

_ATTIC = {
    "fb": {"kind": "furnace-board", "air": "ground floor"},
    "ou": {"kind": "condensing-unit", "air": "attic"},
}

GOOD = (
    Good("fan-called-with-cooling", gas_and_cooling()),
    Good("fan-joined-with-cooling-at-the-board", gas_and_cooling({"w6": None, "w9": "fb.Y fb.G"}), near_miss=True),
    Good("no-fan-in-this-air", gas_and_cooling({"w6": None}, _ATTIC), near_miss=True),
)
BAD = (
    Bad(
        "fan-lead-missing",
        gas_and_cooling({"w6": None}),
        finds=(("part:ou", "part:fb"),),
    ),
    Bad(
        "fan-lead-on-the-wrong-screw",
        heat_pump({"w7": "tc.G ah.O"}),
        finds=(("part:ou", "part:ah"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    troubled = context.once(parts_without_common) | context.once(parts_without_supply)
    for called in context.called:
        if not is_calm(context, called.point):
            continue
        for part in called.point.runs("compressor"):
            fans = [fan for fan in _fans_in_air_of(context, part) if fan not in troubled]
            runs_at_rest = (part, "compressor") in context.idle.effects
            if fans and not runs_at_rest and not set(fans) & set(called.point.runs("indoor-fan")):
                yield _finding(context, called, part, fans)


def _fans_in_air_of(context: CheckContext, part: str) -> list[str]:
    air = context.layout.parts[part].air
    return [
        other
        for other in sorted(context.wired_parts)
        if context.layout.parts[other].air == air
        and "indoor-fan" in (context.wiring.kinds[other].effects if other in context.wiring.kinds else ())
    ]


def _finding(context: CheckContext, called: Called, part: str, fans: list[str]) -> Finding:
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{part}", *(f"part:{fan}" for fan in fans)),
        message=(
            f"The call {called.text()} runs the compressor of {context.label_of(part)}, "
            f"and the fan of {' or '.join(context.label_of(fan) for fan in fans)} stands still."
        ),
        why="Without moving air the coil freezes, or the pressure climbs until a safety opens.",
        situation=called.point.situation,
        evidence=_evidence(context, called, part),
    )


def _evidence(context: CheckContext, called: Called, part: str) -> Evidence:
    """At the outdoor unit 24 V stands on the call for the compressor while no air moves indoors."""
    for terminal in context.wiring.terminals_of(part):
        common = common_beside(context, terminal)
        if context.function_of(terminal) == "call" and common is not None and context.wiring.landed_on(terminal):
            return measured(context, called.point, terminal, common)
    return Evidence(call=called.text())
