"""Electric heat comes on and no fan moves the air

What it checks
In each call, at each supply and with each switch the other way, whether electric heat is on while no fan of its air
stream runs, where the layout has one.

Why it matters
A heater that no air cools glows within seconds. The limit then opens and closes on the glowing wire until it welds or
the cabinet burns: a limit is the last guard, not the control (common practice, no source).

What to do
Let the heat bring its own fan: wire the sequencer's fan contact, or fit the interlock on the board; or let the control
call for the fan together with heat.

Limits
Whether the fan really turns is not known: a fan that is called counts as running. Heat in an air stream without any
fan on the drawing is not judged, because baseboard heat needs none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.catalogue.spoken import upper_first
from app.checks.context import Called, CheckContext
from app.checks.facts.air import fans_in_air_of
from app.checks.facts.probes import shown_at_effect
from app.checks.facts.spoken import called_words
from app.checks.facts.strain import is_calm
from app.checks.finding import Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, electric_heat, heat_pump
from app.checks.setup_trial import setting_that
from app.circuit.solve import solve

NAME = "electric-heat-without-fan"
SEVERITY: Severity = "danger"

_LOOSE: Parts = {"ah": {"kind": "air-handler-board", "settings": {"fan_with_heat": False}}}


def _fan_by(who: str) -> Parts:
    return {**_LOOSE, "tc": {"kind": "thermostat-heat-pump", "settings": {"fan_in_heat": who}}}


_ELSEWHERE: Parts = {"fr": {"kind": "fan-relay", "air": "kitchen hood"}}

GOOD = (
    Good("sequencer-starts-the-fan", electric_heat()),
    Good("interlock-on-the-board", heat_pump()),
    Good("control-calls-for-the-fan", heat_pump(parts=_fan_by("control")), near_miss=True),
    Good("no-fan-in-this-air", electric_heat({"w4": None, "w5": None}, _ELSEWHERE), near_miss=True),
)
BAD = (
    Bad(
        "fan-contact-not-wired",
        electric_heat({"w4": None, "w5": None}),
        finds=(("part:hs", "part:fr"),),
    ),
    Bad(
        "nobody-calls-for-the-fan",
        heat_pump(parts=_fan_by("equipment")),
        finds=(("part:ah",),),
        mended=heat_pump(parts=_fan_by("control")),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    heaters = [
        part
        for part in sorted(context.wired_parts)
        if (kind := context.kind_of(part)) is not None and "electric-heat" in kind.effects
    ]
    for heater in heaters:
        if fans_in_air_of(context, heater):
            found = next(iter(_fanless(context, heater)), None)
            if found is not None:
                yield _finding(context, heater, found)


def _fanless(context: CheckContext, heater: str) -> Iterator[Called]:
    """Yield the calls in which a heater is on and no fan of its air runs, those at rest otherwise first."""
    for called in (*context.called, *_in_other_situations(context, heater)):
        if not _heats_alone(context, called, heater):
            continue
        if called in context.called and not is_calm(context, called.point, heater):
            continue
        yield called


def _heats_alone(context: CheckContext, called: Called, heater: str) -> bool:
    effects = called.point.effects
    if (heater, "electric-heat") not in effects:
        return False
    fans = fans_in_air_of(context, heater)
    may_run = (*effects, *called.point.effects_in_doubt)
    return not any((fan, "indoor-fan") in may_run for fan in fans)


def _in_other_situations(context: CheckContext, heater: str) -> Iterator[Called]:
    """Yield what comes of the calls with a switch the other way, another supply or other weather, where the fan is of
    another part than the heat: in one part nothing comes between them."""
    for outcome in context.outcomes_of(heater) if fans_in_air_of(context, heater) != [heater] else ():
        for control, calls in outcome.point.situation.calls.items():
            if outcome.point.settled and not outcome.point.blown:
                yield Called(control, calls[-1], outcome.point)
                break


def _finding(context: CheckContext, heater: str, called: Called) -> Finding:
    fans = [fan for fan in fans_in_air_of(context, heater) if fan != heater]

    def brings_a_fan(tried: CheckContext) -> bool:
        # What does not help where it was found need not be tried in every other situation.
        again = Called(called.control, called.call, solve(tried.circuit, called.point.situation))
        return not _heats_alone(tried, again, heater) and next(iter(_fanless(tried, heater)), None) is None

    cure = setting_that(context, [called.control], brings_a_fan)
    still = " or ".join(context.label_of(fan) for fan in fans_in_air_of(context, heater))
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{heater}", *(f"part:{fan}" for fan in fans)),
        message=(
            f"{upper_first(called_words(context, called))} brings the electric heat of {context.label_of(heater)} on, "
            f"and the fan of {still} stands still." + (f" To bring it, {cure[0]}." if cure else "")
        ),
        why="A heater that no air cools glows within seconds, and only its limit is left to stop it.",
        situation=called.point.situation,
        evidence=shown_at_effect(context, called, heater, "electric-heat"),
        fix=None if cure is None else cure[1],
    )
