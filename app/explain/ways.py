"""A layout as ways between points: conductors, contacts, devices and windings, each with its subject string.

A point is a terminal or an inner node of a part (``part.NODE``), or earth. This is about where things are joined;
volts and positions come from operating points.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from app.catalogue.catalogue import settings_of
from app.catalogue.kind import Coil, Contact, Element, Fuse, Ground, Input, JumperElement, Load, Opaque, Source, Trace
from app.circuit.network import EARTH, Circuit

Sort = Literal["conductor", "trace", "fuse", "jumper", "contact", "coil", "input", "load", "source", "short"]
DEVICES: frozenset[Sort] = frozenset({"coil", "input", "load"})
LASTING: frozenset[Sort] = frozenset({"conductor", "trace", "fuse"})


@dataclass(frozen=True, slots=True)
class Way:
    """Something between two points. ``part`` and ``inner`` say which element of which part; empty for a conductor."""

    subject: str
    sort: Sort
    a: str
    b: str
    part: str = ""
    inner: str = ""
    element: Element | None = None

    @property
    def name(self) -> str:
        """Return the name under which an operating point has it: ``w3`` or ``ou.contactor``."""
        return self.subject.partition(":")[2]

    def other(self, point: str) -> str:
        """Return the point at the other end."""
        return self.b if point == self.a else self.a


@dataclass(frozen=True)
class Ways:
    """All ways of a layout, and those at each point, in the order of their subjects."""

    ways: tuple[Way, ...]
    at: Mapping[str, list[Way]] = field(default_factory=dict)

    def around(self, point: str) -> list[Way]:
        """Return the ways that end on a point."""
        return self.at.get(point, [])


def ways_of(circuit: Circuit) -> Ways:
    """Return the ways of a layout."""
    layout = circuit.layout
    found = [
        _element_way(name, element) for name, element in circuit.elements.items() if not isinstance(element, Opaque)
    ]
    for name, conductor in layout.conductors.items():
        ends = conductor.landed()
        if len(ends) == 2:
            found.append(Way(f"conductor:{name}", "conductor", ends[0], ends[1]))
    return collected(found)


def collected(ways: Iterable[Way]) -> Ways:
    """Return ways with an index by point."""
    ordered = tuple(sorted(ways, key=lambda way: way.subject))
    at: dict[str, list[Way]] = {}
    for way in ordered:
        at.setdefault(way.a, []).append(way)
        if way.b != way.a:
            at.setdefault(way.b, []).append(way)
    return Ways(ordered, at)


def is_lasting(circuit: Circuit, way: Way) -> bool:
    """Return whether a way conducts whatever is called: a fitted jumper, or a safety as it stands at rest, too."""
    if way.sort in LASTING:
        return True
    if way.element is None or way.sort not in ("jumper", "contact"):
        return False
    part = circuit.layout.parts[way.part]
    kind = circuit.catalogue.kind_of(part)
    if kind is None:
        return False
    if isinstance(way.element, JumperElement):
        return settings_of(kind, part).get(way.element.by) == "fitted"
    if isinstance(way.element, Contact) and way.element.by in kind.switches:
        return kind.switches[way.element.by].rest == "closed"
    return False


def _element_way(name: str, element: Element) -> Way:
    part, _, inner = name.partition(".")
    subject = f"element:{name}"
    match element:
        case Ground():
            return Way(subject, "trace", f"{part}.{element.at}", EARTH, part, inner, element)
        case Opaque():
            raise ValueError("nothing is known between the nodes of what is opaque")
        case _:
            a, b = (f"{part}.{node}" for node in element.between)
            return Way(subject, _sort_of(element), a, b, part, inner, element)


def _sort_of(element: Element) -> Sort:
    match element:
        case Source():
            return "source"
        case Trace() | Ground() | Opaque():
            return "trace"
        case Fuse():
            return "fuse"
        case JumperElement():
            return "jumper"
        case Contact():
            return "contact"
        case Coil():
            return "coil"
        case Input():
            return "input"
        case Load():
            return "load"
