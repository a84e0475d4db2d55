"""The colour of a conductor says something else than it does

What it checks
The colour of each conductor against what it does: a red, green, yellow or orange one on common, a blue one on what is
hot, a core that has changed colours with another of its cable, and green and yellow on anything but protective earth.

Why it matters
Colours mean nothing to the circuit and are never relied on here. But people rely on them: whoever takes red for 24 V
and blue for common, as is customary (common practice, no source), lands the one on the other some day. Green with
yellow is reserved for protective earth (IEC 60757 and IEC 60445).

What to do
Tag the conductor at both ends with what it does, and say so in its note; or use the customary core.

Limits
Only what misleads outright is told. A cable of two cores has no choice: red for a call and white for common pass, and
so does green for common in a cable of three. A conductor with a note counts as labelled. What nothing is known of is
not judged.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.colours import ROLE_WORDS, WORDS, Misled, misleading_colours
from app.checks.facts.probes import common_beside, measured, supply_beside
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, heat_pump, with_wires
from app.job.model import Cable, Layout

NAME = "insulation-misleads"
SEVERITY: Severity = "note"
TOGETHER = "The colours of {count} conductors say something else than they do: {names}."


def _in_cable(layout: Layout, colours: dict[str, str]) -> Layout:
    """Put conductors into one cable, each with its colour."""
    for name, colour in colours.items():
        layout = with_wires(layout, name, cable="cb1", insulation=colour)
    return layout.model_copy(update={"cables": {"cb1": Cable()}})


GOOD = (
    Good("customary", _in_cable(gas_and_cooling(), {"w3": "RD", "w4": "WH", "w5": "YE", "w6": "GN"})),
    Good("two-cores-to-the-unit", _in_cable(gas_and_cooling(), {"w7": "RD", "w8": "WH"}), near_miss=True),
    Good("red-on-common-but-labelled", with_wires(gas_and_cooling(), "w8", insulation="RD", note="common")),
)
BAD = (
    Bad("red-on-common", with_wires(gas_and_cooling(), "w8", insulation="RD"), finds=(("conductor:w8",),)),
    Bad("blue-on-the-fan-call", with_wires(heat_pump(), "w7", insulation="BU"), finds=(("conductor:w7",),)),
    Bad(
        "yellow-and-green-have-changed-places",
        _in_cable(dual_fuel(), {"w3": "RD", "w5": "GN", "w7": "YE"}),
        finds=(("conductor:w5", "conductor:w7"), ("conductor:w7", "conductor:w5")),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for misled in context.once(misleading_colours):
        called = context.conductor_called(misled.conductor)
        instead = (f"conductor:{misled.instead}",) if misled.instead else ()
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"conductor:{misled.conductor}", *instead),
            message=_words(context, misled, called),
            brief=f"{called} ({WORDS[misled.colour]}, {misled.does})",
            why="Somebody who goes by the colour lands it where it does not belong.",
            situation=context.idle.situation,
            evidence=_evidence(context, misled),
        )


def _words(context: CheckContext, misled: Misled, called: str) -> str:
    there = f", which {context.conductor_called(misled.instead)} carries here" if misled.instead else ""
    colour = WORDS[misled.colour]
    return (
        f"{called} is {colour} and carries {misled.does}; {colour} is customary for {ROLE_WORDS[misled.colour]}{there}."
    )


def _evidence(context: CheckContext, misled: Misled) -> Evidence:
    """Common reads 24 V to what is hot beside it; everything else is read against common."""
    beside = supply_beside if misled.does == "common" else common_beside
    for terminal in context.layout.conductors[misled.conductor].landed():
        other = beside(context, terminal)
        if other is not None and other != terminal:
            return measured(context, context.idle, terminal, other)
    return Evidence()
