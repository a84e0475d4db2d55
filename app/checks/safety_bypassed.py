"""There is a way around a safety

What it checks
For the contact of each safety (limit, rollout, pressure, float) whether its two sides are joined by something else:
by a wire or jumper at all times, or in some call by a contact of another part.

Why it matters
A safety stops its load by opening. With a way around it the current goes on, and nothing stops the burner, the
compressor or the water any more. Safeties are never left bypassed; a jumper for a moment is for a test only (common
practice, no source).

What to do
Take off the wire that is named. If the equipment then stands still, the safety had opened for a reason: find that
reason. A meter across a safety that is open and does its work shows the full 24 V, across one with a way around none.

Limits
A contact that has welded is not on the drawing, nor is a switch of which somebody has bent the blade. A safety in a
lead that stops nothing is not named here. A contact that joins hot to both sides only while two controls call at the
same time is no way around.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.bypass import Bypass, bypasses
from app.checks.facts.probes import call_text, measured
from app.checks.facts.spoken import when_words
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling
from app.circuit.operating_point import OperatingPoint
from app.circuit.solve import solve_all
from app.job.names import part_of

NAME = "safety-bypassed"
SEVERITY: Severity = "danger"

_FLOAT = {"fl": "float-switch"}
_FLOAT_IN_THE_CALL = {"w7": "fb.Y fl.A", "w9": "fl.B ou.Y"}
_FLOAT_IN_THE_SUPPLY = {"w3": "fb.R fl.A", "w9": "fl.B tc.R"}
_RELAY = {**_FLOAT, "ir": "isolation-relay"}
_RELAY_ON_HEAT = {"w10": "fb.W ir.A1", "w11": "ir.A2 fb.C"}

GOOD = (
    Good("float-in-the-call", gas_and_cooling(_FLOAT_IN_THE_CALL, _FLOAT)),
    Good(
        "two-floats-in-a-row",
        gas_and_cooling({"w7": "fb.Y fl.A", "w9": "fl.B f2.A", "w10": "f2.B ou.Y"}, {**_FLOAT, "f2": "float-switch"}),
        near_miss=True,
    ),
    Good("float-not-wired-yet", gas_and_cooling(parts=_FLOAT), near_miss=True),
)
BAD = (
    Bad(
        "jumper-across-the-float",
        gas_and_cooling({**_FLOAT_IN_THE_CALL, "w10": "fl.A fl.B"}, _FLOAT),
        finds=(("element:fl.float_c", "conductor:w10"),),
        mended=gas_and_cooling(_FLOAT_IN_THE_CALL, _FLOAT),
    ),
    Bad(
        "old-lead-left-beside-the-float",
        gas_and_cooling({**_FLOAT_IN_THE_CALL, "w10": "fb.Y ou.Y"}, _FLOAT),
        finds=(("element:fl.float_c", "conductor:w10"),),
        mended=gas_and_cooling(_FLOAT_IN_THE_CALL, _FLOAT),
    ),
    Bad(
        "both-leads-on-one-screw",
        gas_and_cooling({"w9": "fb.R fl.A", "w10": "fl.B fb.R"}, _FLOAT),
        finds=(("element:fl.float_c", "conductor:w9", "conductor:w10"),),
    ),
    Bad(
        "relay-goes-around-it-in-heat",
        gas_and_cooling(
            {**_FLOAT_IN_THE_SUPPLY, **_RELAY_ON_HEAT, "w12": "fb.R ir.COM", "w13": "ir.NO tc.R"},
            _RELAY,
        ),
        finds=(("element:fl.float_c", "conductor:w12", "conductor:w13"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for bypass in context.once(bypasses):
        safety = context.wiring.kinds[bypass.contact.part].switches[bypass.switch].use or bypass.switch
        culprits = bypass.culprits()
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(bypass.contact.by, *(join.by for join in culprits)),
            message=(
                f"{context.label_of(bypass.contact.part)} ({safety}) has a way around it"
                f"{'' if bypass.always else ' ' + when_words(context, bypass.point)}{_of_what(context, bypass)}: "
                f"when it opens, the current goes on."
            ),
            why="A safety protects by opening; with a way around it nothing stops what it should stop.",
            situation=bypass.point.situation,
            evidence=_evidence(context, bypass),
            fix=undo_join(context, culprits[0]) if bypass.always and len(culprits) == 1 else None,
        )


def _of_what(context: CheckContext, bypass: Bypass) -> str:
    """Name the part whose contact makes the way, where one does."""
    parts = dict.fromkeys(join.part for join, _ in bypass.path if join.sort == "contact")
    return f" through {' and '.join(context.label_of(part) for part in parts)}" if parts else ""


def _evidence(context: CheckContext, bypass: Bypass) -> Evidence:
    """With the safety open a meter across it reads next to nothing, in a call in which it should have stopped."""
    sides = (bypass.contact.a, bypass.contact.b)
    if not set(sides) <= set(context.terminals):
        return Evidence(call=call_text(bypass.point))
    return measured(context, _with_safety_open(context, bypass), *sides, {"with": {_switch(bypass): "open"}})


def _with_safety_open(context: CheckContext, bypass: Bypass) -> OperatingPoint:
    network = context.network_of(part_of(bypass.contact.a))
    telling = [
        called.point
        for called in context.called
        if context.network_at(called.point) == network
        and any(context.islands_at(called.point).same(bypass.contact.a, winding.hot) for winding in context.windings)
    ]
    point = next(iter(telling), bypass.point) if bypass.always else bypass.point
    asked = point.situation.model_copy(update={"set": {**point.situation.set, _switch(bypass): "open"}})
    return solve_all(context.circuit, [asked])[0]


def _switch(bypass: Bypass) -> str:
    return f"{bypass.contact.part}.{bypass.switch}"
