"""Hot is joined straight to common

What it checks
In every call, and with every switch and safety in each position, it follows what conducts without resistance (wires,
traces, fuses, fitted jumpers, closed contacts) from the hot side of each source. Where that reaches the same source's
common side, nothing is left to limit the current.

Why it matters
A short opens the small fuse on the board, and everything goes dead. Without a fuse the winding overheats. A larger
fuse is never the cure: it lets the wire or the transformer burn instead (common practice, no source).

What to do
Switch off every disconnect that feeds a 24 V source here. Take off the wire that is named, find out where it belongs,
and replace the fuse by one of the same rating once R to C no longer reads about an ohm.

Limits
A short inside a cable or a winding is not on the drawing. The amps are those of a model for loads, not of a fault:
they are said only as more than the fuse carries.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.checks.context import CheckContext
from app.checks.facts.gap import Gap, gap_to_common
from app.checks.facts.probes import call_text, common_beside, measured
from app.checks.facts.spoken import when_words
from app.checks.facts.strain import Bridge, bridges
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, heat_pump
from app.job.names import part_of

NAME = "hot-to-common-short"
SEVERITY: Severity = "danger"

_UPSTAIRS = {"tc": {"kind": "thermostat-heat-cool", "place": "upstairs"}}

GOOD = (
    Good("furnace-and-cooling", gas_and_cooling()),
    Good("common-through-a-coil", gas_and_cooling({"w8": "fb.C ou.Y", "w7": "fb.Y ou.C"}), near_miss=True),
    Good("two-commons-of-one-side", gas_and_cooling({"w9": "xf.C ou.C"}), near_miss=True),
)
BAD = (
    Bad(
        "supply-to-common-at-the-board",
        gas_and_cooling({"w9": "fb.R fb.C"}),
        finds=(("conductor:w9",),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "from-the-thermostat-to-the-board-in-another-place",
        gas_and_cooling({"w9": "tc.R fb.C"}, _UPSTAIRS),
        finds=(("conductor:w9",),),
        mended=gas_and_cooling(parts=_UPSTAIRS),
    ),
    Bad(
        "only-while-cooling-is-called",
        gas_and_cooling({"w9": "ou.Y ou.C"}),
        finds=(("conductor:w9",),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "common-on-an-output-that-the-blower-switches",
        gas_and_cooling({"w9": "fb.HUM xf.C"}),
        finds=(("conductor:w9",),),
        mended=gas_and_cooling(),
    ),
    Bad(
        "common-lead-on-the-valve-output",
        heat_pump({"w4": "ah.C tc.O/B"}, {"tc": {"kind": "thermostat-heat-pump", "settings": {"battery": True}}}),
        finds=(("conductor:w4",),),
        mended=heat_pump({"w4": None}, {"tc": {"kind": "thermostat-heat-pump", "settings": {"battery": True}}}),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for bridge in context.once(bridges):
        gap = gap_to_common(context, bridge.winding.hot, bridge.path)
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=gap.subjects(),
            message=(
                f"{_between(context, gap)} are joined{_when(context, bridge)}: "
                f"nothing limits the current of {context.label_of(bridge.winding.part)}.{_fuse_words(context, bridge)}"
            ),
            why="A short opens the fuse and all controls go dead; without a fuse the transformer burns.",
            situation=bridge.point.situation,
            assumes=context.unseen_from(node for _, node in bridge.path),
            evidence=_evidence(context, bridge, gap),
            fix=undo_join(context, gap.movable()[0]) if gap.movable() else None,
        )


def _between(context: CheckContext, gap: Gap) -> str:
    return f"{_said(context, gap.start)} (hot) and {_said(context, gap.goal)} (common)"


def _when(context: CheckContext, bridge: Bridge) -> str:
    """A short that is always there needs no word on when."""
    return "" if bridge.point is context.idle else f" {when_words(context, bridge.point)}"


def _said(context: CheckContext, node: str) -> str:
    return context.name_of(node) if node in context.terminals else context.label_of(part_of(node))


def _fuse_words(context: CheckContext, bridge: Bridge) -> str:
    opened = [
        name for name in sorted(bridge.point.blown) if any(join.by == f"element:{name}" for join, _ in bridge.path)
    ]
    return f" The fuse of {context.label_of(part_of(opened[0]))} opens." if opened else ""


def _evidence(context: CheckContext, bridge: Bridge, gap: Gap) -> Evidence:
    """Where a person can reach both sides a meter reads next to nothing: a fuse has opened, or the volts broke down."""
    more = {"amps_before_opening": dict(bridge.point.blown)} if bridge.point.blown else {}
    for pair in _pairs(context, bridge, gap):
        return measured(context, bridge.point, *pair, more)
    return Evidence(call=call_text(bridge.point), more=more)


def _pairs(context: CheckContext, bridge: Bridge, gap: Gap) -> Iterator[tuple[str, str]]:
    """Across the gap; else at the last supply terminal on the way there, behind the fuse where there is one."""
    if {gap.start, gap.goal} <= set(context.terminals) and context.place_of(gap.start) == context.place_of(gap.goal):
        yield gap.start, gap.goal
    for node in [node for _, node in reversed(bridge.path) if context.is_supply(node)]:
        common = gap.goal if part_of(gap.goal) == part_of(node) else common_beside(context, node)
        if common is not None:
            yield node, common
