"""Which coils, inputs and loads have a say in a contact, and the other way round.

Rules of the file: a contact names its coil, or a state; what the state reads, and what the states that it reads read,
have a say in it. A contact that a switch, a hand or a call moves has no rung that it could be traced to.
"""

from __future__ import annotations

from collections.abc import Mapping

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Coil, Contact, Input, Kind, Load
from app.circuit.template import template_of
from app.explain.bearing import names_under
from app.job.model import Layout


def movers_in(layout: Layout, catalogue: Catalogue) -> Mapping[str, tuple[str, ...]]:
    """Return for each contact of a layout the coils, inputs and loads that have a say in it, sorted."""
    found: dict[str, tuple[str, ...]] = {}
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        if kind is not None:
            for contact, movers in _movers_of(kind).items():
                found[f"{part}.{contact}"] = tuple(f"{part}.{mover}" for mover in movers)
    return found


def turned_round(movers: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    """Return for each mover the contacts in which it has a say."""
    found: dict[str, list[str]] = {}
    for contact, own in sorted(movers.items()):
        for mover in own:
            found.setdefault(mover, []).append(contact)
    return {mover: tuple(contacts) for mover, contacts in found.items()}


def _movers_of(kind: Kind) -> Mapping[str, tuple[str, ...]]:
    return template_of(kind).keep("movers of a ladder", lambda: _made(kind))


def _made(kind: Kind) -> Mapping[str, tuple[str, ...]]:
    return {
        name: tuple(sorted(under for under in names_under(kind, element.by) if _is_mover(kind, under)))
        for name, element in sorted(kind.elements.items())
        if isinstance(element, Contact) and element.by != "calls" and element.by not in kind.switches
    }


def _is_mover(kind: Kind, name: str) -> bool:
    return isinstance(kind.elements.get(name), Coil | Input | Load)
