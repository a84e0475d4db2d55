"""Faults as the contract says them, for the second way: what is cut, added, forced, dead or set otherwise."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, Coil
from app.circuit.situation import Fault
from app.job.model import End, Layout


@dataclass
class Wire:
    """A conductor as it now is: its ends, and its ohms, None for an ideal join."""

    ends: list[End]
    ohms: float | None


@dataclass
class Broken:
    """A layout with faults. Names are ``part.element``; ``added`` are joins (end, end, ohms)."""

    wires: dict[str, Wire]
    added: list[tuple[str, str, float]] = field(default_factory=list)
    forced: dict[str, bool] = field(default_factory=dict)
    dead: set[str] = field(default_factory=set)
    otherwise: dict[str, Choice] = field(default_factory=dict)


def broken(layout: Layout, catalogue: Catalogue, faults: tuple[Fault, ...]) -> Broken:
    """Return the wires of a layout and what faults do to it."""
    found = Broken({name: Wire(list(wire.ends), _ohms(layout, name)) for name, wire in layout.conductors.items()})
    for fault in faults:
        _inject(found, layout, catalogue, fault)
    return found


def _ohms(layout: Layout, name: str) -> float | None:
    said = layout.conductors[name].length_and_size(layout.cables)
    if said is None:
        return None
    length_m, size_awg = said
    diameter_mm = 0.127 * math.pow(92, (36 - size_awg) / 39)
    return length_m / 58 / (math.pi * diameter_mm**2 / 4)


def _inject(found: Broken, layout: Layout, catalogue: Catalogue, fault: Fault) -> None:
    places = [fault.at] if isinstance(fault.at, str) else list(fault.at)
    names = [place.partition(":")[2] for place in places]
    name = names[0]
    match fault.is_:
        case "conductor-open":
            found.wires[name] = Wire([None, None], None)
        case "joint-ohms":
            found.wires[name].ohms = (found.wires[name].ohms or 0.0) + (fault.ohms or 0.0)
        case "short":
            one, other = (_touched(layout, place) for place in places)
            found.added.append((one, other, fault.ohms or 0.0))
        case "to-ground":
            found.added.append((_touched(layout, places[0]), "earth", fault.ohms or 0.0))
        case "swapped":
            _swap(found.wires[names[0]], found.wires[names[1]])
        case "coil-open" | "coil-shorted":
            found.dead.add(name)
            if fault.is_ == "coil-shorted":
                part, _, inner = name.partition(".")
                coil = catalogue.kind(layout.parts[part].kind).elements[inner]
                assert isinstance(coil, Coil)
                found.added.append((f"{part}.{coil.between[0]}", f"{part}.{coil.between[1]}", fault.ohms or 0.0))
        case "contact-welded":
            found.forced[name] = True
        case "contact-dead" | "fuse-open" | "source-dead":
            found.forced[name] = False
        case "wrong-setting":
            found.otherwise[name] = _other(layout, catalogue, name)


def _touched(layout: Layout, place: str) -> str:
    """A fault on a conductor touches it at its first landed end."""
    sort, _, name = place.partition(":")
    return name if sort == "terminal" else layout.conductors[name].landed()[0]


def _swap(one: Wire, other: Wire) -> None:
    """Two conductors change places on the one part on which both end."""
    ((i, j),) = _shared(one, other)
    one.ends[i], other.ends[j] = other.ends[j], one.ends[i]


def _shared(one: Wire, other: Wire) -> Iterator[tuple[int, int]]:
    for i, a in enumerate(one.ends):
        for j, b in enumerate(other.ends):
            if isinstance(a, str) and isinstance(b, str) and a.partition(".")[0] == b.partition(".")[0]:
                yield i, j


def _other(layout: Layout, catalogue: Catalogue, name: str) -> Choice:
    part, _, what = name.partition(".")
    kind = catalogue.kind(layout.parts[part].kind)
    now = settings_of(kind, layout.parts[part])[what]
    choices: tuple[Choice, ...] = ("fitted", "removed")
    if what in kind.settings:
        choices = kind.settings[what].choices or (False, True)
    elif what in kind.switches:
        choices = kind.switches[what].positions
    (other,) = (choice for choice in choices if choice != now)
    return other
