"""Supply terminals that something depends on and that no source reaches.

Dead supply terminals of one island are one fact with one cause. A dead supply of a part whose other supply is fed, on
which nothing is landed, is the business of a jumper; every other one the business of a lead.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import CheckContext
from app.job.names import letter_of, part_of


@dataclass(frozen=True, slots=True)
class DeadSupply:
    """An island of supply terminals that nothing feeds. ``entry`` is where the supply would come in; ``fed_beside``
    is a fed supply terminal of the same part where nothing is landed on this island, else None."""

    entry: str
    terminals: tuple[str, ...]
    nodes: tuple[str, ...]
    fed_beside: str | None


def dead_supplies(context: CheckContext) -> tuple[DeadSupply, ...]:
    """Return the dead supplies of parts that are wired at all, one an island, sorted by entry."""
    by_island: dict[str, list[str]] = {}
    for terminal in context.terminals:
        if _should_be_hot(context, terminal) and not context.hot_at_rest(terminal):
            by_island.setdefault(context.at_rest.of(terminal), []).append(terminal)
    return tuple(
        sorted((_dead_supply(context, terminals) for terminals in by_island.values()), key=lambda dead: dead.entry)
    )


def parts_without_supply(context: CheckContext) -> frozenset[str]:
    """Return the parts that have a dead supply terminal."""
    return frozenset(part_of(terminal) for dead in context.once(dead_supplies) for terminal in dead.terminals)


def _should_be_hot(context: CheckContext, terminal: str) -> bool:
    """A supply terminal of a wired part, behind which a device, a contact or a fuse of the part waits for it."""
    part = part_of(terminal)
    if part not in context.wired_parts or not context.is_supply(terminal) or part not in context.wiring.kinds:
        return False
    letter = letter_of(terminal)
    inside = context.inside(part)
    return letter in inside.fused or any(
        letter in leads.all() for leads in (*inside.devices.values(), *inside.contacts.values())
    )


def _dead_supply(context: CheckContext, terminals: list[str]) -> DeadSupply:
    nodes = tuple(context.at_rest.members(terminals[0]))
    entry = min(terminals, key=lambda terminal: _entry_order(context, terminal))
    landed = any(context.wiring.landed_on(node) for node in nodes)
    return DeadSupply(
        entry=entry,
        terminals=(entry, *sorted(terminal for terminal in terminals if terminal != entry)),
        nodes=nodes,
        fed_beside=None if landed else _fed_beside(context, entry),
    )


def _entry_order(context: CheckContext, terminal: str) -> tuple[bool, bool, int, str]:
    """Supply comes in before a fuse, at equipment before a control, at the terminal that the kind names first."""
    part = part_of(terminal)
    kind = context.wiring.kinds[part]
    place = list(kind.terminals).index(letter_of(terminal))
    return (not is_before_fuse(context, terminal), bool(kind.calls), place, terminal)


def is_before_fuse(context: CheckContext, terminal: str) -> bool:
    """Return whether a terminal is the first node of a fuse: where a board takes in the lead of its transformer."""
    return terminal in context.once(_before_fuses)


def _before_fuses(context: CheckContext) -> frozenset[str]:
    return frozenset(join.a for join in context.wiring.fixed if join.sort == "fuse")


def _fed_beside(context: CheckContext, terminal: str) -> str | None:
    for other in context.wiring.terminals_of(part_of(terminal)):
        if context.is_supply(other) and context.hot_at_rest(other):
            return other
    return None
