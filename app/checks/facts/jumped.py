"""Calls that are always on because a bare join leads supply to them, past a contact that is there to switch it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.bypass import wired_across
from app.checks.facts.gap import Gap, gap_to_call
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Winding
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


def _behind(context: CheckContext, winding: Winding) -> Iterator[Jumped]:
    by_gap: dict[tuple[str, ...], tuple[Gap, list[str]]] = {}
    for terminal in _calls_kept_hot(context, winding):
        gap = gap_to_call(context, winding.hot, context.wired.path(winding.hot, terminal) or [])
        if gap.movable():
            by_gap.setdefault(tuple(sorted(gap.subjects())), (gap, []))[1].append(terminal)
    for gap, terminals in by_gap.values():
        if _is_on_one_part(gap) or _goes_around_a_contact(context, gap):
            yield Jumped(gap, tuple(terminals))


def _calls_kept_hot(context: CheckContext, winding: Winding) -> list[str]:
    return [node for node in context.wired.members(winding.hot) if context.function_of(node) == "call"]


def _is_on_one_part(gap: Gap) -> bool:
    return len(gap.movable()) == 1 and part_of(gap.movable()[0].a) == part_of(gap.movable()[0].b)


def _goes_around_a_contact(context: CheckContext, gap: Gap) -> bool:
    """Return whether some contact has its two sides on the two sides of the gap."""
    across = [join for join in context.once(wired_across) if context.wired.same(join.a, gap.start)]
    if not across:
        return False
    taken = {join.by for join in gap.movable()}
    without = Islands([join for join in context.wiring.fixed if join.by not in taken])
    return any(not without.same(join.a, join.b) for join in across)
