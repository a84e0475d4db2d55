"""Reversing valves: what drives them, and the calls in which they stand the wrong way round."""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.kind import CallName
from app.checks.context import Called, CheckContext
from app.checks.facts.strain import is_calm

COOL_CALLS: frozenset[CallName] = frozenset({"cool-1", "cool-2"})
PUMP_HEAT_CALLS: frozenset[CallName] = frozenset({"heat-1", "heat-2", "aux-heat"})


@dataclass(frozen=True, slots=True)
class Valve:
    """The reversing valve of a part: its coil, the terminal that drives it, and the calls that come out reversed.

    ``right`` are the calls that run the compressor the way that was asked for.
    """

    part: str
    coil: str
    terminal: str
    wrong: tuple[Called, ...]
    right: tuple[Called, ...]


def wrong_valves(context: CheckContext) -> tuple[Valve, ...]:
    """Return the reversing valves that stand wrong in at least one call."""
    found = (valve for part in sorted(context.wired_parts) for valve in _valves_of(context, part))
    return tuple(valve for valve in found if valve.wrong)


def lead_to(context: CheckContext, valve: Valve) -> str | None:
    """Return the terminal of a control from which a valve can be driven: an output whose contact the calls for cooling
    or heating use, on the wired island of the valve's terminal; None where no such lead comes."""
    for node in context.wired.members(valve.terminal):
        part, _, letter = node.partition(".")
        kind = context.kind_of(part)
        if kind is None or not kind.calls or context.is_supply(node):
            continue
        used = {
            contact
            for name, call in kind.calls.items()
            if name in COOL_CALLS | PUMP_HEAT_CALLS
            for contact in call.closes
        }
        leads = context.inside(part).call_contacts
        if any(letter in leads[contact].all() for contact in used if contact in leads):
            return node
    return None


def _valves_of(context: CheckContext, part: str) -> list[Valve]:
    kind = context.kind_of(part)
    if kind is None or not context.inside(part).valves:
        return []
    found: list[Valve] = []
    for coil in context.inside(part).valves:
        letters = [
            letter for letter in context.inside(part).devices[coil].all() if kind.terminals[letter].function == "call"
        ]
        if letters:
            wrong, right = _sorted_calls(context, part)
            found.append(Valve(part, f"{part}.{coil}", f"{part}.{letters[0]}", wrong, right))
    return found


def _sorted_calls(context: CheckContext, part: str) -> tuple[tuple[Called, ...], tuple[Called, ...]]:
    wrong: list[Called] = []
    right: list[Called] = []
    for called in context.called:
        if not is_calm(context, called.point, called.control) or (part, "compressor") not in context.effects_of(called):
            continue
        cools = (part, "cooling") in called.point.effects
        heats = (part, "heat-pump-heating") in called.point.effects
        if called.call in COOL_CALLS and cools != heats:
            (right if cools else wrong).append(called)
        elif called.call in PUMP_HEAT_CALLS and cools != heats:
            (right if heats else wrong).append(called)
    return tuple(wrong), tuple(right)
