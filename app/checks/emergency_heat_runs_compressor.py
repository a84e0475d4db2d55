"""Emergency heat runs the compressor

What it checks
Whether a call for emergency heat runs the compressor of a heat pump.

Why it matters
Emergency heat is chosen because the outdoor unit must stay off: it is broken, iced up, or out of refrigerant. The
compressor is bypassed and the auxiliary heat carries the house alone (military technical manual, published, seen).

What to do
Follow the output for auxiliary or emergency heat: it leads to the call for the compressor as well. Take off the wire
that is named, or part the two calls.

Limits
A compressor that runs with no call at all is told elsewhere, and so is one that runs together with a furnace, or with
auxiliary heat in a call for cooling too: one wire, one finding. A compressor that its own control starts is not on the
drawing.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import upper_first
from app.checks.context import Called, CheckContext
from app.checks.facts.air import stray_effects
from app.checks.facts.astray import culprits, mixed_calls, movable
from app.checks.facts.inside import BURNING
from app.checks.facts.probes import shown_at_effect
from app.checks.facts.silence import falling_short
from app.checks.facts.spoken import called_words
from app.checks.facts.strain import is_calm
from app.checks.facts.valves import COOL_CALLS
from app.checks.finding import Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, heat_pump

NAME = "emergency-heat-runs-compressor"
SEVERITY: Severity = "warning"

_BANKS = {"w12": "ah.W1 ah.W2"}

GOOD = (
    Good("compressor-off-in-emergency-heat", heat_pump()),
    Good("furnace-alone-in-emergency-heat", dual_fuel()),
    Good("both-banks-of-heat-joined", heat_pump(_BANKS), near_miss=True),
)
BAD = (
    Bad(
        "emergency-output-on-the-outdoor-unit",
        heat_pump({"w12": "tc.E ou.Y"}),
        finds=(("part:ou", "conductor:w12"),),
        mended=heat_pump(),
    ),
    Bad(
        "joined-at-the-thermostat",
        heat_pump({"w12": "tc.E tc.Y"}),
        finds=(("part:ou", "conductor:w12"),),
        mended=heat_pump(),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for called in context.called:
        if called.call == "emergency-heat":
            for part in _compressors(context, called):
                yield _finding(context, called, part)


def _compressors(context: CheckContext, called: Called) -> list[str]:
    """Return what runs a compressor now, apart from what runs anyway or is told of by another rule."""
    running = called.point.runs("compressor")
    if not running or not is_calm(context, called.point, called.control):
        return []
    if any(each.called.control == called.control for each in context.once(falling_short)):
        return []
    stray = context.once(stray_effects)
    air_of = context.layout.parts
    furnaces = {air_of[part].air for part in called.point.runs("furnace-heat")}
    mixed = {each.cooler for each in context.once(mixed_calls)}
    return [
        part
        for part in running
        if (part, "compressor") not in stray and air_of[part].air not in furnaces and part not in mixed
    ]


def _finding(context: CheckContext, called: Called, part: str) -> Finding:
    heats = [each for each in called.point.effects if each[1] in BURNING]
    found = culprits(context, called, (part, "compressor"), heats[0], COOL_CALLS | {"heat-1"}) if heats else ()
    wires = movable(found)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{part}", *(join.by for join in wires)),
        message=f"{upper_first(called_words(context, called))} runs the compressor of {context.label_of(part)}.",
        why="Emergency heat is chosen because the outdoor unit must stay off.",
        situation=called.point.situation,
        evidence=shown_at_effect(context, called, part, "compressor"),
        fix=undo_join(context, wires[0]) if len(wires) == 1 else None,
    )
