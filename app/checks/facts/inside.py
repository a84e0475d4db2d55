"""What a kind has inside, as rules ask it: which terminals a device works between, which coil turns the refrigerant.

Computed once for a kind and shared by all its parts. Paths inside a part run through traces, contacts, fuses and
jumpers and end at the first terminal, because what lies behind a terminal is wiring.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.catalogue.kind import Coil, Contact, Fuse, Input, JumperElement, Kind, Load, Source, Trace
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import names_in

SUPPLY_FUNCTIONS = frozenset({"supply", "supply-heating", "supply-cooling"})
HEAT_EFFECTS = frozenset({"heat-pump-heating", "furnace-heat", "furnace-heat-2", "electric-heat", "boiler-heat"})
BURNING = HEAT_EFFECTS - {"heat-pump-heating"}
"""Heat that is none of the compressor's own."""


@dataclass(frozen=True, slots=True)
class Leads:
    """The letters that a device or contact reaches from its first and from its second node."""

    first: tuple[str, ...]
    second: tuple[str, ...]

    def all(self) -> tuple[str, ...]:
        """Return the letters of both sides."""
        return self.first + self.second


@dataclass(frozen=True, slots=True)
class Inside:
    """What rules ask of a kind.

    ``devices`` and ``call_contacts`` give leads by element; ``awake_by`` names the loads that keep the part awake;
    ``valves`` the coils that decide between cooling and heating; ``own_fed`` the letters that the part itself puts
    24 V on or reads, so that a dry pair among them is no plain contact; ``fused`` the letters on a fuse; ``safeties``
    gives the switch by each contact that a safety moves.
    """

    devices: Mapping[str, Leads]
    call_contacts: Mapping[str, Leads]
    contacts: Mapping[str, Leads]
    awake_by: tuple[str, ...]
    valves: tuple[str, ...]
    own_fed: frozenset[str]
    fused: frozenset[str]
    safeties: Mapping[str, str]


_seen: dict[int, tuple[Kind, Inside]] = {}
_MOST_SEEN = 512


def look_inside(kind: Kind) -> Inside:
    """Return what rules ask of a kind; a kind that was seen already is not looked into again."""
    found = _seen.get(id(kind))
    if found is not None and found[0] is kind:
        return found[1]
    if len(_seen) >= _MOST_SEEN:
        _seen.clear()
    inside = _look(kind)
    _seen[id(kind)] = (kind, inside)
    return inside


def _look(kind: Kind) -> Inside:
    next_to = _adjacency(kind)
    devices: dict[str, Leads] = {}
    contacts: dict[str, Leads] = {}
    own_fed: set[str] = set()
    for name, element in kind.elements.items():
        if isinstance(element, Coil | Load | Input | Contact | Source):
            a, b = element.between
            leads = Leads(_letters_from(kind, next_to, a), _letters_from(kind, next_to, b))
            if isinstance(element, Source):
                own_fed.update(leads.all())
            elif isinstance(element, Contact):
                contacts[name] = Leads(
                    _reached_through(kind, next_to, a, name), _reached_through(kind, next_to, b, name)
                )
            else:
                devices[name] = leads
                own_fed.update(leads.all())
    return Inside(
        devices=devices,
        contacts=contacts,
        call_contacts={n: leads for n, leads in contacts.items() if kind.elements[n].by == "calls"},  # type: ignore[union-attr]
        awake_by=tuple(n for n, e in kind.elements.items() if isinstance(e, Load) and e.powers_above is not None),
        valves=_valves(kind),
        own_fed=frozenset(own_fed),
        fused=frozenset(node for e in kind.elements.values() if isinstance(e, Fuse) for node in e.between),
        safeties=_safeties(kind),
    )


def _safeties(kind: Kind) -> dict[str, str]:
    contacts = ((name, element.by) for name, element in kind.elements.items() if isinstance(element, Contact))
    return {name: by for name, by in contacts if by in kind.switches and kind.switches[by].safety}


def _adjacency(kind: Kind) -> dict[str, list[tuple[str, str]]]:
    """Give for each node the (element, other node) that next to no resistance may join with it."""
    next_to: dict[str, list[tuple[str, str]]] = {}
    for name, element in kind.elements.items():
        if isinstance(element, Trace | Contact | Fuse | JumperElement):
            a, b = element.between
            next_to.setdefault(a, []).append((name, b))
            next_to.setdefault(b, []).append((name, a))
    return next_to


def _letters_from(kind: Kind, next_to: Mapping[str, list[tuple[str, str]]], node: str) -> tuple[str, ...]:
    return _reached_through(kind, next_to, node, "")


def _reached_through(
    kind: Kind, next_to: Mapping[str, list[tuple[str, str]]], start: str, leaving_out: str
) -> tuple[str, ...]:
    """Return the letters reached from a node without passing a terminal or the element ``leaving_out``."""
    letters: set[str] = set()
    seen = {start}
    ahead = [start]
    while ahead:
        node = ahead.pop()
        if node in kind.terminals:
            letters.add(node)
            continue
        for name, other in next_to.get(node, ()):
            if name != leaving_out and other not in seen:
                seen.add(other)
                ahead.append(other)
    return tuple(letter for letter in kind.terminals if letter in letters)


def _valves(kind: Kind) -> tuple[str, ...]:
    """Return the coils on which cooling and heating by the compressor depend and the compressor itself does not."""
    cooling, heating = kind.effects.get("cooling"), kind.effects.get("heat-pump-heating")
    if cooling is None or heating is None:
        return ()
    runs = set(_names_under(kind, kind.effects.get("compressor", "false"), frozenset()))
    asked = [*_names_under(kind, cooling, frozenset()), *_names_under(kind, heating, frozenset())]
    found = {name for name in asked if name not in runs and isinstance(kind.elements.get(name), Coil)}
    return tuple(sorted(found))


def _names_under(kind: Kind, term: str, above: frozenset[str]) -> Iterator[str]:
    """Yield the names in a term and in the states that it asks for."""
    for name in names_in(parse_term(term)):
        yield name
        if name in kind.states and name not in above:
            yield from _names_under(kind, kind.states[name], above | {name})
