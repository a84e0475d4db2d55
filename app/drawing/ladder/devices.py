"""What stands above each symbol: the letters of its device, a number before them, a letter for the contact behind.

Rules of the file: a coil and its contacts are one device and share its letters; so are the contacts of one switch, and
those that a board moves together. A number stands before the letters where there are several like devices, a letter
behind them where a device has several contacts, as in 1-CR-A (JIC list, see ``app.drawing.symbols.letters``).
"""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Contact, Element, Kind
from app.drawing.ladder.graph import WIRES
from app.drawing.ladder.model import Ladder
from app.drawing.symbols.letters import device_letters
from app.job.model import Layout

PLAIN = {*WIRES, "opaque", "ground"}
"""What is no device."""


def designations(ladder: Ladder, layout: Layout, catalogue: Catalogue) -> Mapping[str, str]:
    """Return the designation of each device on the rungs, by the name of its element; numbers run from above."""
    letters: dict[str, str] = {}
    contacts: dict[str, list[str]] = {}
    device_of: dict[str, str] = {}
    for rung in ladder.rungs():
        for piece in rung.pieces:
            part, _, inner = piece.name.partition(".")
            kind = catalogue.kind_of(layout.parts[part]) if piece.sort not in PLAIN else None
            if kind is None:
                continue
            element = kind.elements[inner]
            device = device_of[piece.name] = _device(part, inner, element, kind)
            letters.setdefault(device, device_letters(element, kind).letters)
            if isinstance(element, Contact):
                contacts.setdefault(device, []).append(piece.name)
    numbered = _numbered(letters)
    found = {name: numbered[device] for name, device in device_of.items()}
    for device, own in contacts.items():
        if len(own) > 1:
            found.update({name: f"{numbered[device]}-{_suffix(at)}" for at, name in enumerate(own)})
    return found


def _device(part: str, inner: str, element: Element, kind: Kind) -> str:
    """Return a name for the device of an element: its coil, its switch, what a board does, or itself."""
    moved = isinstance(element, Contact) and element.by != "calls"
    if moved and isinstance(element, Contact) and (element.by in kind.switches or element.by in kind.states):
        return f"{part} {element.by}"
    return f"{part}.{element.by}" if moved and isinstance(element, Contact) else f"{part}.{inner}"


def _numbered(letters: Mapping[str, str]) -> Mapping[str, str]:
    like: dict[str, list[str]] = {}
    for device, own in letters.items():
        like.setdefault(own, []).append(device)
    return {
        device: own if len(devices) == 1 else f"{number}-{own}"
        for own, devices in like.items()
        for number, device in enumerate(devices, start=1)
    }


def _suffix(at: int) -> str:
    return ascii_uppercase[at] if at < len(ascii_uppercase) else str(at + 1)
