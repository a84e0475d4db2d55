"""The commons of two transformers are joined and nothing needs it

What it checks
Whether a conductor ties the common side of one transformer to that of another, although every load between them
would find its way back to its own source without it.

Why it matters
Two circuits that share a common are half joined already: the first hot lead that strays from one to the other closes
the circle, a load may then run from the wrong source, and one disconnect no longer makes its circuit dead. Sources
that are interconnected must be listed for it (NEC Chapter 9 Table 11, published, seen).

What to do
Take off the conductor that is named. Where one circuit has to work something in the other, let an isolation relay or
a dry contact do it.

Limits
Commons that are joined because a load is fed from one source and returns to the other are not named: there the join is
what makes it work. Commons that meet only at earth are grounded, which codes ask for.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations

from app.checks.context import CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import EARTH, Join, Winding
from app.checks.facts.probes import measured
from app.checks.finding import Evidence, Finding, Severity
from app.checks.fixes import take_out
from app.checks.rule import Bad, Good
from app.checks.samples import Parts, gas_and_cooling, two_transformers
from app.circuit.operating_point import OperatingPoint

NAME = "commons-joined"
SEVERITY: Severity = "warning"

_SECOND: Parts = {"xf2": {"kind": "control-transformer", "settings": {"mains_supply": "second"}}}
_RELAY: Parts = {**_SECOND, "ir": "isolation-relay"}
_BY_RELAY = {"w7": "fb.Y ir.A1", "w9": "ir.A2 fb.C", "w10": "xf2.R ir.COM", "w11": "ir.NO ou.Y", "w8": "xf2.C ou.C"}
_FED_BY_THE_OTHER = {"w3": "xf2.R tc.R", "w9": "xf2.C fb.C"}

GOOD = (
    Good("two-circuits-apart", two_transformers()),
    Good("an-isolation-relay-between-them", gas_and_cooling(_BY_RELAY, _RELAY), near_miss=True),
    Good(
        "calls-of-one-return-to-the-other",
        gas_and_cooling(_FED_BY_THE_OTHER, _SECOND),
        near_miss=True,
    ),
)
BAD = (
    Bad(
        "a-wire-between-the-commons",
        two_transformers({"w10": "xf.C xf2.C"}),
        finds=(("conductor:w10", "part:xf", "part:xf2"),),
        mended=two_transformers(),
    ),
    Bad(
        "common-of-the-furnace-on-the-outdoor-unit",
        two_transformers({"w10": "fb.C ou.C"}),
        finds=(("conductor:w10", "part:xf", "part:xf2"),),
        mended=two_transformers(),
    ),
)


@dataclass(frozen=True, slots=True)
class _Shared:
    """Two sources with one common, and the conductors of which any can go."""

    first: Winding
    second: Winding
    spare: tuple[Join, ...]


def check(context: CheckContext) -> Iterable[Finding]:
    for first, second in combinations(context.windings, 2):
        if not context.wired.same(first.common, second.common):
            continue
        if {first.name, second.name} & context.once(tied_names):
            continue
        shared = _Shared(first, second, _spare(context, first, second))
        if shared.spare:
            yield _finding(context, shared)


def _spare(context: CheckContext, first: Winding, second: Winding) -> tuple[Join, ...]:
    """Return the conductors between two commons that can go: that parts them, and no load misses it."""
    path = context.wired.path(first.common, second.common) or []
    if any(node == EARTH or context.function_of(node) == "chassis" for _, node in path):
        return ()
    wires = (join for join, _ in path if join.sort == "conductor")
    return tuple(
        join
        for join in wires
        if not _without(context, join, ()).same(first.common, second.common)
        and not any(_is_missed(context, join, point) for point in context.points_of(first.part))
    )


def _without(context: CheckContext, gone: Join, closed: tuple[Join, ...]) -> Islands:
    return Islands([*(join for join in context.wiring.fixed if join != gone), *closed])


def _is_missed(context: CheckContext, gone: Join, point: OperatingPoint) -> bool:
    """Return whether a device that a source feeds would no longer return to it."""
    islands = context.islands_at(point)
    without = _without(context, gone, islands.added)

    def works(through: Islands, winding: Winding, hot: str, common: str) -> bool:
        return through.same(hot, winding.hot) and through.same(common, winding.common)

    return any(
        works(islands, winding, *sides) and not works(without, winding, *sides)
        for winding in context.windings
        for device in context.devices_by_network.get(context.network_of(winding.part), [])
        for sides in ((device.a, device.b), (device.b, device.a))
    )


def _finding(context: CheckContext, shared: _Shared) -> Finding:
    names = " or ".join(context.conductor_called(join.by.partition(":")[2]) for join in shared.spare)
    parts = sorted((shared.first.part, shared.second.part))
    return Finding(
        rule=NAME,
        severity=SEVERITY,
        subjects=(*(join.by for join in shared.spare), *(f"part:{part}" for part in parts)),
        message=(
            f"The commons of {' and '.join(context.label_of(part) for part in parts)} are joined by {names}, "
            f"and no load needs it."
        ),
        why="The first hot lead that strays from one circuit to the other then closes the circle.",
        evidence=_evidence(context, shared),
        fix=take_out(context, shared.spare[0].by.partition(":")[2]) if len(shared.spare) == 1 else None,
    )


def _evidence(context: CheckContext, shared: _Shared) -> Evidence:
    """Between the two commons a meter reads nothing; once they are apart the reading floats."""
    commons = (shared.first.common, shared.second.common)
    return measured(context, context.idle, *commons) if set(commons) <= set(context.terminals) else Evidence()
