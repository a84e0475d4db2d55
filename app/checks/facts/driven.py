"""What drives an effect of a kind: the coils, contacts, switches and states behind it, and the terminals on which the
call for it arrives.

Computed once for a kind and effect. From a coil the search goes on through the contacts beside it to the first
terminal, and from a contact to what moves it; what lies behind a terminal is wiring.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from app.catalogue.kind import Coil, Contact, Fuse, Input, JumperElement, Kind, Load, Trace
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Tree, names_in
from app.checks.context import Called, CheckContext
from app.checks.facts.inside import SUPPLY_FUNCTIONS

_RAILS = SUPPLY_FUNCTIONS | {"common", "line"}


@dataclass(frozen=True, slots=True)
class Drive:
    """What an effect depends on. ``names`` are elements, switches and states; ``terms`` the terms of these states and
    of the effect; ``letters`` the terminals on which a call for it arrives, in the kind's order."""

    names: frozenset[str]
    terms: tuple[Tree, ...]
    letters: tuple[str, ...]


_seen: dict[tuple[int, str], tuple[Kind, Drive]] = {}
_MOST_SEEN = 1024


def drive_of(kind: Kind, effect: str) -> Drive:
    """Return what an effect of a kind depends on; nothing where the kind does not have it."""
    found = _seen.get((id(kind), effect))
    if found is not None and found[0] is kind:
        return found[1]
    if len(_seen) >= _MOST_SEEN:
        _seen.clear()
    drive = _search(kind, kind.effects.get(effect, "false"))  # type: ignore[call-overload]
    _seen[id(kind), effect] = (kind, drive)
    return drive


def drive_behind(kind: Kind, name: str) -> Drive:
    """Return what an element, switch or state of a kind depends on."""
    found = _seen.get((id(kind), f":{name}"))
    if found is not None and found[0] is kind:
        return found[1]
    drive = _search(kind, name)
    _seen[id(kind), f":{name}"] = (kind, drive)
    return drive


def driving_terminals(context: CheckContext, called: Called, part: str, effect: str) -> tuple[str, ...]:
    """Return the terminals of a part on which a call for an effect arrives hot now and does not at rest."""
    kind = context.kind_of(part)
    return () if kind is None else hot_now(context, called, part, drive_of(kind, effect).letters)


def called_by_wire(context: CheckContext, called: Called, part: str, effect: str) -> tuple[str, ...]:
    """Return the terminals of a part to which wires alone lead from the outputs of a call, for an effect."""
    of = context.wired.of
    outputs = {of(output) for output in context.outputs(called.control, called.call, called.outdoor_c)}
    terminals = (f"{part}.{letter}" for letter in drive_of(context.wiring.kinds[part], effect).letters)
    return tuple(terminal for terminal in terminals if of(terminal) in outputs)


def hot_now(context: CheckContext, called: Called, part: str, letters: Iterable[str]) -> tuple[str, ...]:
    """Return which terminals of a part, given by letter, are hot in a call and not at rest."""
    islands = context.islands_at(called.point)
    terminals = [f"{part}.{letter}" for letter in letters]
    hot = {islands.of(winding.hot) for winding in context.windings}
    return tuple(each for each in terminals if islands.of(each) in hot and not context.hot_at_rest(each))


def _search(kind: Kind, effect: str) -> Drive:
    names: set[str] = set()
    letters: set[str] = set()
    asked = parse_term(effect)
    terms = [asked]
    ahead = list(names_in(asked))
    while ahead:
        name = ahead.pop()
        if name in names:
            continue
        names.add(name)
        if name in kind.states:
            terms.append(parse_term(kind.states[name]))
            ahead.extend(names_in(terms[-1]))
        element = kind.elements.get(name)
        if isinstance(element, Contact):
            ahead.append(element.by)
        elif isinstance(element, Coil | Load | Input):
            for node in element.between:
                found, contacts = _beside(kind, node)
                letters.update(found)
                ahead.extend(contacts)
    called_on = (letter for letter in kind.terminals if letter in letters)
    return Drive(
        frozenset(names),
        tuple(terms),
        tuple(letter for letter in called_on if kind.terminals[letter].function not in _RAILS),
    )


def _beside(kind: Kind, start: str) -> tuple[set[str], set[str]]:
    """Return the letters that a node reaches without passing a terminal, and the contacts on the way."""
    letters: set[str] = set()
    contacts: set[str] = set()
    seen = {start}
    ahead = [start]
    while ahead:
        node = ahead.pop()
        if node in kind.terminals:
            letters.add(node)
            continue
        for name, other in _joined_with(kind, node):
            contacts.add(name)
            if other not in seen:
                seen.add(other)
                ahead.append(other)
    return letters, contacts


def _joined_with(kind: Kind, node: str) -> Iterator[tuple[str, str]]:
    for name, element in kind.elements.items():
        if isinstance(element, Contact | Trace | Fuse | JumperElement) and node in element.between:
            a, b = element.between
            yield name, b if a == node else a
