"""The wiring as joins and devices between nodes, the view of a layout that rules ask where a path exists.

Rules of the file: this is about *where* things are joined, never about volts; volts come from operating points. A
node is ``part.NODE``, a terminal or an inner node of a part.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import Choice, Contact, Element, Fuse, Ground, JumperElement, Kind, Opaque, Source, Terminal
from app.catalogue.kind import Trace as TraceElement
from app.job.model import Layout, UnknownEnd

JoinSort = Literal["conductor", "trace", "fuse", "jumper", "contact"]


@dataclass(frozen=True, slots=True)
class Join:
    """Something of next to no resistance between two nodes. ``by`` is its subject string; ``inner`` its element."""

    a: str
    b: str
    by: str
    sort: JoinSort
    part: str = ""
    inner: str = ""


def new_join(a: str, b: str) -> Join:
    """Return the join that a conductor would make that is not there yet."""
    return Join(a, b, "conductor:", "conductor")


@dataclass(frozen=True, slots=True)
class Device:
    """A coil, load or input: something that does its work when there are volts across it."""

    name: str
    part: str
    inner: str
    a: str
    b: str
    element: Element


@dataclass(frozen=True, slots=True)
class Winding:
    """A source: its hot and its common node."""

    name: str
    part: str
    hot: str
    common: str
    element: Source


@dataclass(frozen=True)
class Wiring:
    """All joins, devices and sources of a layout, and what cannot be seen through."""

    terminals: dict[str, Terminal]
    settings: dict[str, dict[str, Choice]]
    kinds: dict[str, Kind]
    fixed: list[Join] = field(default_factory=list)
    contacts: list[Join] = field(default_factory=list)
    lifted: list[Join] = field(default_factory=list)
    devices: list[Device] = field(default_factory=list)
    windings: list[Winding] = field(default_factory=list)
    veiled: dict[str, str] = field(default_factory=dict)
    landed: dict[str, list[tuple[str, int]]] = field(default_factory=dict)
    by_part: dict[str, list[str]] = field(default_factory=dict)

    def landed_on(self, terminal: str) -> list[tuple[str, int]]:
        """Return the conductor ends (id, index) on a terminal."""
        return self.landed.get(terminal, [])

    def terminals_of(self, part: str) -> list[str]:
        """Return the terminals of a part, in the kind's order."""
        return self.by_part.get(part, [])


def wire_up(layout: Layout, catalogue: Catalogue) -> Wiring:
    """Return the wiring of a layout: ``fixed`` is what always conducts, ``contacts`` what may, ``lifted`` the
    jumpers that are removed; ``veiled`` gives nodes behind which something unseen lies, and why."""
    wiring = Wiring(terminals={}, settings={}, kinds={})
    for part_id in sorted(layout.parts):
        part = layout.parts[part_id]
        terminals = {f"{part_id}.{letter}": found for letter, found in catalogue.terminals_of(layout, part_id).items()}
        wiring.terminals.update(terminals)
        wiring.by_part[part_id] = list(terminals)
        kind = catalogue.kind_of(part)
        if kind is None:
            for letter in layout.landed_letters(part_id):
                wiring.veiled[f"{part_id}.{letter}"] = f"what {part_id} does inside is not known"
            continue
        wiring.kinds[part_id] = kind
        wiring.settings[part_id] = settings_of(kind, part)
        for inner, element in kind.elements.items():
            _add_element(wiring, part_id, inner, element)
    for name in sorted(layout.conductors):
        _add_conductor(wiring, name, layout)
    return wiring


def _add_element(wiring: Wiring, part: str, inner: str, element: Element) -> None:
    name = f"{part}.{inner}"
    if isinstance(element, Opaque):
        for node in element.nodes:
            wiring.veiled[f"{part}.{node}"] = element.why
        return
    if isinstance(element, Ground):
        return
    a, b = f"{part}.{element.between[0]}", f"{part}.{element.between[1]}"
    if isinstance(element, Source):
        wiring.windings.append(Winding(name, part, a, b, element))
    elif isinstance(element, TraceElement):
        wiring.fixed.append(Join(a, b, f"element:{name}", "trace", part, inner))
    elif isinstance(element, Fuse):
        wiring.fixed.append(Join(a, b, f"element:{name}", "fuse", part, inner))
    elif isinstance(element, JumperElement):
        fitted = wiring.settings[part].get(element.by) == "fitted"
        (wiring.fixed if fitted else wiring.lifted).append(Join(a, b, f"element:{name}", "jumper", part, element.by))
    elif isinstance(element, Contact):
        wiring.contacts.append(Join(a, b, f"element:{name}", "contact", part, inner))
    else:
        wiring.devices.append(Device(name, part, inner, a, b, element))


def _add_conductor(wiring: Wiring, name: str, layout: Layout) -> None:
    conductor = layout.conductors[name]
    landed = conductor.landed()
    if len(landed) == 2:
        wiring.fixed.append(Join(landed[0], landed[1], f"conductor:{name}", "conductor"))
    for index, end in enumerate(conductor.ends):
        if isinstance(end, str):
            wiring.landed.setdefault(end, []).append((name, index))
        elif isinstance(end, UnknownEnd) and landed:
            wiring.veiled.setdefault(landed[0], f"the far end of {name} was not seen ({end.unknown})")
