"""A lead that only signals

What it checks
Conductors that come from an output which only carries a message, such as a fault or lock-out lamp: which they are, and
whether one of them is landed on a terminal that takes it for a call.

Why it matters
Such a lead is easily taken for a call, whatever its letter: it has 24 V on it at times. Landed on a call it starts
equipment when there is a fault; left out, nothing stops but a lamp stays dark. A W that comes from an outdoor unit is
usually no message but its defrost output, which does call for heat (common practice, no source).

What to do
Keep it on the terminal for the message at both ends, or cap it at both ends and tag it. Never land it on a call.

Limits
What an output is for is said by the kind of the part. A message over a data bus is not looked at.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.probes import common_beside, measured
from app.checks.facts.signals import Signal, signal_leads
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, heat_pump

NAME = "signal-lead"
SEVERITY: Severity = "note"
TOGETHER = "{count} leads only signal, they are no calls: {names}."

GOOD = (
    Good("no-lead-for-messages", heat_pump()),
    Good("defrost-output-is-a-call", dual_fuel({"w11": "ou.W fb.W"}), near_miss=True),
)
BAD = (
    Bad("fault-lead-to-the-lamp", heat_pump({"w12": "ou.L tc.L"}), finds=(("conductor:w12", "terminal:ou.L"),)),
    Bad(
        "fault-lead-on-a-call",
        heat_pump({"w12": "ou.L ah.W2"}),
        finds=(("conductor:w12", "terminal:ou.L", "terminal:ah.W2"),),
    ),
    Bad(
        "fault-lead-over-a-splice",
        dual_fuel({"w12": "ou.L sp.1", "w13": "sp.1 tc.L"}, {"sp": "splice"}),
        finds=(("conductor:w12", "conductor:w13", "terminal:ou.L"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for signal in context.once(signal_leads):
        called = " and ".join(context.conductor_called(name) for name in signal.conductors)
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(
                *(f"conductor:{name}" for name in signal.conductors),
                f"terminal:{signal.output}",
                *(f"terminal:{each}" for each in signal.calls),
            ),
            message=_words(context, signal, called),
            brief=called,
            why="It has 24 V on it at times and is easily taken for a call.",
            situation=context.idle.situation,
            evidence=_evidence(context, signal),
        )


def _words(context: CheckContext, signal: Signal, called: str) -> str:
    only = f"{called}, from {context.name_of(signal.output)}, only {'signal' if ' and ' in called else 'signals'}"
    if not signal.calls:
        return f"{only}: a message, not a call. Nothing runs by it."
    taken = " and ".join(context.name_of(each) for each in signal.calls)
    return f"{only}, but {taken} takes it for a call: what it works would run on a fault."


def _evidence(context: CheckContext, signal: Signal) -> Evidence:
    """With no fault there are no volts on it."""
    common = common_beside(context, signal.output)
    return Evidence() if common is None else measured(context, context.idle, signal.output, common)
