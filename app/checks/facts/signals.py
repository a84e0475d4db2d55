"""Leads from outputs that only carry a message."""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import CheckContext
from app.job.names import letter_of, part_of


@dataclass(frozen=True, slots=True)
class Signal:
    """An output that only signals, the conductors on its island, and terminals there that take them for a call."""

    output: str
    conductors: tuple[str, ...]
    calls: tuple[str, ...]


def signal_leads(context: CheckContext) -> tuple[Signal, ...]:
    """Return the outputs for messages on which something is landed, by island.

    An output is a signal terminal on which a contact of its part puts something; a lamp only takes it.
    """
    found: dict[str, Signal] = {}
    for terminal in sorted(context.wiring.landed):
        if context.function_of(terminal) != "signal" or not _is_output(context, terminal):
            continue
        island = context.wired.members(terminal)
        landed = (name for node in island for name, _ in context.wiring.landed_on(node))
        calls = tuple(node for node in island if context.function_of(node) == "call" and _is_landed(context, node))
        found.setdefault(context.wired.of(terminal), Signal(terminal, tuple(sorted(set(landed))), calls))
    return tuple(found.values())


def _is_landed(context: CheckContext, node: str) -> bool:
    return bool(context.wiring.landed_on(node))


def _is_output(context: CheckContext, terminal: str) -> bool:
    part = part_of(terminal)
    if part not in context.wiring.kinds:
        return False
    letter = letter_of(terminal)
    return any(letter in leads.all() for leads in context.inside(part).contacts.values())
