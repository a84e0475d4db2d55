"""One supply feeds the thermostat, but the jumper to its other side is missing

What it checks
A part with two supply terminals, one of which is fed while nothing at all is landed on the other, although its
contacts wait for it, and although what they switch comes back to the same source.

Why it matters
With one transformer the heating and the cooling supply are joined by a jumper. Without it one half of the calls,
often the electronics too, has no 24 V to pass on.

What to do
Fit the jumper between the two supply terminals, or a short piece of wire where there is none. With two transformers
it stays out: then the missing supply has a lead of its own.

Limits
Where the equipment of the dead side has no common landed yet, one transformer is taken for granted.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.context import CheckContext
from app.checks.facts.feeding import can_share
from app.checks.facts.landing import is_dangerous
from app.checks.facts.probes import measured
from app.checks.facts.supplies import DeadSupply, dead_supplies
from app.checks.finding import Finding, Severity
from app.checks.fixes import Fix, add_wire, choose
from app.checks.rule import Bad, Good
from app.checks.samples import dual_fuel, two_transformers
from app.job.names import letter_of

NAME = "supply-jumper-missing"
SEVERITY: Severity = "warning"

_FITTED = {"tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "fitted"}}}
_ONE_SOURCE = {"w5": None, "w7": "fb.C ou.C", "w9": "fb.C fr.C"}
_NO_JUMPER = {"tc": {"kind": "thermostat-dual-fuel", "settings": {"rh_rc": "removed"}}}
_DUAL_FITTED = {"tc": {"kind": "thermostat-dual-fuel", "settings": {"rh_rc": "fitted"}}}

GOOD = (
    Good("jumper-fitted", dual_fuel()),
    Good("two-transformers-without-jumper", two_transformers(), near_miss=True),
    Good("a-lead-instead-of-the-jumper", dual_fuel({"w11": "tc.RH tc.RC"}, _NO_JUMPER), near_miss=True),
    Good("second-supply-lead-not-run", two_transformers({"w5": None}), near_miss=True),
)
BAD = (
    Bad(
        "cooling-side-dead",
        two_transformers(_ONE_SOURCE),
        finds=(("part:tc", "terminal:tc.RC", "terminal:tc.RH"),),
        mended=two_transformers(_ONE_SOURCE, _FITTED),
    ),
    Bad(
        "electronics-dead",
        dual_fuel(parts=_NO_JUMPER),
        finds=(("part:tc", "terminal:tc.RC", "terminal:tc.RH"),),
        mended=dual_fuel(parts=_DUAL_FITTED),
    ),
)


def check(context: CheckContext) -> Iterable[Finding]:
    for dead in context.once(dead_supplies):
        if dead.fed_beside is None or not can_share(context, dead):
            continue
        yield Finding(
            rule=NAME,
            severity=SEVERITY,
            subjects=(f"part:{dead.entry.partition('.')[0]}", f"terminal:{dead.entry}", f"terminal:{dead.fed_beside}"),
            message=f"{context.name_of(dead.entry)} is dead: nothing joins it with {letter_of(dead.fed_beside)}.",
            why="With one transformer both supplies need it; without the jumper half of the calls pass nothing on.",
            evidence=measured(context, context.idle, dead.entry, dead.fed_beside),
            fix=_fix(context, dead, dead.fed_beside),
        )


def _fix(context: CheckContext, dead: DeadSupply, fed: str) -> Fix | None:
    if is_dangerous(context, dead.entry, fed):
        return None
    for join in context.wiring.lifted:
        sides = {context.at_rest.of(join.a), context.at_rest.of(join.b)}
        if sides == {context.at_rest.of(dead.entry), context.at_rest.of(fed)}:
            return choose(context, join.part, join.inner, "fitted")
    return add_wire(context, dead.entry, fed)
