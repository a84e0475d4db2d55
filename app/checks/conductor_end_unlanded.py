"""A conductor is landed at one end only

What it checks
Conductors of which one end is on a terminal and the other on nothing. A conductor that is landed nowhere is a spare
and is not named.

Why it matters
The loose end of a conductor that is live touches something one day: metal, common, another lead. And somebody once
landed the other end for a reason.

What to do
Land the loose end where it belongs, or take the conductor off its terminal as well and cap both ends as a spare.

Limits
An end that was not seen is no loose end; it is told as a note, so that somebody goes and looks.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.probes import common_beside, measured
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import take_off
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling
from app.job.model import UnknownEnd

NAME = "conductor-end-unlanded"
SEVERITY: Severity = "warning"
TOGETHER = "{count} conductors go where nobody has looked: {names}."

GOOD = (
    Good("every-end-landed", gas_and_cooling()),
    Good("spare-landed-nowhere", gas_and_cooling({"w9": "- -"}), near_miss=True),
    Good("spare-not-seen-at-one-end", gas_and_cooling({"w9": "- ?"}), near_miss=True),
)
BAD = (
    Bad(
        "loose-at-the-thermostat",
        gas_and_cooling({"w9": "fb.C -"}),
        finds=(("conductor:w9", "terminal:fb.C"),),
        mended=gas_and_cooling({"w9": "- -"}),
    ),
    Bad(
        "loose-at-the-board",
        gas_and_cooling({"w6": "- tc.G"}),
        finds=(("conductor:w6", "terminal:tc.G"),),
        mended=gas_and_cooling({"w6": "- -"}),
    ),
    Bad(
        "other-end-not-seen",
        gas_and_cooling({"w9": "fb.C ?"}),
        finds=(("conductor:w9", "terminal:fb.C"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for name in sorted(context.layout.conductors):
        ends = context.layout.conductors[name].ends
        for index, end in enumerate(ends):
            other = ends[1 - index]
            if isinstance(end, str) and not isinstance(other, str):
                yield _unseen(context, name, end, other) if other else _loose(context, name, index, end)


def _loose(context: CheckContext, name: str, index: int, end: str) -> Finding:
    called = context.conductor_called(name)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"conductor:{name}", f"terminal:{end}"),
        message=f"{called} is landed on {context.name_of(end)} and at its other end on nothing.",
        why="A loose live end touches something one day; and somebody landed the other end for a reason.",
        evidence=_evidence(context, end),
        fix=take_off(context, name, index),
    )


def _unseen(context: CheckContext, name: str, end: str, other: UnknownEnd) -> Finding:
    called = context.conductor_called(name)
    return Finding(
        rule=NAME,
        severity="note",
        subjects=(f"conductor:{name}", f"terminal:{end}"),
        message=f"{called} is landed on {context.name_of(end)}; its other end was not seen ({other.unknown}).",
        brief=called,
        why="What it could start or stop is not known, and is not judged here.",
        assumes=(f"no short and no overload lies behind the end of {called} that was not seen ({other.unknown})",),
        evidence=_evidence(context, end),
    )


def _evidence(context: CheckContext, end: str) -> Evidence:
    common = common_beside(context, end)
    return Evidence() if common in (None, end) else measured(context, context.idle, end, common)
