"""Terminals that 24 V is not for: by their function, or because their part feeds them itself."""

from __future__ import annotations

from app.checks.context import CheckContext
from app.checks.facts.inside import SUPPLY_FUNCTIONS
from app.job.names import letter_of, part_of

FAMILIES = ("line", "bus", "millivolt", "sensor")
_CONTROL = SUPPLY_FUNCTIONS | {"common", "call", "signal"}


def clashes(first: str, second: str) -> bool:
    """Return whether two functions may never meet on one wire; the first of the pair is the foreign one."""
    if first not in FAMILIES:
        return False
    return second in _CONTROL or (second in FAMILIES and FAMILIES.index(first) < FAMILIES.index(second))


def foreign_rails(context: CheckContext, terminal: str) -> list[str]:
    """Return the two sides of every source that is not of a terminal's own part."""
    windings = (winding for winding in context.windings if winding.part != part_of(terminal))
    return [node for winding in windings for node in (winding.hot, winding.common)]


def is_fed_pair(context: CheckContext, terminal: str) -> bool:
    """Return whether a terminal is of a dry pair that its part feeds or reads itself."""
    part = part_of(terminal)
    if context.function_of(terminal) != "dry" or part not in context.wiring.kinds:
        return False
    return letter_of(terminal) in context.inside(part).own_fed


def fed_pairs(context: CheckContext) -> tuple[str, ...]:
    """Return every terminal of a dry pair that its part feeds or reads itself."""
    return tuple(terminal for terminal in context.terminals if is_fed_pair(context, terminal))
