"""The line is landed on a primary tap for other volts

What it checks
The line that feeds each transformer, as the job says it, against the volts of the primary tap on which it is landed.
A difference of 5 % or less, such as 230 V on a tap for 240 V, is let pass.

Why it matters
The secondary follows in proportion. 208 V on a tap for 240 V gives 20.8 V instead of 24 V, and contactors that are
made to close from 20.4 V hum. 240 V on a tap for 208 V gives 27.7 V and 30.5 V with nothing on it, which is more than
coils bear and more than the 30 V of a Class 2 circuit (arithmetic).

What to do
With the disconnect open and proved dead, move the line to the tap that is marked for it and cap the others singly.
This is line voltage: a qualified person does it.

Limits
The line and the tap are what the job says; measure the line. A line that is itself far off is not looked for here.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.probes import measured
from app.checks.facts.secondary import CLASS_2_VOLTS, Tap, ends_of, open_volts, wrong_taps
from app.checks.facts.strain import rated_volts
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import choose
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, dual_fuel, gas_and_cooling

NAME = "primary-tap-wrong"
SEVERITY: Severity = "warning"


def _fed(line_volts: int, primary_tap: int) -> Parts:
    settings = {"line_volts": line_volts, "primary_tap": primary_tap}
    return {"xf": {"kind": "control-transformer", "settings": settings}}


GOOD = (
    Good("as-it-comes", gas_and_cooling()),
    Good("two-hundred-and-eight-on-its-own-tap", dual_fuel(parts=_fed(208, 208)), near_miss=True),
)
BAD = (
    Bad(
        "lower-line-on-the-higher-tap",
        gas_and_cooling(parts=_fed(208, 240)),
        finds=(("part:xf", "element:xf.secondary"),),
        mended=gas_and_cooling(parts=_fed(208, 208)),
    ),
    Bad(
        "higher-line-on-the-lower-tap",
        dual_fuel(parts=_fed(240, 208)),
        finds=(("part:xf", "element:xf.secondary"),),
        mended=dual_fuel(parts=_fed(240, 240)),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for tap in context.once(wrong_taps):
        part = tap.winding.part
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"part:{part}", f"element:{tap.winding.name}"),
            message=(
                f"{context.label_of(part)} is fed with {tap.line_volts:g} V on its tap for {tap.tap_volts:g} V: "
                f"{_secondary_words(context, tap)}."
            ),
            why="Its secondary follows the line in proportion: contactors hum on too few volts and burn on too many.",
            situation=context.idle.situation,
            evidence=_evidence(context, tap),
            fix=None if tap.right is None else choose(context, part, tap.setting, tap.right),
        )


def _secondary_words(context: CheckContext, tap: Tap) -> str:
    meant = rated_volts(context, tap.winding)
    loaded, bare = meant * tap.line_volts / tap.tap_volts, open_volts(context, tap.winding)
    above = f", above the {CLASS_2_VOLTS:g} V of Class 2" if bare > CLASS_2_VOLTS else ""
    return f"it gives {loaded:.1f} V instead of {meant:g} V, and {bare:.1f} V with nothing on it{above}"


def _evidence(context: CheckContext, tap: Tap) -> Evidence:
    more = {
        "line_volts": tap.line_volts,
        "tap_volts": tap.tap_volts,
        "secondary_volts_rated": rated_volts(context, tap.winding) * tap.line_volts / tap.tap_volts,
        "secondary_volts_open": open_volts(context, tap.winding),
    }
    ends = ends_of(context, tap.winding)
    return measured(context, context.idle, *ends, more) if ends else Evidence(more=more)
