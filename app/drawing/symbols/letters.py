"""The letters of a device, as they stand beside its symbol on a ladder diagram; each with where it comes from.

Rules of the file: a coil and its contacts share their letters, since they are one device. Letters are a default:
papers of the trade differ (a high-pressure switch is PS here, and HPS on many a drawing).
"""

from __future__ import annotations

from typing import NamedTuple

from app.catalogue.kind import Coil, Contact, Element, Kind
from app.drawing.symbols.choosing import mover_of, symbol_of

JIC = "JIC list of device designations (EGPl-1967, appendix)"
READING = f"{JIC}; that this device is meant is our reading"
MEMORY = "class letter of IEEE 315, from memory"
OWN = "our own; no list that we know names it"


class DeviceLetters(NamedTuple):
    """The letters of a device and their basis."""

    letters: str
    basis: str


COILS = {
    "relay": DeviceLetters("CR", JIC),
    "timer": DeviceLetters("TR", JIC),
    "contactor": DeviceLetters("CON", JIC),
    "valve": DeviceLetters("SOL", JIC),
    "motor": DeviceLetters("MTR", JIC),
    "heat-motor": DeviceLetters("HTR", READING),
}
"""By what a coil works."""

MOVERS = {
    "contact": DeviceLetters("CR", READING),
    "late-on": DeviceLetters("TR", READING),
    "late-off": DeviceLetters("TR", READING),
    "timed": DeviceLetters("TR", READING),
    "call": DeviceLetters("CR", READING),
    "switch": DeviceLetters("S", MEMORY),
    "temperature": DeviceLetters("TAS", JIC),
    "pressure": DeviceLetters("PS", JIC),
    "level": DeviceLetters("FS", JIC),
    "flow": DeviceLetters("FLS", JIC),
    "position": DeviceLetters("LS", JIC),
    "door": DeviceLetters("LS", READING),
    "hand": DeviceLetters("SS", JIC),
}
"""By what moves a contact, where that is no coil."""

OTHERS = {
    "transformer": DeviceLetters("T", JIC),
    "fuse": DeviceLetters("FU", JIC),
    "breaker": DeviceLetters("CB", JIC),
    "heater": DeviceLetters("HTR", JIC),
    "motor": DeviceLetters("MTR", JIC),
    "lamp": DeviceLetters("LT", JIC),
    "ground": DeviceLetters("GRD", JIC),
    "join": DeviceLetters("W", MEMORY),
    "opaque": DeviceLetters("U", MEMORY),
    "load": DeviceLetters("LD", OWN),
    "input": DeviceLetters("IN", OWN),
    "jumper": DeviceLetters("JMP", OWN),
}
"""By the symbol of what is left."""


def device_letters(element: Element, kind: Kind) -> DeviceLetters:
    """Return the letters of the device that an element belongs to."""
    if isinstance(element, Coil):
        return COILS[element.works]
    if isinstance(element, Contact):
        coil = kind.elements.get(element.by)
        return COILS[coil.works] if isinstance(coil, Coil) else MOVERS[mover_of(element, kind)]
    return OTHERS[symbol_of(element, kind).name]
