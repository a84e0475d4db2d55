"""A thermostat takes its power through a load

What it checks
A control whose electronics return not to common but through a coil or an input of the equipment: because its common
lead is landed on a call, or because it is made to do without common.

Why it matters
The trickle through the electronics also goes through the load. A contactor takes no notice of it: 20 mA make 0.38 V on
a coil of 19.2 ohms. An electronic input does: 3000 ohms in a row with 1200 see 18.9 of 26.4 V, which is a call, and the
thermostat starves on the 7.5 V that are left (calculated). A furnace that takes the trickle for a call burns on.

What to do
Land the lead on common. With no spare conductor: a thermostat with a battery, or the known way out of a four-wire
house. A control that is made to be powered through a load needs a load of low resistance: a resistor beside the input.

Limits
What the electronics take is the figure of the kind; real ones take it in bursts. A control that is made for it, stays
awake and works nothing is not named.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import plain
from app.checks.context import CheckContext
from app.checks.facts.probes import common_beside, measured
from app.checks.facts.spoken import effects_words
from app.checks.facts.trickle import Trickle, false_heat, is_awake, trickles, worked_by
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import Fix, best_goal, has_room, land
from app.checks.rule import Bad, Good
from app.checks.samples import TWO_WIRE_THERMOSTAT, dual_fuel, gas_and_cooling, heat_pump
from app.job.names import letter_of, part_of

NAME = "power-through-loads"
SEVERITY: Severity = "warning"

_KINDS = {"two-wire-thermostat": TWO_WIRE_THERMOSTAT}
_ON_A_ZONE_VALVE = {"w5": None, "w6": None, "w7": None, "w8": None, "w4": "tc.W zv.M1", "w9": "zv.M2 xf.C"}

GOOD = (
    Good("common-landed", heat_pump()),
    Good("contacts-only", gas_and_cooling()),
    Good("common-not-landed-at-all", heat_pump({"w4": None}), near_miss=True),
    Good(
        "made-for-it-on-a-coil",
        gas_and_cooling(_ON_A_ZONE_VALVE, {"tc": "two-wire-thermostat", "zv": "zone-valve"}),
        near_miss=True,
        kinds=_KINDS,
    ),
)
BAD = (
    Bad(
        "common-lead-on-a-heat-relay",
        heat_pump({"w4": "ah.W2 tc.C"}),
        finds=(("part:tc", "terminal:tc.C", "conductor:w4"),),
        mended=heat_pump(),
    ),
    Bad(
        "common-lead-on-the-call-for-heat",
        dual_fuel({"w4": "fb.W tc.C", "w8": None}),
        finds=(("part:tc", "terminal:tc.C", "conductor:w4"),),
        mended=dual_fuel({"w8": None}),
    ),
    Bad(
        "made-for-it-on-an-electronic-input",
        gas_and_cooling({"w5": None, "w6": None, "w7": None, "w8": None}, {"tc": "two-wire-thermostat"}),
        finds=(("part:tc", "terminal:tc.W"),),
        kinds=_KINDS,
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for trickle in context.once(trickles):
        if trickle.missing is not None or worked_by(context, trickle) or not is_awake(context, trickle):
            yield _finding(context, trickle)


def _finding(context: CheckContext, trickle: Trickle) -> Finding:
    lead = _lead(context, trickle)
    parts = dict.fromkeys(device.part for device in trickle.through)
    burns = false_heat(context, trickle)
    return Finding(
        rule=NAME,
        severity="danger" if burns else SEVERITY,
        subjects=(
            f"part:{trickle.control}",
            f"terminal:{trickle.out}",
            *(f"conductor:{conductor}" for conductor, _ in lead),
        ),
        message=(
            f"{context.label_of(trickle.control)} takes its power through "
            f"{' and '.join(context.label_of(part) for part in parts)} by its {letter_of(trickle.out)}: "
            f"{_what_comes_of_it(context, trickle)}."
        ),
        why="What keeps the thermostat awake goes through the load too, and enough of it is a call.",
        situation=context.idle.situation,
        assumes=("the electronics take what their kind says, all the time",),
        evidence=_evidence(context, trickle),
        fix=_fix(context, lead),
    )


def _what_comes_of_it(context: CheckContext, trickle: Trickle) -> str:
    worked = worked_by(context, trickle)
    volts = context.idle.elements[trickle.electronics.name].volts
    left = "" if volts is None else f", left with {volts:.1f} V"
    asleep = "" if is_awake(context, trickle) else f", and it sleeps{left}"
    if burns := false_heat(context, trickle):
        return f"{effects_words(burns)} runs with nothing called for{asleep}"
    if worked:
        return f"{' and '.join(plain(device.inner) for device in worked)} takes it for a call{asleep}"
    return f"it sleeps{left}" if asleep else "it works only as long as that is too little to work them"


def _evidence(context: CheckContext, trickle: Trickle) -> Evidence:
    """With nothing called for a meter across the load reads what the trickle leaves there."""
    across = max(trickle.through, key=lambda device: (context.idle.elements[device.name].volts or 0.0, device.name))
    for terminal in context.wired.members(trickle.out):
        if part_of(terminal) == across.part and terminal in context.terminals:
            common = common_beside(context, terminal)
            if common not in (None, terminal):
                return measured(context, context.idle, terminal, common)
    return Evidence()


def _lead(context: CheckContext, trickle: Trickle) -> list[tuple[str, int]]:
    """Return the conductor on the control's common, with the index of its far end, where it is a single one."""
    landed = context.wiring.landed_on(trickle.out) if trickle.missing is not None else []
    return [(conductor, 1 - index) for conductor, index in landed] if len(landed) == 1 else []


def _fix(context: CheckContext, lead: list[tuple[str, int]]) -> Fix | None:
    """Land the far end on common, in the place where it is now if it can be."""
    for conductor, index in lead:
        end = context.layout.conductors[conductor].ends[index]
        goals = [
            node
            for winding in context.windings
            for node in context.wired.members(winding.common)
            if context.function_of(node) == "common" and has_room(context, node)
        ]
        if isinstance(end, str) and goals and len(context.windings) == 1:
            return land(context, conductor, index, best_goal(context, end, sorted(goals)))
    return None
