"""A jumper keeps a call on

What it checks
Whether a wire or jumper joins supply straight with a call terminal: both ends on one part, or around a contact that
is there to switch the call. It is what people fit for a test and forget.

Why it matters
The call never ends. A burner or compressor runs on after the room has got what it asked for, and every thermostat,
float and timer that is wired into that call is out of the game (Kirchhoff's laws; a jumper is for a moment's test
only: common practice, no source).

What to do
Take the jumper out and see that the equipment stops. If it then does not start on a call, look for what the jumper was
meant to get around: an open float, a dead thermostat, a broken conductor.

Limits
A jumper in a plug or under a cover that nobody has entered is not on the drawing. A lead that lies on the supply
screw in place of its own is told as a load that runs without a call.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.jumped import Jumped, jumped_calls
from app.checks.facts.probes import measured_to_common
from app.checks.facts.spoken import effects_words
from app.checks.finding import Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump, two_transformers
from app.job.names import part_of

NAME = "temporary-jumper-fitted"
SEVERITY: Severity = "danger"

_JUMPERED = {"tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "fitted"}}}

GOOD = (
    Good("calls-switched-by-the-thermostat", gas_and_cooling()),
    Good("fan-joined-with-cooling-at-the-board", gas_and_cooling({"w6": None, "w9": "fb.Y fb.G"}), near_miss=True),
    Good(
        "supply-jumper-of-one-transformer",
        two_transformers({"w5": "fb.R tc.RC", "w7": "fb.C ou.C", "w9": "fb.C fr.C"}, _JUMPERED),
        near_miss=True,
    ),
    Good("lead-on-the-wrong-screw", gas_and_cooling({"w7": "fb.R ou.Y"}), near_miss=True),
    Good("both-heat-stages-joined", heat_pump({"w12": "ah.W1 ah.W2"}), near_miss=True),
)
BAD = (
    Bad(
        "heat-at-the-thermostat",
        gas_and_cooling({"w9": "tc.R tc.W"}),
        finds=(("terminal:tc.W", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "spliced-of-two-pieces",
        gas_and_cooling({"w9": "fb.R sp.1", "w10": "sp.1 fb.G"}, {"sp": "splice"}),
        finds=(("terminal:fb.G", "conductor:w9", "conductor:w10"),),
    ),
    Bad(
        "fan-at-the-board",
        gas_and_cooling({"w9": "fb.R fb.G"}),
        finds=(("terminal:fb.G", "conductor:w9"),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "cooling-at-a-board-without-its-lead",
        gas_and_cooling({"w5": None, "w9": "fb.R fb.Y"}),
        finds=(("terminal:fb.Y", "conductor:w9"),),
        mended=gas_and_cooling({"w5": None}),
    ),
    Bad(
        "from-the-board-to-the-outdoor-unit",
        heat_pump({"w12": "ah.R ou.Y"}),
        finds=(("terminal:ou.Y", "conductor:w12"),),
        mended=heat_pump(),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for jumped in context.once(jumped_calls):
        yield _finding(context, jumped)


def _finding(context: CheckContext, jumped: Jumped) -> Finding:
    movable = jumped.gap.movable()
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(f"terminal:{jumped.gap.goal}", *(join.by for join in movable)),
        message=(
            f"{context.name_of(jumped.gap.goal)} is joined straight with {_supply(context, jumped)}: "
            f"its call is always on.{_what_runs(context, jumped)}"
        ),
        why="The call never ends, and every thermostat, float and timer in it is bypassed.",
        situation=context.idle.situation,
        assumes=context.unseen_from((jumped.gap.start, jumped.gap.goal)),
        evidence=measured_to_common(context, context.idle, jumped.gap.goal),
        fix=undo_join(context, movable[0]) if len(movable) == 1 else None,
    )


def _supply(context: CheckContext, jumped: Jumped) -> str:
    start = jumped.gap.start
    return (
        context.name_of(start) if start in context.terminals else f"the hot side of {context.label_of(part_of(start))}"
    )


def _what_runs(context: CheckContext, jumped: Jumped) -> str:
    parts = {part_of(terminal) for terminal in jumped.terminals}
    running = sorted({part for part, _ in context.idle.effects if part in parts})
    words = [
        f"{context.label_of(part)} runs ({effects_words(e for p, e in context.idle.effects if p == part)})"
        for part in running
    ]
    return f" {' and '.join(words)} with nothing called for." if words else ""
