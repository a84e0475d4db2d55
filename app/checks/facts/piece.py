"""What one part brings to the wiring: its joins, devices and sources, named for the layout.

Made once for a part's id and kind, because most parts of a layout are as they were before an edit.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from app.catalogue.kind import Contact, Element, Fuse, Ground, JumperElement, Kind, Opaque, Source, Terminal, Trace
from app.checks.facts.joins import EARTH, Device, Join, Winding

_made: dict[tuple[str, int], Piece] = {}
_MOST_KEPT = 1024


@dataclass(frozen=True)
class Piece:
    """One part in the wiring. ``by_calls`` gives the contacts that calls move and whether each is closed at rest."""

    kind: Kind
    terminals: dict[str, Terminal]
    fixed: list[Join] = field(default_factory=list)
    jumpers: list[Join] = field(default_factory=list)
    contacts: list[Join] = field(default_factory=list)
    by_calls: dict[str, bool] = field(default_factory=dict)
    devices: list[Device] = field(default_factory=list)
    windings: list[Winding] = field(default_factory=list)
    veiled: dict[str, str] = field(default_factory=dict)


def piece_of(part: str, kind: Kind) -> Piece:
    """Return what a part of a kind brings to the wiring."""
    found = _made.get((part, id(kind)))
    if found is not None and found.kind is kind:
        return found
    if len(_made) >= _MOST_KEPT:
        _made.clear()
    piece = Piece(kind, {f"{part}.{letter}": terminal for letter, terminal in kind.terminals.items()})
    for inner, element in kind.elements.items():
        _add(piece, part, inner, element)
    _made[part, id(kind)] = piece
    return piece


def _add(piece: Piece, part: str, inner: str, element: Element) -> None:
    name = f"{part}.{inner}"
    if isinstance(element, Opaque):
        piece.veiled.update({f"{part}.{node}": element.why for node in element.nodes})
        return
    if isinstance(element, Ground):
        piece.fixed.append(Join(f"{part}.{element.at}", EARTH, f"element:{name}", "trace", part, inner))
        return
    a, b = f"{part}.{element.between[0]}", f"{part}.{element.between[1]}"
    match element:
        case Source():
            piece.windings.append(Winding(name, part, a, b, element))
        case Trace():
            piece.fixed.append(Join(a, b, f"element:{name}", "trace", part, inner))
        case Fuse():
            piece.fixed.append(Join(a, b, f"element:{name}", "fuse", part, inner))
        case JumperElement():
            piece.jumpers.append(Join(a, b, f"element:{name}", "jumper", part, element.by))
        case Contact():
            piece.contacts.append(Join(a, b, f"element:{name}", "contact", part, inner))
            if element.by == "calls":
                piece.by_calls[name] = element.rest == "closed"
        case _:
            piece.devices.append(Device(name, part, inner, a, b, element))
