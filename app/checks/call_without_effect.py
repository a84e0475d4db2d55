"""A call brings nothing of what it asks for

What it checks
Each call that the set-up of a control has is tried. A call for the fan has to run a fan, one for cooling has to cool,
one for heat has to heat, a second stage has to add something to the first.

Why it matters
Somebody will ask for it, and nothing will come; or something else will.

What to do
Follow the output that is named from the control to the equipment: land it, or take the call out of the control's
set-up where this house does not have what it asks for.

Limits
Tried at rest, with safeties closed, at 20 °C outdoors and where other weather makes another call of it. Silent where
a dead supply, a missing common, a loose end or a fuse that opens already explains it, and where something unseen may
run: mend or see that first. Calls for ventilation and drying air have no effect that is known here. A fan call that
starts nothing while the compressor runs is the business of that rule.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.catalogue.spoken import plain
from app.checks.context import CheckContext
from app.checks.facts.causes import outputs_to_name, silent_by_cause
from app.checks.facts.probes import shown_by
from app.checks.facts.silence import Silent
from app.checks.facts.spoken import asked_words, effects_words, weather_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, gas_and_cooling, heat_pump
from app.job.names import letter_of, part_of

NAME = "call-without-effect"
SEVERITY: Severity = "warning"

_HEAT_MODE = {"tc": {"kind": "thermostat-heat-cool", "settings": {"mode": "heat"}}}
_TWO_STAGES = {"tc": {"kind": "thermostat-dual-fuel", "settings": {"compressor_stages": 2}}}
_TWO_STAGE_UNIT = {"ou": {"kind": "heat-pump-unit", "settings": {"stages": 2}}}

GOOD = (
    Good("every-call-answered", gas_and_cooling()),
    Good("cooling-not-in-the-set-up", gas_and_cooling({"w5": None, "w7": None}, _HEAT_MODE), near_miss=True),
    Good("one-root-cause-only", gas_and_cooling({"w3": None}), near_miss=True),
    Good("second-stage-wired", dual_fuel({"w11": "tc.Y2 ou.Y2"}, {**_TWO_STAGES, **_TWO_STAGE_UNIT})),
)
BAD = (
    Bad(
        "cooling-lead-missing",
        gas_and_cooling({"w5": None}),
        finds=(("part:tc", "terminal:tc.Y"),),
    ),
    Bad(
        "heat-and-cooling-crossed",
        gas_and_cooling({"w4": "fb.W tc.Y", "w5": "fb.Y tc.W"}),
        finds=(("part:tc", "terminal:tc.W", "terminal:tc.Y"),),
    ),
    Bad(
        "no-second-stage-in-the-unit",
        dual_fuel(parts=_TWO_STAGES),
        finds=(("part:tc", "terminal:tc.Y2"),),
    ),
    Bad(
        "auxiliary-heat-not-wired",
        heat_pump({"w8": None}),
        finds=(("part:tc", "terminal:tc.E", "terminal:tc.W"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for several in silent_by_cause(context):
        yield _finding(context, several)


def _finding(context: CheckContext, several: Sequence[Silent]) -> Finding:
    first = several[0]
    outputs = outputs_to_name(context, several)
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(
            f"part:{part_of(outputs[0]) if outputs else first.called.control}",
            *(f"terminal:{output}" for output in outputs),
        ),
        message=" ".join([*_words(context, several), *_bare_words(context, outputs)]),
        why="Somebody will ask for it, and nothing will come, or something else.",
        situation=first.called.point.situation,
        assumes=(),
        evidence=shown_by(context, first.called, outputs[0]) if outputs else Evidence(call=first.called.text()),
    )


def _words(context: CheckContext, several: Sequence[Silent]) -> list[str]:
    """One sentence for all calls that do the same too little."""
    asked: dict[str, list[tuple[str, str]]] = {}
    told_at_rest = {each.called.text() for each in several if not weather_words(context, each.called.point)}
    for each in several:
        weather = "" if each.called.text() in told_at_rest else weather_words(context, each.called.point)
        asked.setdefault(_too_little(each) + weather, []).append((each.called.control, each.called.call))
    return [f"A call for {asked_words(context, calls)} {what}." for what, calls in asked.items()]


def _too_little(silent: Silent) -> str:
    if silent.below is not None:
        return f"does no more than {plain(silent.below)}"
    if not silent.brings:
        return "starts nothing"
    return f"brings nothing but {effects_words(silent.brings)}"


def _bare_words(context: CheckContext, outputs: Sequence[str]) -> list[str]:
    if any(context.wiring.landed_on(output) for output in outputs) or not outputs:
        return []
    letters = ", ".join(letter_of(output) for output in outputs)
    return [f"Nothing is landed on {letters} of {context.label_of(part_of(outputs[0]))}."]
