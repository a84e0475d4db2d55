"""A source is more than a Class 2 source may be

What it checks
For each source the most volts that it ever has, which it has with nothing on it, against 30 V, and the volt-amperes
of its nameplate against 100 VA.

Why it matters
The wire, the cable and the way in which 24 V controls are run count on Class 2: so little that a fault neither hurts
nor sets fire. NEC chapter 9 table 11(A) draws the line at 30 V and, above 20 V, at 100 VA on the nameplate (both seen
in secondary text); up to 20 V at 5 VA for each volt (from memory). Vmax is the highest volts at the rated line,
whatever the load, so that the open circuit counts (note 1 to the table, seen).

What to do
Fit a transformer that is marked Class 2. Where so much is asked, divide the load over several of them that are kept
apart. Or run everything behind it by the rules of Class 1.

Limits
Two sources that are joined are more than either, and are told as joined; one on the wrong tap is told as that. What a
source gives into a short is not computed here: the model is for loads.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.checks.context import CheckContext
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Winding
from app.checks.facts.probes import measured
from app.checks.facts.secondary import CLASS_2_VOLTS, ends_of, most_va, open_volts, wrongly_tapped
from app.checks.facts.strain import rated_va
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, gas_and_cooling, heat_pump

NAME = "class-2-exceeded"
SEVERITY: Severity = "warning"


def _with(**settings: object) -> Parts:
    return {"xf": {"kind": "control-transformer", "settings": settings}}


_LARGE = {
    "large-transformer": {
        "title": "Large transformer",
        "summary": "Invented for the example.",
        "terminals": {
            "R": {"function": "supply", "use": "24 V supply"},
            "C": {"function": "common", "use": "common"},
        },
        "elements": {
            "secondary": {
                "is": "source",
                "between": ["R", "C"],
                "va": 150.0,
                "limiting": "inherent",
                "basis": "invented for the demo",
            }
        },
    }
}

GOOD = (
    Good("forty-va", gas_and_cooling()),
    Good("thirty-volts-and-no-more", heat_pump(parts=_with(regulation=0.25)), near_miss=True),
)
BAD = (
    Bad(
        "above-thirty-volts-with-nothing-on-it",
        gas_and_cooling(parts=_with(regulation=0.3)),
        finds=(("element:xf.secondary",),),
    ),
    Bad(
        "a-hundred-and-fifty-va",
        heat_pump(parts={"xf": "large-transformer"}),
        finds=(("element:xf.secondary",),),
        kinds=_LARGE,
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for winding in context.windings:
        over = "; ".join(_excesses(context, winding))
        if not over or winding.name in context.once(tied_names) | context.once(wrongly_tapped):
            continue
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"element:{winding.name}",),
            message=f"{context.label_of(winding.part)} is more than Class 2: {over}.",
            why="What is wired for Class 2 counts on a source that neither hurts nor sets fire.",
            situation=context.idle.situation,
            evidence=_evidence(context, winding),
        )


def _excesses(context: CheckContext, winding: Winding) -> Iterator[str]:
    volts, va = open_volts(context, winding), rated_va(context, winding)
    if volts > CLASS_2_VOLTS * (1 + 1e-9):
        yield f"it has {volts:.1f} V with nothing on it, where {CLASS_2_VOLTS:g} V are the most"
    if va > most_va(volts) * (1 + 1e-9):
        yield f"its nameplate says {va:g} VA, where {most_va(volts):.0f} VA are the most"


def _evidence(context: CheckContext, winding: Winding) -> Evidence:
    volts = open_volts(context, winding)
    more = {
        "volts_open": volts,
        "volts_most": CLASS_2_VOLTS,
        "va_rated": rated_va(context, winding),
        "va_most": most_va(volts),
    }
    ends = ends_of(context, winding)
    return measured(context, context.idle, *ends, more) if ends else Evidence(more=more)
