"""Nothing keeps a compressor off after it has stopped

What it checks
For each call that runs a compressor, whether anything in the chain lets it start again only after at least three
minutes: the unit's own control, the thermostat, or a time-delay relay on the way.

Why it matters
Just after a stop the refrigerant pressures are still apart. A compressor that is started against them stalls, draws
its locked current and heats up until its overload opens; a thermostat that is nudged, or mains that blink, are enough
(three to five minutes between stop and next start: common practice, no source).

What to do
Set the delay of the unit or of the thermostat, or put a time-delay relay into the call.

Limits
What a kind says of its timers is believed. That a control keeps no time of its own when its kind says nothing about it
is an assumption, and is said as one.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.kind import Choice
from app.catalogue.spoken import plain
from app.checks.context import Called, CheckContext
from app.checks.facts.air import stray_effects
from app.checks.facts.calls import AIR_ONLY
from app.checks.facts.guards import LEAST_GUARD_S, Guard, guards_of, parts_on_the_way
from app.checks.facts.probes import shown_at_effect
from app.checks.facts.strain import is_calm
from app.checks.finding import Finding, Severity
from app.checks.fixes import Fix, choose
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, gas_and_cooling, heat_pump, two_transformers

NAME = "short-cycle-unguarded"
SEVERITY: Severity = "warning"


def _unit(seconds: int) -> Parts:
    return {"ou": {"kind": "condensing-unit", "settings": {"minimum_off_s": seconds}}}


_DELAY: Parts = {"td": {"kind": "time-delay-relay", "settings": {"delay_s": 300}}}
_SHORT_DELAY: Parts = {"td": {"kind": "time-delay-relay", "settings": {"delay_s": 30}}}
_DELAYED = {"w7": "fb.Y td.A1", "w9": "td.A2 fb.C", "w10": "fb.Y td.COM", "w11": "td.NO ou.Y"}
_ELECTRONIC: Parts = {"tc": {"kind": "thermostat-dual-fuel", "settings": {"equipment": "conventional"}}}
_RELAYED = {"w7": "fb.Y ir.A1", "w9": "ir.A2 fb.C", "w10": "fb.R ir.COM", "w11": "ir.NO ou.Y"}
_RELAY = {"ir": "isolation-relay"}
_BY_THE_THERMOSTAT = {"w3": "fb.R tc.RC", "w4": "fb.W tc.W1", "w5": "fb.Y tc.Y1", "w9": "fb.C tc.C"}

GOOD = (
    Good("timer-in-the-unit", gas_and_cooling()),
    Good("timer-in-the-heat-pump", heat_pump()),
    Good("timer-in-the-thermostat", gas_and_cooling(_BY_THE_THERMOSTAT, {**_unit(0), **_ELECTRONIC}), near_miss=True),
    Good("time-delay-relay-in-the-call", gas_and_cooling(_DELAYED, {**_unit(0), **_DELAY}), near_miss=True),
)
BAD = (
    Bad(
        "no-timer-anywhere",
        gas_and_cooling(parts=_unit(0)),
        finds=(("part:ou", "part:tc"),),
        mended=gas_and_cooling(parts=_unit(300)),
    ),
    Bad(
        "half-a-minute-is-too-short",
        gas_and_cooling(_DELAYED, {**_unit(0), **_SHORT_DELAY}),
        finds=(("part:ou", "part:td", "part:tc"),),
        mended=gas_and_cooling(_DELAYED, {**_unit(300), **_SHORT_DELAY}),
    ),
    Bad(
        "a-relay-that-keeps-no-time",
        gas_and_cooling(_RELAYED, {**_unit(0), **_RELAY}),
        finds=(("part:ou", "part:ir", "part:tc"),),
        mended=gas_and_cooling(_RELAYED, {**_unit(300), **_RELAY}),
    ),
    Bad(
        "on-a-transformer-of-its-own",
        two_transformers(parts=_unit(0)),
        finds=(("part:ou", "part:tc"),),
        mended=two_transformers(parts=_unit(300)),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    seen: set[str] = set()
    for called in context.called:
        if called.call in AIR_ONLY:
            continue
        for part in called.point.runs("compressor"):
            if part in seen or not _is_answered(context, called, part):
                continue
            if not any(guard.is_enough() for guard in guards_of(context, called, part)):
                seen.add(part)
                yield _finding(context, called, part, list(guards_of(context, called, part)))


def _is_answered(context: CheckContext, called: Called, part: str) -> bool:
    """Return whether the call, and not something that runs anyway, runs a compressor."""
    if (part, "compressor") in context.effects_at_rest or context.network_of(called.control) != context.network_of(
        part
    ):
        return False
    return (part, "compressor") not in context.once(stray_effects) and is_calm(context, called.point, part)


def _finding(context: CheckContext, called: Called, part: str, guards: list[Guard]) -> Finding:
    chain = [each for each in parts_on_the_way(context, called, part) if each not in (part, called.control)]
    links = (*dict.fromkeys(guard.part for guard in guards if guard.part != part), *chain, called.control)
    longest = max((guard.seconds for guard in guards), default=0.0)
    cure = next(iter(_cures(context, guards)), None)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"part:{part}", *(f"part:{link}" for link in dict.fromkeys(links))),
        message=(
            f"{context.label_of(part)} may start again "
            + (f"{longest:.0f} s after it has stopped" if longest else "at once after it has stopped")
            + f": nothing between {context.label_of(called.control)} and the compressor waits three minutes."
            + (f" To put it right, {cure[0]}." if cure else "")
        ),
        why="Started against the pressures of its last run a compressor stalls and burns.",
        situation=called.point.situation,
        assumes=tuple(
            f"{context.label_of(each)} keeps no time of its own: its kind names none"
            for each in sorted({part, called.control, *chain})
            if not any(guard.part == each for guard in guards)
        ),
        evidence=shown_at_effect(context, called, part, "compressor"),
        fix=None if cure is None else cure[1],
    )


def _cures(context: CheckContext, guards: Iterable[Guard]) -> Iterable[tuple[str, Fix]]:
    """Yield the settings that make a timer long enough, in words and as a fix."""
    for guard in guards:
        setting = context.wiring.kinds[guard.part].settings.get(guard.setting)
        if setting is not None:
            for value in (setting.default, *setting.choices):
                if _seconds(value) >= LEAST_GUARD_S:
                    words = f"set {setting.use or plain(guard.setting)} to {value} s on {context.label_of(guard.part)}"
                    yield words, choose(context, guard.part, guard.setting, value)
                    break


def _seconds(value: Choice) -> float:
    return 0.0 if isinstance(value, bool | str) else float(value)
