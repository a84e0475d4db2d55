"""What the truth of a term hangs on, and which way: the coil whose pulling in helps it, the input that hinders it.

Rules of the file: a switch stands as it stands at rest and a setting as the part has it, because what something is
for does not change while a limit happens to be open. What the weather decides may go either way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import settings_of
from app.catalogue.kind import Choice, Coil, Contact, Fuse, Input, Kind, Load
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import (
    Both,
    Compared,
    Constant,
    Counted,
    Either,
    Latched,
    Named,
    Not,
    Timed,
    Tree,
    holds,
    names_in,
)
from app.circuit.template import template_of
from app.explain.trial import Trial
from app.job.model import Part

Signed = frozenset[tuple[str, int]]
"""Elements with +1 where being on helps and -1 where it hinders."""


@dataclass(frozen=True, slots=True)
class Bearing:
    """A term with all that is fixed put in: its value where nothing moves it, else the elements that move it."""

    value: bool | None
    signs: Signed = frozenset()

    def turned(self) -> Bearing:
        """Return the bearing of the opposite."""
        value = None if self.value is None else not self.value
        return Bearing(value, frozenset((name, -sign) for name, sign in self.signs))


@dataclass(frozen=True, slots=True)
class Sway:
    """What an element moves in its own part: (contact, sign) and (effect, sign); a contact counts as it closes."""

    contacts: tuple[tuple[str, int], ...]
    effects: tuple[tuple[str, int], ...]


NOTHING_MOVED = Sway((), ())


def sways_of(kind: Kind, part: Part) -> Mapping[str, Sway]:
    """Return what each coil, input and load of a part moves in it, by element."""
    values = settings_of(kind, part)
    # A switch as it stands at rest; system switches and recorded positions do not change what something is for.
    values.update({name: switch.rest for name, switch in kind.switches.items()})
    key = ("sways", tuple((name, value, isinstance(value, bool)) for name, value in values.items()))
    return template_of(kind).keep(key, lambda: _sways(kind, values))


def movers_of(kind: Kind, part: Part, contact: str) -> frozenset[str]:
    """Return the elements of a part whose being on helps to close one of its contacts."""
    return frozenset(
        element
        for element, sway in sways_of(kind, part).items()
        for name, sign in sway.contacts
        if name == contact and sign > 0
    )


def names_under(kind: Kind, term: str) -> frozenset[str]:
    """Return the names in a term and in the states that it asks for."""
    found: set[str] = set()
    ahead = list(names_in(parse_term(term)))
    while ahead:
        name = ahead.pop()
        if name not in found:
            found.add(name)
            if name in kind.states:
                ahead += names_in(parse_term(kind.states[name]))
    return frozenset(found)


def _sways(kind: Kind, values: Mapping[str, Choice]) -> Mapping[str, Sway]:
    contacts: dict[str, list[tuple[str, int]]] = {}
    effects: dict[str, list[tuple[str, int]]] = {}
    for name, element in sorted(kind.elements.items()):
        if isinstance(element, Contact) and element.by != "calls" and element.by not in kind.switches:
            turned = -1 if element.rest == "closed" else 1
            for mover, sign in _movers(Named(element.by), kind, values):
                contacts.setdefault(mover, []).append((name, sign * turned))
    for effect, term in sorted(kind.effects.items()):
        for mover, sign in _movers(parse_term(term), kind, values):
            effects.setdefault(mover, []).append((effect, sign))
    return {
        mover: Sway(tuple(contacts.get(mover, ())), tuple(effects.get(mover, ())))
        for mover in sorted({*contacts, *effects})
    }


def _movers(tree: Tree, kind: Kind, values: Mapping[str, Choice]) -> list[tuple[str, int]]:
    """Return the elements that move a term, and which way.

    A name may stand in a term and yet make no difference: ``fan or fan and cool`` hangs on ``fan`` alone.
    """
    signs = sorted(_bearing(tree, kind, values, frozenset()).signs)
    named = frozenset(name for name, _ in signs)
    if len(named) < 2:
        return signs
    trial = Trial(kind, values, named)
    return [(name, sign) for name, sign in signs if trial.moves(tree, name, sign)]


def _bearing(tree: Tree, kind: Kind, values: Mapping[str, Choice], above: frozenset[str]) -> Bearing:
    def of(inner: Tree) -> Bearing:
        return _bearing(inner, kind, values, above)

    match tree:
        case Constant(value):
            return Bearing(bool(value))
        case Named(name):
            return _named(name, kind, values, above)
        case Not(inner):
            return of(inner).turned()
        case Both(left, right):
            return _both(of(left), of(right))
        case Either(left, right):
            return _both(of(left).turned(), of(right).turned()).turned()
        case Compared():
            named = set(names_in(tree))
            return Bearing(holds(tree, values.__getitem__)) if named <= values.keys() else Bearing(None)
        case Timed(_, inner, _):
            return of(inner)
        case Counted("times"):
            return Bearing(False)
        case Latched(set_by, reset_by) | Counted(_, set_by, _, reset_by):
            return _both(of(set_by), of(reset_by).turned())


def _named(name: str, kind: Kind, values: Mapping[str, Choice], above: frozenset[str]) -> Bearing:
    if name in values:
        return Bearing(holds(Named(name), values.__getitem__))
    if name in kind.states:
        # A state that reads itself through a timer adds nothing that is not said already.
        return (
            Bearing(False) if name in above else _bearing(parse_term(kind.states[name]), kind, values, above | {name})
        )
    match kind.elements.get(name):
        case Coil() | Input() | Load():
            return Bearing(None, frozenset({(name, 1)}))
        case Fuse():
            return Bearing(True)
        case _:
            return Bearing(None)


def _both(left: Bearing, right: Bearing) -> Bearing:
    if left.value is False or right.value is False:
        return Bearing(False)
    if left.value is True:
        return right
    if right.value is True:
        return left
    return Bearing(None, left.signs | right.signs)
