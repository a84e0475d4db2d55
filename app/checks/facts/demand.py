"""How many volt-amperes a call asks of a source: what a person adds up from the nameplates."""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Choice, Coil, Input, Load
from app.checks.context import CheckContext
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Device, Winding
from app.checks.facts.strain import amps_before_opening, bridges, rated_va, rated_volts
from app.circuit.operating_point import OperatingPoint

LEAST_SHARE = 0.5
"""Below this share of its rated amps no source is overloaded, whatever the wires drop: nothing needs adding up."""


@dataclass(frozen=True, slots=True)
class Overload:
    """A source of which more is asked than it is rated for, in VA, at the point that asks most."""

    winding: Winding
    point: OperatingPoint
    asked: float
    rated: float


def overloads(context: CheckContext) -> tuple[Overload, ...]:
    """Return the sources that are overloaded; those that are tied to another have a rule of their own."""
    found: list[Overload] = []
    for winding in context.windings:
        if winding.name not in context.once(tied_names):
            every = ((asked_of(context, winding, point), point) for point in context.points_of(winding.part))
            asked, point = max(every, key=lambda pair: pair[0])
            rated = rated_va(context, winding)
            if asked > rated * (1 + 1e-9):
                found.append(Overload(winding, point, asked, rated))
    return tuple(found)


def overloaded_names(context: CheckContext) -> frozenset[str]:
    """Return the names of the sources that are overloaded."""
    return frozenset(overload.winding.name for overload in context.once(overloads))


def asked_of(context: CheckContext, winding: Winding, point: OperatingPoint) -> float:
    """Return the volt-amperes of everything that works between the two sides of a source at a point.

    Where that was so much that a fuse has opened, it is what the fuse carried; a bridged source has another rule.
    """
    if any(bridge.winding.name == winding.name and bridge.point is point for bridge in context.once(bridges)):
        return 0.0
    opened = amps_before_opening(context, winding, point)
    if opened:
        return opened * rated_volts(context, winding)
    if point.sources[winding.name].amps < LEAST_SHARE * rated_va(context, winding) / rated_volts(context, winding):
        return 0.0
    islands = context.islands_at(point)
    hot, common = islands.of(winding.hot), islands.of(winding.common)
    return sum(
        nominal_va(device, context.wiring.settings[device.part])
        for device in context.devices_by_network.get(context.network_of(winding.part), [])
        if {islands.of(device.a), islands.of(device.b)} == {hot, common}
    )


def nominal_va(device: Device, settings: dict[str, Choice]) -> float:
    """Return the volt-amperes of a device at its rated volts; those of an input at 24 V."""
    match device.element:
        case Coil(va_sealed=va) | Load(va=va):
            return figure(va, settings)
        case Input(ohms=ohms):
            return 24.0**2 / figure(ohms, settings)
    return 0.0
