"""Calls that are always on because a bare join leads supply to them, past a contact that is there to switch it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.bypass import contacts_gone_around_by, wired_across
from app.checks.facts.gap import Gap, gap_to_call
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Winding, new_join
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Jumped:
    """A gap from supply to call that wires or jumpers close at all times, and the call terminals behind it."""

    gap: Gap
    terminals: tuple[str, ...]


def jumped_calls(context: CheckContext) -> tuple[Jumped, ...]:
    """Return the bare joins from supply to a call, each once.

    A join counts where it is short enough to be a jumper (both ends on one part), or where it goes around a contact.
    A lead that is merely landed on the wrong screw, with nothing that would switch it, is left to another rule.
    """
    found: dict[str, Jumped] = {}
    for winding in context.windings:
        if not context.wired.same(winding.hot, winding.common):
            for jumped in _behind(context, winding):
                found.setdefault(jumped.terminals[0], jumped)
    return tuple(found.values())


def jumped_terminals(context: CheckContext) -> frozenset[str]:
    """Return the call terminals that a bare join keeps hot."""
    return frozenset(terminal for jumped in context.once(jumped_calls) for terminal in jumped.terminals)


def calls_jumped_by(context: CheckContext, near: str, far: str) -> Iterator[str]:
    """Yield the call terminals that one more join would keep on as a jumper does."""
    join = new_join(near, far)
    for hot_side, other in ((near, far), (far, near)):
        for winding in context.windings:
            if not _would_feed(context, winding, hot_side, other):
                continue
            before = context.wired.path(winding.hot, hot_side) or []
            for terminal in _calls_among(context, other):
                after = context.wired.path(other, terminal) or []
                gap = gap_to_call(context, winding.hot, [*before, (join, other), *after])
                if join in gap.movable() and (_is_on_one_part(gap) or _would_go_around(context, hot_side, other)):
                    yield terminal


def _would_feed(context: CheckContext, winding: Winding, hot_side: str, other: str) -> bool:
    same = context.wired.same
    return same(winding.hot, hot_side) and not same(other, winding.hot) and not same(other, winding.common)


def _would_go_around(context: CheckContext, near: str, far: str) -> bool:
    """Return whether some contact lies between the two islands that a join would make one."""
    return any(True for _ in contacts_gone_around_by(context, near, far))


def _behind(context: CheckContext, winding: Winding) -> Iterator[Jumped]:
    by_gap: dict[tuple[str, ...], tuple[Gap, list[str]]] = {}
    for terminal in _calls_among(context, winding.hot):
        gap = gap_to_call(context, winding.hot, context.wired.path(winding.hot, terminal) or [])
        if gap.movable():
            by_gap.setdefault(tuple(sorted(gap.subjects())), (gap, []))[1].append(terminal)
    for gap, terminals in by_gap.values():
        if _is_on_one_part(gap) or _goes_around_a_contact(context, gap):
            yield Jumped(gap, tuple(terminals))


def _calls_among(context: CheckContext, node: str) -> list[str]:
    return [each for each in context.wired.members(node) if context.function_of(each) == "call"]


def _is_on_one_part(gap: Gap) -> bool:
    """Return whether a jumper goes from one part to itself, in one piece or spliced of several."""
    return part_of(gap.start) == part_of(gap.goal)


def _goes_around_a_contact(context: CheckContext, gap: Gap) -> bool:
    """Return whether some contact has its two sides on the two sides of the gap."""
    across = [join for join in context.once(wired_across) if context.wired.same(join.a, gap.start)]
    if not across:
        return False
    taken = {join.by for join in gap.movable()}
    without = Islands([join for join in context.wiring.fixed if join.by not in taken])
    return any(not without.same(join.a, join.b) for join in across)
