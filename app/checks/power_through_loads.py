"""A thermostat or a load takes its power through another load

What it checks
A control whose electronics return not to common but through a coil or an input of the equipment: because its common
lead is landed on a call, or because it is made to do without common. A load whose common lead is landed on a call, so
that what it draws calls for something else.

Why it matters
The trickle through the electronics also goes through the load. A contactor takes no notice of it: 20 mA make 0.38 V on
a coil of 19.2 ohms. An electronic input does: 3000 ohms in a row with 1200 see 18.9 of 26.4 V, which is a call, and the
thermostat starves on the 7.5 V that are left (calculated). A furnace that takes the trickle for a call burns on; one
that gets it through the coil of a humidifier lights whenever the air is dry.

What to do
Land the lead on common. With no spare conductor: a thermostat with a battery, or the known way out of a four-wire
house. A control that is made to be powered through a load needs a load of low resistance: a resistor beside the input.

Limits
What the electronics take is the figure of the kind; real ones take it in bursts. A control that stays awake and works
nothing is not named; a load that works nothing else is told as one without common.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.called_through import CalledThrough, called_through
from app.checks.facts.spoken import device_words, effects_words, inner_words, when_words
from app.checks.facts.trickle import Trickle, false_heat, is_awake, trickles, worked_by
from app.checks.facts.way_back import Lead, land_on_common, lead_on, shown_through
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import TWO_WIRE_THERMOSTAT, dual_fuel, gas_and_cooling, heat_pump, with_humidifier
from app.job.names import letter_of

NAME = "power-through-loads"
SEVERITY: Severity = "warning"

_KINDS = {"two-wire-thermostat": TWO_WIRE_THERMOSTAT}
_ON_A_ZONE_VALVE = {"w5": None, "w6": None, "w7": None, "w8": None, "w4": "tc.W zv.M1", "w9": "zv.M2 xf.C"}

GOOD = (
    Good("common-landed", heat_pump()),
    Good("common-not-landed-at-all", heat_pump({"w4": None}), near_miss=True),
    Good("humidifier-on-common", with_humidifier()),
    Good("only-the-fan-runs", with_humidifier({"w11": "hu.C fb.G"}), near_miss=True),
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
    Bad(
        "humidifier-on-the-call-for-heat",
        with_humidifier({"w11": "hu.C fb.W"}),
        finds=(("part:hu", "terminal:hu.C", "conductor:w11"),),
        mended=with_humidifier(),
    ),
    Bad(
        "outdoor-unit-on-the-call-for-heat",
        dual_fuel({"w10": "fb.W ou.C", "w-defrost": None}),
        finds=(("part:ou", "terminal:ou.C", "conductor:w10"),),
        mended=dual_fuel({"w-defrost": None}),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for trickle in context.once(trickles):
        if trickle.missing is not None or worked_by(context, trickle) or not is_awake(context, trickle):
            yield _finding(context, trickle)
    yield from (_called(context, found) for found in context.once(called_through))


def _finding(context: CheckContext, trickle: Trickle) -> Finding:
    lead = lead_on(context, trickle.out) if trickle.missing is not None else []
    parts = dict.fromkeys(device.part for device in trickle.through)
    burns = false_heat(context, trickle)
    return Finding(
        rule=NAME,
        severity="danger" if burns else SEVERITY,
        subjects=(f"part:{trickle.control}", f"terminal:{trickle.out}", *_named(lead)),
        message=(
            f"{context.label_of(trickle.control)} takes its power through "
            f"{' and '.join(context.label_of(part) for part in parts)} by its {letter_of(trickle.out)}: "
            f"{_what_comes_of_it(context, trickle)}."
        ),
        why="What keeps the thermostat awake goes through the load too, and enough of it is a call.",
        situation=context.idle.situation,
        assumes=("the electronics take what their kind says, all the time",),
        evidence=shown_through(context, context.idle, trickle.out, trickle.through),
        fix=land_on_common(context, lead),
    )


def _what_comes_of_it(context: CheckContext, trickle: Trickle) -> str:
    worked = worked_by(context, trickle)
    volts = context.idle.elements[trickle.electronics.name].volts
    left = "" if volts is None else f", left with {volts:.1f} V"
    asleep = "" if is_awake(context, trickle) else f", and it sleeps{left}"
    if burns := false_heat(context, trickle):
        return f"{effects_words(burns)} runs with nothing called for{asleep}"
    if worked:
        return f"{' and '.join(inner_words(context, device) for device in worked)} takes it for a call{asleep}"
    return f"it sleeps{left}" if asleep else "it works only as long as that is too little to work them"


def _called(context: CheckContext, found: CalledThrough) -> Finding:
    out = found.missing.terminals[0]
    lead = lead_on(context, out)
    through = sorted({device_words(context, device) for device in found.through})
    return Finding(
        rule=NAME,
        severity="danger" if found.burns else SEVERITY,
        subjects=(*(f"part:{part}" for part in sorted(found.missing.parts())), f"terminal:{out}", *_named(lead)),
        message=(
            f"{context.name_of(out)} goes back through {' and '.join(through)}, not to common: "
            f"{when_words(context, found.point)} that is taken for a call, and {effects_words(found.effects)} runs "
            f"that nobody asked for."
        ),
        why="What the load draws goes through the other load too, and enough of it is a call.",
        situation=found.point.situation,
        evidence=shown_through(context, found.point, out, found.through),
        fix=land_on_common(context, lead),
    )


def _named(lead: Iterable[Lead]) -> list[str]:
    return [f"conductor:{conductor}" for conductor, _ in lead]
