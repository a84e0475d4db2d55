"""A coil has too few volts to pull in

What it checks
Each coil that a call feeds is looked at in the moment in which it pulls in, when it takes its inrush: the volts that
are left for it behind the winding and the run out and back. Below the volts from which it is sure to pull in (85 % of
its own, as a rule) it is a warning, and so is a coil that is fed and does not pull in, at the rated supply or at
88 % of it. A coil that pulls in at 88 %, but on clearly fewer volts than make it sure (by 5 % or more), is a note.

Why it matters
A contactor is made to close reliably from 85 % of its volts, 20.4 V of 24 V (IEC 60947-4-1, from memory; a federal
guide specification gives the same for solenoid valves). Below that it may hum instead of closing, and the inrush, which
lasts only as long as it does not close, burns the coil. The ohms of a long or thin run and of a small transformer are
met by the inrush, which is several times what the coil takes later: a meter that is read at leisure shows enough.
88 % is near the lowest that a supply comes to (106 V of 120 V, ANSI C84.1, from memory).

What to do
Run heavier wire or a shorter way, land two cores side by side, or let a relay near the equipment do the switching. If
the transformer itself sags, fit a larger one of the same class or take load off it.

Limits
One coil pulls in at a time, with everything else at work; real coils of one call start together for a moment and the
last one gets what is said here. Figures of kinds are generic, lengths are those of the job, copper is at 20 °C.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import upper_first
from app.checks.context import CheckContext
from app.checks.facts.fed import leads_of, rated_coil_volts
from app.checks.facts.probes import call_text, measured
from app.checks.facts.spoken import device_words, when_words
from app.checks.facts.weak import LOW_PERCENT, Weak, run_cure_words, weak_coils
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, with_wires

NAME = "coil-volts-low"
SEVERITY: Severity = "warning"
TOGETHER = "At the lowest supply {count} coils are not sure to pull in: {names}."

GOOD = (
    Good("no-lengths-given", gas_and_cooling()),
    Good(
        "thirty-metres-of-the-usual-gauge",
        with_wires(gas_and_cooling(), "w7 w8", length_m=30.0, size_awg=18),
        near_miss=True,
    ),
    Good("long-and-heavy", with_wires(gas_and_cooling(), "w7 w8", length_m=75.0, size_awg=14), near_miss=True),
)
BAD = (
    Bad(
        "sixty-metres-of-thin-wire",
        with_wires(gas_and_cooling(), "w7 w8", length_m=60.0, size_awg=22),
        finds=(("element:ou.contactor", "conductor:w7", "conductor:w8"),),
    ),
    Bad(
        "so-long-that-it-does-not-pull-in",
        with_wires(dual_fuel(), "w5 w10", length_m=100.0, size_awg=24),
        finds=(("element:ou.contactor", "element:ou.reversing_valve", "conductor:w10", "conductor:w5"),),
    ),
    Bad(
        "fine-but-for-the-lowest-supply",
        with_wires(gas_and_cooling(), "w7 w8", length_m=52.0, size_awg=20),
        finds=(("element:ou.contactor", "conductor:w7", "conductor:w8"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for weak in context.once(weak_coils):
        names = (weak.fed.device.name, *(fed.device.name for fed in weak.beside))
        yield Finding(
            rule=NAME,
            severity="note" if weak.only_unsure else SEVERITY,
            subjects=(*(f"element:{name}" for name in names), *(f"conductor:{name}" for name in weak.run.names())),
            message=f"{_what(context, weak)} {_cure(context, weak)}",
            brief=_coil(context, weak),
            why="A coil that is not sure to pull in hums, chatters its contacts and burns on its inrush.",
            situation=weak.shown.situation,
            evidence=_evidence(context, weak),
        )


def _coil(context: CheckContext, weak: Weak) -> str:
    return f"the {device_words(context, weak.fed.device)}"


def _what(context: CheckContext, weak: Weak) -> str:
    coil = upper_first(_coil(context, weak))
    supply = f" at {LOW_PERCENT:g} % of the supply" if weak.at_low_supply() else ""
    sure = f"it is sure to from {weak.least_volts:.1f} V"
    when = when_words(context, weak.fed.point)
    if weak.pulls_in:
        return f"{coil} has {weak.pull_in.volts:.1f} V{supply} to pull in {when}; {sure}."
    return f"{coil} has {weak.pull_in.volts:.1f} V{supply} {when} and does not pull in; {sure}."


def _cure(context: CheckContext, weak: Weak) -> str:
    pull_in = weak.pull_in
    lost = f"Its run then loses {pull_in.source_volts - pull_in.volts:.1f} V of {pull_in.source_volts:.1f} V"
    return f"{lost}; {run_cure_words(context, weak.run, pull_in.ohms_for)}."


def _evidence(context: CheckContext, weak: Weak) -> Evidence:
    """The volts of the settled call: a meter shows those of the inrush only if it holds the least that it saw."""
    fed = weak.fed
    more = {
        "volts_to_pull_in": weak.pull_in.volts,
        "volts_guaranteed": weak.least_volts,
        "volts_rated": rated_coil_volts(context, fed),
        "run_ohms": weak.run.ohms(),
        "run_ohms_that_would_do": max(0.0, weak.pull_in.ohms_for),
    }
    ends = leads_of(context, fed)
    return measured(context, weak.shown, *ends, more) if ends else Evidence(call=call_text(weak.shown), more=more)
