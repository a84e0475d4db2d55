"""A thermostat that needs power has no common

What it checks
A control that stays awake by 24 V between its supply and its common, has no battery, and whose common terminal no wire
takes to the common of the source that feeds it.

Why it matters
Asleep it closes nothing: no call reaches the equipment, whatever its display last showed. Some take a trickle through
the equipment's coils instead, which works only while too small to work them (calculated from the circuit).

What to do
Land a spare conductor of the cable on common at both ends. With no spare: a control with a battery, or the known way
out of a four-wire house (Y and G joined at the board, the freed conductor as common; fan alone is then lost).

Limits
Whether the battery is good is not known. A common that is landed on a load is told as power through loads. Controls
of contacts only need no common and are never named.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.commons import is_control_alone, missing_commons
from app.checks.facts.trickle import trickles
from app.checks.facts.way_back import fix_of, shown_at, ways_back_words
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, heat_pump
from app.job.names import letter_of, part_of

NAME = "thermostat-without-common"
SEVERITY: Severity = "warning"

_BATTERY = {"tc": {"kind": "thermostat-heat-pump", "settings": {"battery": True}}}

GOOD = (
    Good("common-landed", heat_pump()),
    Good("contacts-only", gas_and_cooling(), near_miss=True),
    Good("battery-instead-of-common", heat_pump({"w4": None}, _BATTERY), near_miss=True),
)
BAD = (
    Bad(
        "no-common-lead",
        heat_pump({"w4": None}),
        finds=(("part:tc", "terminal:tc.C"),),
        mended=heat_pump({"w4": None, "w-mended": "tc.C ah.C"}),
    ),
    Bad(
        "common-loose-in-the-wall",
        dual_fuel({"w4": "fb.C -"}),
        finds=(("part:tc", "terminal:tc.C"),),
        mended=dual_fuel(),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    through_loads = [trickle.missing for trickle in context.once(trickles)]
    for missing in context.once(missing_commons):
        if is_control_alone(context, missing) and missing not in through_loads:
            first = missing.terminals[0]
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"part:{part_of(first)}", *(f"terminal:{terminal}" for terminal in missing.terminals)),
                message=(
                    f"{context.label_of(part_of(first))} has no common: "
                    f"nothing joins its {letter_of(first)} with {ways_back_words(context, missing)}."
                ),
                why="Without power it sleeps and closes nothing, so that no call reaches the equipment.",
                assumes=context.unseen_from(missing.nodes),
                evidence=shown_at(context, missing),
                fix=fix_of(context, missing),
            )
