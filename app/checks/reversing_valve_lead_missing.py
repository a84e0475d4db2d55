"""Nothing drives the reversing valve

What it checks
A unit that both cools and heats runs its compressor in a call but comes out reversed, and no wire from a control's
valve output reaches the terminal that drives its valve.

Why it matters
A valve that is never energised, or always because its lead lies on the supply, stays in one position: the house is
heated when cooling is asked, or the reverse.

What to do
Run a wire from the control's reversing-valve output to the terminal that is named. A terminal between them that only
passes the call on serves as well. A lead that lies on the supply is moved from there to the output.

Limits
A valve that sticks, or whose coil is open, is not on the drawing. It needs at least one call that runs the compressor
the wrong way round.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.jumped import jumped_terminals
from app.checks.facts.probes import shown_by
from app.checks.facts.spoken import called_words
from app.checks.facts.valves import Valve, lead_to, wrong_valves
from app.checks.finding import Finding, Severity
from app.checks.fixes import Fix, join_to
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, heat_pump

NAME = "reversing-valve-lead-missing"
SEVERITY: Severity = "warning"

_HEAT_ONLY = {"tc": "thermostat-heat-only"}

GOOD = (
    Good("lead-landed", heat_pump()),
    Good("lead-by-way-of-the-air-handler", heat_pump({"w6": "tc.O/B ah.O", "w12": "ah.O ou.O/B"}), near_miss=True),
    Good("cooling-only-unit", gas_and_cooling(), near_miss=True),
    Good("jumpered-to-the-supply", heat_pump({"w6": "ou.R ou.O/B"}), near_miss=True),
    Good(
        "never-asked-to-cool",
        heat_pump({"w4": None, "w5": "tc.W ou.Y", "w6": None, "w7": "ou.Y ah.G", "w8": None}, _HEAT_ONLY),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "no-lead",
        heat_pump({"w6": None}),
        finds=(("terminal:ou.O/B",),),
        mended=heat_pump({"w6": None, "w-mended": "ou.O/B tc.O/B"}),
    ),
    Bad(
        "lead-loose-at-the-unit",
        dual_fuel({"w6": "tc.O/B -"}),
        finds=(("terminal:ou.O/B",),),
        mended=dual_fuel(),
    ),
    Bad("lead-on-the-supply-of-the-control", heat_pump({"w6": "tc.R ou.O/B"}), finds=(("terminal:ou.O/B",),)),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for valve in context.once(wrong_valves):
        if lead_to(context, valve) is not None or valve.terminal in context.once(jumped_terminals):
            continue
        first = valve.wrong[0]
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"terminal:{valve.terminal}",),
            message=(
                f"No valve output of a control reaches {context.name_of(valve.terminal)}: "
                f"{called_words(context, first)} comes out reversed."
            ),
            why="A valve that nothing drives stays in one position: heat when cooling is asked, or the reverse.",
            situation=first.point.situation,
            assumes=context.unseen_from(context.wired.members(valve.terminal)),
            evidence=shown_by(context, first, valve.terminal),
            fix=_fix(context, valve),
        )


def _fix(context: CheckContext, valve: Valve) -> Fix | None:
    """Lead to the output that the control closes in every call that came out reversed and in none that did not."""
    control = valve.wrong[0].control
    wrong = [set(context.outputs_of(called)) for called in valve.wrong if called.control == control]
    right = [set(context.outputs_of(called)) for called in valve.right if called.control == control]
    fitting = set.intersection(*wrong).difference(*right) if right else set[str]()
    unused = sorted(output for output in fitting if _drives_nothing(context, output))
    return join_to(context, valve.terminal, unused) if unused else None


def _drives_nothing(context: CheckContext, output: str) -> bool:
    """An output that works something already is not the valve's."""
    island = set(context.wired.members(output))
    return not any({device.a, device.b} & island for device in context.wiring.devices)
