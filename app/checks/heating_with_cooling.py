"""One air stream is heated and cooled at the same time

What it checks
Whether a call runs a compressor that cools and, in the same air stream, a furnace, electric heat or a boiler; and
whether two controls on one circuit can bring this about when one calls for heat and the other for cooling.

Why it matters
Each undoes the work of the other, and both bills are paid. Hot air on the cold coil drives the refrigerant pressure up
until the high-pressure switch opens (common practice, no source).

What to do
Take off the wire that joins the two calls. Where several thermostats share one system, a zone panel has to decide
between them.

Limits
A unit that cools because its reversing valve stands wrong is told of the valve. Defrost, in which heat is meant to
temper the air, is no cooling. Drying air by cooling it and warming it again on purpose is not known here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.catalogue.spoken import upper_first
from app.checks.context import Called, CheckContext
from app.checks.facts.astray import HEAT_CALLS, Mixed, mixed_calls, movable
from app.checks.facts.probes import shown_at_effect
from app.checks.facts.spoken import asked_words, called_words
from app.checks.facts.valves import COOL_CALLS
from app.checks.finding import Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, gas_and_cooling, heat_pump
from app.circuit.solve import solve_all

NAME = "heating-with-cooling"
SEVERITY: Severity = "warning"

_DUCTED = ("furnace-heat", "electric-heat")
_SECOND = {"t2": "thermostat-heat-cool"}
_SIDE_BY_SIDE = {"w9": "fb.R t2.R", "w10": "fb.Y t2.Y", "w11": "fb.W t2.W", "w12": "fb.G t2.G"}
_DELAY: Parts = {"td": {"kind": "time-delay-relay", "settings": {"delay_s": 30}}}
_DELAYED = {"w7": "fb.Y td.A1", "d1": "td.A2 fb.C", "d2": "td.A1 td.COM", "d3": "td.NO ou.Y"}
_PANEL: Parts = {"zp": "zone-panel", "xp": "control-transformer", **_SECOND}
_ZONED = {
    "w3": "fb.R zp.R",
    "w4": "fb.W zp.W",
    "w5": "fb.Y zp.Y",
    "w6": "fb.G zp.G",
    "p1": "xp.R zp.XR",
    "p2": "xp.C zp.XC",
    **{f"{t}-{x.lower()}": f"zp.Z{z}{x} {t}.{x}" for z, t in ((1, "tc"), (2, "t2")) for x in "RYGW"},
}
_HEAT_TWICE = {"w5": None, "w7": None, "w9": "fb.R t2.R", "w10": "fb.W t2.W"}
_HEAT_WHILE_THE_VALVE_RESTS = {
    "w6": "tc.O/B ir.A1",
    "w12": "ir.A2 ah.C",
    "w13": "tc.Y ir.COM",
    "w14": "ir.NC ah.W1",
    "w15": "ou.R ou.O/B",
}
_FOR_HEAT: Parts = {"tc": {"kind": "thermostat-heat-cool", "settings": {"mode": "heat"}}, "t2": "thermostat-heat-only"}

GOOD = (
    Good("heat-or-cooling", gas_and_cooling()),
    Good("electric-heat-with-the-heat-pump", heat_pump(), near_miss=True),
    Good(
        "two-thermostats-for-heat-alone",
        gas_and_cooling(_HEAT_TWICE, _FOR_HEAT),
        near_miss=True,
    ),
    Good("two-thermostats-on-a-panel-that-decides", gas_and_cooling(_ZONED, _PANEL), near_miss=True),
    Good("lead-for-heat-on-the-screw-for-cooling", gas_and_cooling({"w4": "fb.W tc.Y"}), near_miss=True),
    Good(
        "a-valve-that-a-jumper-holds-in-cooling",
        heat_pump(_HEAT_WHILE_THE_VALVE_RESTS, {"ir": "isolation-relay"}),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "heat-joined-with-cooling-at-the-board",
        gas_and_cooling({"w9": "fb.Y fb.W"}),
        finds=(("part:ou", "part:fb", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "auxiliary-heat-joined-with-the-compressor",
        heat_pump({"w12": "ah.W1 ou.Y"}),
        finds=(("part:ou", "part:ah", "conductor:w12"),),
        mended=heat_pump(),
    ),
    Bad(
        "two-thermostats-side-by-side",
        gas_and_cooling(_SIDE_BY_SIDE, _SECOND),
        finds=(("part:ou", "part:fb", "part:t2", "part:tc"),),
    ),
    Bad(
        "a-delay-does-not-decide-between-them",
        gas_and_cooling({**_SIDE_BY_SIDE, **_DELAYED}, {**_SECOND, **_DELAY}),
        finds=(("part:ou", "part:fb", "part:t2", "part:tc"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    told: set[tuple[str, str]] = set()
    for mixed in context.once(mixed_calls):
        told.add((mixed.cooler, mixed.heater))
        if not mixed.goes_through_a_contact():
            yield _finding(context, mixed)
    for cooling, heating in _rivals(context):
        yield from _together(context, cooling, heating, told)


def _finding(context: CheckContext, mixed: Mixed) -> Finding:
    wires = movable(mixed.culprits)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{mixed.cooler}", f"part:{mixed.heater}", *(join.by for join in wires)),
        message=(
            f"{upper_first(called_words(context, mixed.called))} cools with {context.label_of(mixed.cooler)} and heats "
            f"with {context.label_of(mixed.heater)}: {context.label_of(mixed.astray[0])} runs with it unasked."
        ),
        why="Each undoes the work of the other, and hot air on the cold coil drives the pressure up.",
        situation=mixed.called.point.situation,
        evidence=shown_at_effect(context, mixed.called, *mixed.astray),
        fix=undo_join(context, wires[0]) if len(wires) == 1 else None,
    )


def _rivals(context: CheckContext) -> Iterator[tuple[Called, Called]]:
    """Yield a call for cooling and one for heat of two controls on one circuit, each pair of controls once."""
    cooling = {each.control: each for each in reversed(context.called) if each.call in COOL_CALLS}
    heating = {each.control: each for each in reversed(context.called) if each.call in HEAT_CALLS}
    for first in sorted(cooling):
        for second in sorted(heating):
            if first != second and context.network_of(first) == context.network_of(second):
                yield cooling[first], heating[second]


def _together(context: CheckContext, cooling: Called, heating: Called, told: set[tuple[str, str]]) -> Iterator[Finding]:
    """Look at both calls at once where each alone works on the same air."""
    air_of = context.layout.parts
    pairs = [
        (cooler, heater, effect)
        for cooler in cooling.point.runs("cooling")
        for effect in _DUCTED
        for heater in heating.point.runs(effect)
        if air_of[cooler].air == air_of[heater].air and (cooler, heater) not in told
    ]
    if not pairs:
        return
    both = cooling.point.situation.model_copy(
        update={"calls": {cooling.control: (cooling.call,), heating.control: (heating.call,)}}
    )
    point = solve_all(context.circuit, [both])[0]
    running = {part for part, effect in point.effects if effect in ("cooling", *_DUCTED)}
    for cooler, heater, effect in pairs:
        if {cooler, heater} <= running and (cooler, heater) not in told:
            told.add((cooler, heater))
            controls = sorted([cooling.control, heating.control])
            yield Finding(
                rule=NAME,
                severity=SEVERITY,
                subjects=(f"part:{cooler}", f"part:{heater}", *(f"part:{control}" for control in controls)),
                message=(
                    f"Nothing decides between {asked_words(context, [(cooling.control, cooling.call)])} and "
                    f"{asked_words(context, [(heating.control, heating.call)])}: {context.label_of(cooler)} cools and "
                    f"{context.label_of(heater)} heats the same air."
                ),
                why="Each undoes the work of the other, and hot air on the cold coil drives the pressure up.",
                situation=both,
                evidence=shown_at_effect(context, heating, heater, effect),
            )
