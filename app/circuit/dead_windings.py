"""Windings whose mains are off: no source any more, but copper that still joins its two ends.

An operating point takes such a winding out, so that its two sides lie apart. A meter is held to the real thing: there
it finds the winding, and shows 0 V from end to end where nothing else feeds it.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.catalogue import figure, supply_of
from app.catalogue.kind import Source
from app.circuit.frozen import Frozen, frozen_around, values_at
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.parts_asked import supplies_off
from app.job.names import part_of

NO_LOAD_SHARE = 0.15
"""What a small transformer with nothing on its other side draws, of its rated amps (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class DeadWinding:
    """A winding between two nodes, with its siemens while its primary is open; ``part`` is whose it is."""

    part: str
    a: int
    b: int
    siemens: complex


def dead_windings(frozen: Frozen, point: OperatingPoint) -> list[DeadWinding]:
    """Return the windings of some networks that are dead because their mains are off."""
    off = supplies_off(point.situation)
    found = []
    for held in frozen.held if off else ():
        if isinstance(held.element, Source) and not held.is_on:
            values = values_at(frozen, held.name, point)
            if supply_of(held.element, values) in off:
                volts, va = figure(held.element.volts, values), figure(held.element.va, values)
                found.append(DeadWinding(part_of(held.name), held.a, held.b, -1j * NO_LOAD_SHARE * va / volts**2))
    return found


def dead_between(circuit: Circuit, point: OperatingPoint, a: str, b: str) -> str:
    """Return in words that a dead winding joins two terminals which nothing else joins; empty where none does."""
    if not supplies_off(point.situation):
        return ""
    frozen = frozen_around(circuit, point, (a, b), with_cables=False)
    return joined_by(frozen, dead_windings(frozen, point), a, b)


def joined_by(frozen: Frozen, windings: list[DeadWinding], a: str, b: str) -> str:
    """Return in words that one of ``windings`` joins two terminals which nothing else joins; empty where none does."""
    if not windings:
        return ""
    branches = [(held.a, held.b, held.siemens) for held in frozen.held]
    with_windings = [*branches, *((each.a, each.b, each.siemens) for each in windings)]
    root = frozen.solved(with_windings, []).root
    if root[frozen.node_of[a]] != root[frozen.node_of[b]]:
        return ""
    parts = frozen.circuit.layout.parts
    here = [each.part for each in windings if root[each.a] == root[frozen.node_of[a]]]
    named = " and ".join(parts[part].label or part for part in dict.fromkeys(here))
    return f"only the winding of {named} joins the two, dead with its mains off; a meter shows 0 V there"
