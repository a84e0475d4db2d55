"""Sources whose hot sides meet only while two controls call together: a power dome."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from app.checks.context import Called, CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Join, Winding
from app.circuit.situation import Situation
from app.circuit.solve import solve_all


@dataclass(frozen=True, slots=True)
class PowerToPower:
    """Two sources of which the hot sides meet only while two controls call together."""

    first: Winding
    second: Winding
    situation: Situation
    path: tuple[Join, ...]


def power_to_power(context: CheckContext) -> Iterator[PowerToPower]:
    """Yield the pairs of sources that two calls together join and no call alone."""
    tied = context.once(tied_names)
    for first, second in combinations(context.windings, 2):
        if {first.name, second.name} & tied or not context.ever.same(first.hot, second.hot):
            continue
        found = next(iter(_together(context, first, second)), None)
        if found is not None:
            yield found


def _together(context: CheckContext, first: Winding, second: Winding) -> Iterator[PowerToPower]:
    network = context.network_of(first.part)
    calls = [each for each in context.called if context.network_of(each.control) == network]
    for one, other in combinations(calls, 2):
        if one.control == other.control:
            continue
        closed = (*context.islands_at(one.point).added, *context.islands_at(other.point).added)
        islands = Islands(closed, context.wired)
        if not islands.same(first.hot, second.hot) or not _stay_closed(context, one, other, first, second):
            continue
        path = tuple(join for join, _ in islands.path(first.hot, second.hot) or [])
        yield PowerToPower(first, second, _both(one, other), path)
        return


def _stay_closed(context: CheckContext, one: Called, other: Called, first: Winding, second: Winding) -> bool:
    """Return whether the two meet once both calls have settled: a relay may keep them apart."""
    point = solve_all(context.circuit, [_both(one, other)])[0]
    asked = {*context.islands_at(one.point).added, *context.islands_at(other.point).added}
    closed = [
        join
        for join in context.wiring.contacts
        if point.elements[f"{join.part}.{join.inner}"].state == "closed"
        or (f"{join.part}.{join.inner}" in context.wiring.by_calls and join in asked)
    ]
    return Islands(closed, context.wired).same(first.hot, second.hot)


def _both(one: Called, other: Called) -> Situation:
    calls = {one.control: (one.call,), other.control: (other.call,)}
    return one.point.situation.model_copy(update={"calls": calls})
