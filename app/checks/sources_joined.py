"""Two transformers are tied together

What it checks
Whether, in any call, the hot sides of two sources are joined by wires, jumpers or closed contacts, or the hot side of
one with the common side of the other.

Why it matters
Sources that are joined must be listed for it (NEC Chapter 9 Table 11, published, seen). Out of step they drive a large
current through each other; in step, each feeds the other's wiring after its own disconnect is open, and a person who
thinks that the power is off finds that it is not.

What to do
Take out the jumper between the heating and the cooling supply, or take off one of the two supply leads. Each
transformer keeps its own supply terminal.

Limits
Whether two transformers are listed for being joined is not known here. Commons that are joined with each other are
another matter.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from app.checks.context import CheckContext
from app.checks.facts.foreign import is_fed_pair
from app.checks.facts.joined import Joined, joined_sources
from app.checks.facts.joins import Join
from app.checks.facts.probes import call_text, measured
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import Fix, undo_join
from app.checks.rule import Bad, Good
from app.checks.samples import gas_and_cooling, two_transformers

NAME = "sources-joined"
SEVERITY: Severity = "danger"

_SECOND = {"xf2": {"kind": "control-transformer", "settings": {"mains_supply": "second"}}}
_JUMPERED = {"tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "fitted"}}}

GOOD = (
    Good("two-supplies-kept-apart", two_transformers()),
    Good("commons-joined-only", two_transformers({"w10": "xf.C xf2.C"}), near_miss=True),
    Good(
        "one-transformer-on-both-supplies",
        two_transformers({"w5": "fb.R tc.RC", "w7": "fb.C ou.C", "w9": "fb.C fr.C"}, _JUMPERED),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "jumper-left-in",
        two_transformers(parts=_JUMPERED),
        finds=(("element:tc.supply_jumper",),),
        mended=two_transformers(),
    ),
    Bad(
        "supply-to-supply",
        gas_and_cooling({"w9": "xf2.R xf.R"}, _SECOND),
        finds=(("conductor:w9",),),
        mended=gas_and_cooling(parts=_SECOND),
    ),
    Bad(
        "both-on-one-screw",
        gas_and_cooling({"w9": "xf2.R tc.R", "w10": "xf2.C ou.C"}, _SECOND),
        finds=(("terminal:tc.R", "conductor:w3", "conductor:w9"),),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for joined in context.once(joined_sources):
        if any(is_fed_pair(context, node) for _, node in joined.path):
            continue
        first, second = context.label_of(joined.first.part), context.label_of(joined.second.part)
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=_subjects(context, joined),
            message=f"The 24 V of {first} and of {second} are tied together.",
            why="Each feeds the other's wiring: it stays live after one disconnect is open, and out of step they burn.",
            situation=joined.point.situation,
            assumes=context.unseen_from(node for _, node in joined.path),
            evidence=_evidence(context, joined),
            fix=_fix(context, joined),
        )


def _jumpers(joined: Joined) -> list[Join]:
    return [join for join, _ in joined.path if join.sort == "jumper"]


def _wires(joined: Joined) -> list[Join]:
    return [join for join, _ in joined.path if join.sort == "conductor"]


def _subjects(context: CheckContext, joined: Joined) -> tuple[str, ...]:
    """A jumper is the cause where there is one; else the screw on which two of the wires meet, a splice only where it
    is no screw of anything; else every wire."""
    if _jumpers(joined):
        return tuple(join.by for join in _jumpers(joined))
    meetings = [
        (node, before.by, after.by)
        for (before, node), (after, _) in pairwise(joined.path)
        if before.sort == after.sort == "conductor"
    ]
    if meetings:
        node, one, other = min(meetings, key=lambda meeting: context.function_of(meeting[0]) == "through")
        return (f"terminal:{node}", *sorted((one, other)))
    return tuple(join.by for join in _wires(joined)) or (
        f"element:{joined.first.name}",
        f"element:{joined.second.name}",
    )


def _evidence(context: CheckContext, joined: Joined) -> Evidence:
    """Across a jumper, or between the two hot terminals, a meter reads next to nothing."""
    for join in _jumpers(joined):
        if join.a in context.terminals and join.b in context.terminals:
            return measured(context, joined.point, join.a, join.b)
    ends = {joined.first.hot, *(node for _, node in joined.path[-1:])}
    if len(ends) == 2 and ends <= set(context.terminals):
        return measured(context, joined.point, joined.first.hot, joined.path[-1][1])
    return Evidence(call=call_text(joined.point))


def _fix(context: CheckContext, joined: Joined) -> Fix | None:
    """With two wires on one screw only a person knows which of them belongs there."""
    movable = _jumpers(joined) or _wires(joined)
    return undo_join(context, movable[0]) if _jumpers(joined) or len(movable) == 1 else None
