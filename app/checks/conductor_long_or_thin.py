"""A run is long or thin for what it carries

What it checks
What the run from a source to each coil and back loses in a call: the volts at the source less those at the coil,
against 5 % of the rated volts.

Why it matters
The ohms of copper follow from gauge and length (ASTM B258 and the resistivity of annealed copper; 18 AWG has 6.385 ohm
in 1,000 ft). A run that loses much leaves less for all that is added later, and a supply that sags meets it on top.
5 % is customary for power wiring, feeder and branch together (informational notes of the NEC, from memory); for
controls there is no source.

What to do
Nothing at once: the coil still has enough. When the cable is renewed, take heavier wire, or land two cores side by
side.

Limits
Only runs of which the job says length or cable count. Copper is at 20 °C; at 75 °C it has a fifth more ohms. A coil
that is not sure to pull in is told as that and not here.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.drops import Drop, long_runs
from app.checks.facts.fed import leads_of
from app.checks.facts.probes import call_text, measured
from app.checks.facts.spoken import device_words, when_words
from app.checks.facts.weak import run_cure_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import boiler_zone, gas_and_cooling, heat_pump, with_wires

NAME = "conductor-long-or-thin"
SEVERITY: Severity = "note"
TOGETHER = "{count} runs are long or thin for what they carry: {names}."

GOOD = (
    Good("no-lengths-given", boiler_zone()),
    Good(
        "sixty-metres-of-the-usual-gauge",
        with_wires(boiler_zone(), "w2 w3", length_m=60.0, size_awg=18),
        near_miss=True,
    ),
    Good("a-long-thin-run-that-carries-little", with_wires(gas_and_cooling(), "w4", length_m=90.0, size_awg=24)),
)
BAD = (
    Bad(
        "sixty-metres-of-22-to-a-zone-valve",
        with_wires(boiler_zone(), "w2 w3", length_m=60.0, size_awg=22),
        finds=(("conductor:w2", "conductor:w3", "element:zv.motor"),),
    ),
    Bad(
        "eighty-metres-of-24-in-one-lead",
        with_wires(heat_pump(), "w8", length_m=80.0, size_awg=24),
        finds=(("conductor:w8", "element:ah.heat_relay_1"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for drop in context.once(long_runs):
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(*(f"conductor:{name}" for name in drop.run.names()), f"element:{drop.fed.device.name}"),
            message=_words(context, drop),
            brief=context.conductor_called(drop.run.names()[0]),
            why="It leaves little for what is added later or for a supply that sags.",
            situation=drop.fed.point.situation,
            evidence=_evidence(context, drop),
        )


def _words(context: CheckContext, drop: Drop) -> str:
    coil = f"the {device_words(context, drop.fed.device)}"
    cure = run_cure_words(context, drop.run, drop.run.ohms() * drop.most / drop.lost)
    return (
        f"The run to {coil} loses {drop.lost:.1f} V of {drop.source_volts:.1f} V "
        f"{when_words(context, drop.fed.point)}; {cure}."
    )


def _evidence(context: CheckContext, drop: Drop) -> Evidence:
    more = {"volts_lost": drop.lost, "volts_at_source": drop.source_volts, "run_ohms": drop.run.ohms()}
    ends, point = leads_of(context, drop.fed), drop.fed.point
    return measured(context, point, *ends, more) if ends else Evidence(call=call_text(point), more=more)
