"""The reversing valve works the wrong way round

What it checks
A call for cooling runs the compressor in heating, or a call for heat runs it in cooling, although a control's valve
output is wired to the valve.

Why it matters
The house heats when cooling is asked. Nothing is broken and no meter shows a fault: one side thinks that the valve is
energised in cooling, the other that it is energised in heating (O and B; common practice, no source).

What to do
Set the control to the mode in which the equipment's valve is energised, as the equipment's papers say. Do not move
wires for it.

Limits
What the equipment really does is taken from its setting in the job; look at its papers.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.jumped import jumped_terminals
from app.checks.facts.probes import shown_by
from app.checks.facts.spoken import when_words
from app.checks.facts.valves import Valve, lead_to, wrong_valves
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, heat_pump
from app.checks.setup_trial import IsPutRight, setting_that

NAME = "reversing-valve-inverted"
SEVERITY: Severity = "warning"

_UNIT_IN_HEATING = {"ou": {"kind": "heat-pump-unit", "settings": {"valve_energised_in": "heating"}}}


def _set_to(kind: str, mode: str) -> dict[str, dict[str, object]]:
    return {"tc": {"kind": kind, "settings": {"valve_energised_in": mode}}}


GOOD = (
    Good("both-in-cooling", heat_pump()),
    Good(
        "both-in-heating",
        heat_pump(parts={**_UNIT_IN_HEATING, **_set_to("thermostat-heat-pump", "heating")}),
        near_miss=True,
    ),
    Good("lead-missing-altogether", heat_pump({"w6": None}), near_miss=True),
)
BAD = (
    Bad(
        "thermostat-set-to-heating",
        heat_pump(parts=_set_to("thermostat-heat-pump", "heating")),
        finds=(("part:ou", "part:tc", "terminal:ou.O/B"),),
        mended=heat_pump(parts=_set_to("thermostat-heat-pump", "cooling")),
    ),
    Bad(
        "unit-energised-in-heating",
        dual_fuel(parts=_UNIT_IN_HEATING),
        finds=(("part:ou", "part:tc", "terminal:ou.O/B"),),
        mended=dual_fuel(parts={**_UNIT_IN_HEATING, **_set_to("thermostat-dual-fuel", "heating")}),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for valve in context.once(wrong_valves):
        lead = lead_to(context, valve)
        if lead is None or valve.terminal in context.once(jumped_terminals):
            continue
        first = valve.wrong[0]
        cure = setting_that(context, sorted({called.control for called in valve.wrong}), _puts_right(valve))
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"part:{valve.part}", f"part:{first.control}", f"terminal:{valve.terminal}"),
            message=(
                f"{context.label_of(valve.part)} {_does(context, valve)} {when_words(context, first.point)}."
                + (f" To put it right, {cure[0]}." if cure else "")
            ),
            why="The two sides disagree about the mode in which the reversing valve is energised.",
            situation=first.point.situation,
            evidence=shown_by(context, first, valve.terminal),
            fix=None if cure is None else cure[1],
        )


def _does(context: CheckContext, valve: Valve) -> str:
    cools = (valve.part, "cooling") in valve.wrong[0].point.effects
    return "cools" if cools else "heats"


def _puts_right(valve: Valve) -> IsPutRight:
    ran = {called.text() for called in (*valve.wrong, *valve.right)}

    def put_right(context: CheckContext) -> bool:
        """Every call that ran the compressor still does, and none comes out reversed."""
        still = {called.text() for called in context.called if (valve.part, "compressor") in called.point.effects}
        return ran <= still and all(other.part != valve.part for other in wrong_valves(context))

    return put_right
