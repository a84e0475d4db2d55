"""Current takes a path that nobody meant

What it checks
Loads in a row: from hot through one load, on through another, to common. A contact used backwards: a call gets through
it to what only other calls ask for. A contact that feeds what closes it, so that another's call holds it. Two
transformers that meet while two controls call.

Why it matters
Nothing is broken and yet something runs, buzzes or will not stop, only in certain calls; parts are replaced in vain.
Power to power, ground to ground and reversed current are the clues of sneak circuit analysis (handbook of 1970,
published, contents seen).

What to do
Follow the path that is named. Give each load its own way back, or let a relay with a contact of its own pass it on.

Limits
Each call is tried alone, and two calls only for two transformers. A common that is missing altogether, power through
loads and a bare wire between two calls have rules of their own.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import upper_first
from app.checks.context import CheckContext
from app.checks.facts.astray import mixed_calls
from app.checks.facts.meeting import PowerToPower, power_to_power
from app.checks.facts.probes import measured_across, measured_to_common, shown_at_effect
from app.checks.facts.sneaks import SelfHeld, ThroughLoads, is_told_already, self_held, through_loads
from app.checks.facts.spoken import asked_words, called_words, device_words, effects_words, when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump
from app.checks.sneak_samples import (
    AROUND_OUTDOORS,
    CHANGE_OVER,
    ON_ONE_CALL,
    OUTDOORS,
    RELAY_BETWEEN,
    two_sources,
    two_valves,
    with_relays,
)

NAME = "sneak-path"
SEVERITY: Severity = "warning"
_WHY = "Nothing is broken, and yet something runs, buzzes or will not stop in certain calls."

GOOD = (
    Good("furnace-and-cooling", gas_and_cooling()),
    Good("single-line-with-its-own-common", with_relays({"a2": "i1.A2 fb.C", "a4": "i2.A2 fb.C"}), near_miss=True),
    Good("outdoor-switch-in-one-call", heat_pump({"w8": "tc.W ot.A", "w12": "ot.B ah.W1"}, OUTDOORS), near_miss=True),
    Good("end-switches-fed-from-the-supply", two_valves({"e1": "xf.R za.E1", "e2": "za.E1 zb.E1"}), near_miss=True),
    Good("relay-between-two-sources", two_sources(RELAY_BETWEEN), near_miss=True),
    Good("relay-that-changes-over-from-one-source-to-the-other", two_sources(CHANGE_OVER), near_miss=True),
    Good("a-wire-that-mixes-heat-with-cooling", heat_pump({"w12": "ah.W1 ou.Y"}), near_miss=True),
)
BAD = (
    Bad(
        "loads-share-a-common-that-a-relay-opens",
        with_relays(),
        finds=(("element:i1.coil", "element:i2.coil"),),
    ),
    Bad(
        "outdoor-switch-between-two-calls",
        heat_pump(AROUND_OUTDOORS, OUTDOORS),
        finds=(("part:ah", "element:ot.outdoor_c_contact"),),
    ),
    Bad(
        "end-switches-fed-from-their-own-calls",
        two_valves(),
        finds=(("element:za.end_switch", "terminal:za.M1"), ("element:zb.end_switch", "terminal:zb.M1")),
    ),
    Bad(
        "two-thermostats-of-two-sources-on-one-call",
        two_sources(ON_ONE_CALL),
        finds=(("part:xf", "part:xf2", "part:t2", "part:tc"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    yield from (_in_a_row(context, found) for found in through_loads(context))
    yield from _backwards(context)
    yield from (_held(context, found) for found in self_held(context) if not is_told_already(context, found))
    yield from (_meeting(context, found) for found in power_to_power(context))


def _in_a_row(context: CheckContext, found: ThroughLoads) -> Finding:
    last = found.devices[0]
    volts = found.point.elements[last.name].volts or 0.0
    through = sorted({context.label_of(device.part) for device in found.devices[1:]})
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=tuple(f"element:{name}" for name in found.cause),
        message=(
            f"{upper_first(device_words(context, last))} gets {volts:.1f} V "
            f"{when_words(context, found.point)} through {' and '.join(through) or 'another load'}."
        ),
        why=_WHY,
        situation=found.point.situation,
        evidence=measured_across(context, found.point, last),
    )


def _backwards(context: CheckContext) -> Iterable[Finding]:
    for mixed in context.once(mixed_calls):
        contacts = [join for join in mixed.culprits if join.sort == "contact"]
        if contacts:
            part, effect = mixed.astray
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"part:{part}", *(join.by for join in contacts)),
                message=(
                    f"{upper_first(called_words(context, mixed.called))} also runs {context.label_of(part)} "
                    f"({effects_words([effect])}): it gets there through the contact of "
                    f"{' and '.join(context.label_of(join.part) for join in contacts)}."
                ),
                why=_WHY,
                situation=mixed.called.point.situation,
                evidence=shown_at_effect(context, mixed.called, part, effect),
            )


def _held(context: CheckContext, found: SelfHeld) -> Finding:
    more = {"contact_closed": f"{found.contact.part}.{found.contact.inner}"}
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(found.contact.by, f"terminal:{found.terminal}"),
        message=(
            f"Once {context.label_of(found.contact.part)} has closed its contact, it holds itself "
            f"{when_words(context, found.point)}: {context.name_of(found.terminal)} is fed through that contact "
            f"({effects_words(effect for _, effect in found.added)} goes on)."
        ),
        why=_WHY,
        situation=found.point.situation,
        evidence=measured_to_common(context, found.held, found.terminal, more),
    )


def _meeting(context: CheckContext, found: PowerToPower) -> Finding:
    asked = [(control, calls[-1]) for control, calls in found.situation.calls.items()]
    parts = sorted((found.first.part, found.second.part))
    words = " and ".join(asked_words(context, [each]) for each in asked)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(*(f"part:{part}" for part in parts), *(f"part:{control}" for control, _ in sorted(asked))),
        message=(
            f"While {words} are called for together, "
            f"the 24 V of {' and '.join(context.label_of(part) for part in parts)} meet."
        ),
        why="Out of step they burn, and in step each keeps the other's circuit live after its disconnect is open.",
        situation=found.situation,
        evidence=Evidence(call=f"{asked[0][0]}={asked[0][1]}"),
    )
