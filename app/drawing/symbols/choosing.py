"""Which symbol an element gets, from the data of its kind: never from a name.

A contact shows what moves it: a coil or a state at once, a state that takes its time, a switch by what that watches, a
call. What a coil works, and what a load is, say ``works``.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.catalogue.kind import (
    Coil,
    Contact,
    Element,
    Fuse,
    Ground,
    Input,
    JumperElement,
    Kind,
    Load,
    Opaque,
    Source,
    Trace,
)
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Counted, Latched, Timed, names_in, timers_in
from app.drawing.symbols.registry import symbol_named
from app.drawing.symbols.symbol import Symbol

COILS = {
    "relay": "coil",
    "timer": "coil",
    "contactor": "coil",
    "valve": "solenoid",
    "motor": "motor",
    "heat-motor": "heater",
}
"""The symbol of a coil by what it works."""

LATE_ON = frozenset({"after", "apart"})
LATE_OFF = frozenset({"hold"})
"""The timers that put off the begin and the end of a state."""


def symbol_of(element: Element, kind: Kind) -> Symbol:
    """Return the symbol of an element of a kind."""
    return symbol_named(_name_of(element, kind))


def _name_of(element: Element, kind: Kind) -> str:
    match element:
        case Contact():
            return f"{mover_of(element, kind)}-{rest_of(element, kind)}"
        case Coil():
            return COILS[element.works]
        case Load():
            return element.works or "load"
        case Input():
            return element.works or "input"
        case Fuse():
            return "breaker" if element.resettable else "fuse"
        case Source():
            return "transformer"
        case Trace():
            return "join"
        case JumperElement():
            return "jumper"
        case Ground():
            return "ground"
        case Opaque():
            return "opaque"


def mover_of(contact: Contact, kind: Kind) -> str:
    """Return what moves a contact, as its symbol is named for it: ``contact`` where something moves it at once."""
    if contact.watches:
        return contact.watches
    if contact.by == "calls":
        return "call"
    if contact.by in kind.switches:
        return kind.switches[contact.by].watches or "switch"
    timers = {_function(timer) for timer in _timers_behind(contact.by, kind)}
    if not timers:
        return "contact"
    if timers <= LATE_ON:
        return "late-on"
    return "late-off" if timers <= LATE_OFF else "timed"


def rest_of(contact: Contact, kind: Kind) -> str:
    """Return where a contact stands at rest; one that a switch moves stands as the switch does."""
    return kind.switches[contact.by].rest if contact.by in kind.switches else contact.rest


def _function(timer: Timed | Counted | Latched) -> str:
    return "latch" if isinstance(timer, Latched) else timer.function


def _timers_behind(state: str, kind: Kind) -> Iterator[Timed | Counted | Latched]:
    """Yield every timer that has a say in a state, through the states that it names; none for a coil."""
    seen: set[str] = set()
    todo = [state]
    while todo:
        name = todo.pop()
        if name in seen or name not in kind.states:
            continue
        seen.add(name)
        tree = parse_term(kind.states[name])
        yield from timers_in(tree)
        todo += names_in(tree)
