"""A coil has too many volts

What it checks
The volts on each coil that has pulled in, at the rated supply, in each call, against 110 % of those that it is made
for.

Why it matters
A contactor coil is made for up to 110 % of its volts, 26.4 V of 24 V (IEC 60947-4-1, from memory); a solenoid valve
for less (105 % in a federal guide specification). Its heat goes with the square of the volts: at 120 % it is nearly
half as much again, and its insulation ages by it.

What to do
Measure the secondary under load. A small load on a large transformer rides near its open-circuit volts: fit a smaller
one, or one with less rise from full load to no load. Look at the primary tap.

Limits
At the rated supply and under load only: a secondary of 24 V that reads 26 to 29 V with nothing on it is as it should
be. A source on the wrong tap, or of more than 30 V, is told as that.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.fed import Fed, fed_coils, leads_of, rated_coil_volts
from app.checks.facts.probes import call_text, measured
from app.checks.facts.secondary import CLASS_2_VOLTS, open_volts, wrongly_tapped
from app.checks.facts.spoken import device_words, when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, boiler_zone, dual_fuel

NAME = "coil-volts-high"
SEVERITY: Severity = "warning"

MOST_SHARE = 1.10
"""The most volts on a coil, as a share of its own (IEC 60947-4-1, from memory)."""


def _with(**settings: object) -> Parts:
    return {"xf": {"kind": "control-transformer", "settings": settings}}


GOOD = (
    Good("as-it-comes", dual_fuel()),
    Good("above-only-with-nothing-on-it", boiler_zone(parts=_with(va=20, regulation=0.15)), near_miss=True),
)
BAD = (
    Bad(
        "a-valve-and-a-relay-on-a-large-transformer",
        boiler_zone(
            {"w6": "tc.W ir.A1", "w7": "ir.A2 xf.C"}, {**_with(va=75, regulation=0.15), "ir": "isolation-relay"}
        ),
        finds=(("element:xf.secondary", "element:ir.coil", "element:zv.motor"),),
    ),
    Bad(
        "one-zone-valve-on-seventy-five-va",
        boiler_zone(parts=_with(va=75, regulation=0.2)),
        finds=(("element:xf.secondary", "element:zv.motor"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    by_source: dict[str, dict[str, Fed]] = {}
    for fed in context.once(fed_coils):
        if fed.pulled_in and fed.volts > MOST_SHARE * rated_coil_volts(context, fed) * (1 + 1e-9):
            highest = by_source.setdefault(fed.winding.name, {})
            before = highest.get(fed.device.name)
            highest[fed.device.name] = fed if before is None or fed.volts > before.volts + 1e-9 else before
    for source, coils in by_source.items():
        first = min(coils.values(), key=lambda fed: (-round(_share(context, fed), 9), fed.device.name))
        if source in context.once(wrongly_tapped) or open_volts(context, first.winding) > CLASS_2_VOLTS * (1 + 1e-9):
            continue
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"element:{source}", *(f"element:{name}" for name in sorted(coils))),
            message=_words(context, first, len(coils) - 1),
            why="A coil on too many volts runs hot: its heat goes with their square, and its insulation ages by it.",
            situation=first.point.situation,
            evidence=_evidence(context, first),
        )


def _share(context: CheckContext, fed: Fed) -> float:
    return fed.volts / rated_coil_volts(context, fed)


def _words(context: CheckContext, fed: Fed, others: int) -> str:
    rated = rated_coil_volts(context, fed)
    beside = "" if not others else f" So have {others} others." if others > 1 else " So has one other."
    return (
        f"The {device_words(context, fed.device)} has {fed.volts:.1f} V "
        f"{when_words(context, fed.point)}; {MOST_SHARE * rated:.1f} V are the most for a coil of {rated:g} V.{beside}"
    )


def _evidence(context: CheckContext, fed: Fed) -> Evidence:
    rated = rated_coil_volts(context, fed)
    more = {"volts_on_coil": fed.volts, "volts_rated": rated, "volts_most": MOST_SHARE * rated}
    ends = leads_of(context, fed)
    return measured(context, fed.point, *ends, more) if ends else Evidence(call=call_text(fed.point), more=more)
