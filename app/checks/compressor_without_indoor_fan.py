"""The compressor runs and the indoor fan does not

What it checks
In each call that runs a compressor, whether an indoor fan of the same air stream runs too, where the layout has one.

Why it matters
Without moving air the indoor coil freezes in cooling, and in heating the refrigerant pressure climbs until the
high-pressure switch opens (common practice, no source).

What to do
Land the fan call from the control on the board, or let the control close the fan together with the compressor.

Limits
Whether the fan really turns is not known: a fan that is called counts as running. A layout in which nothing can move
the air is not judged, nor is a fan whose part is not wired yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.catalogue.spoken import upper_first
from app.checks.context import Called, CheckContext
from app.checks.facts.air import stranded_compressors
from app.checks.facts.probes import shown_at_part
from app.checks.facts.spoken import called_words
from app.checks.finding import Finding, Severity
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
    for called, part, fans in context.once(stranded_compressors):
        yield _finding(context, called, part, fans)


def _finding(context: CheckContext, called: Called, part: str, fans: Sequence[str]) -> Finding:
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{part}", *(f"part:{fan}" for fan in fans)),
        message=(
            f"{upper_first(called_words(context, called))} runs the compressor of {context.label_of(part)}, "
            f"and the fan of {' or '.join(context.label_of(fan) for fan in fans)} stands still."
            + _bare_outputs(context, called)
        ),
        why="Without moving air the coil freezes, or the pressure climbs until a safety opens.",
        situation=called.point.situation,
        evidence=shown_at_part(context, called, part),
    )


def _bare_outputs(context: CheckContext, called: Called) -> str:
    """Say which output for the fan has nothing landed on it, because that is where a person looks first."""
    bare = [each for each in context.outputs(called.control, "fan") if not context.wiring.landed_on(each)]
    return f" Nothing is landed on {context.name_of(bare[0])}." if bare else ""
