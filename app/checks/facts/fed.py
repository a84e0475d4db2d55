"""Coils and loads that a source feeds on both sides in an operating point, and what a coil has to pull in on.

Rules of the file: what is fed follows from the islands, so that a coil which gets too little to pull in is among them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Coil
from app.checks.context import CheckContext
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Device, Winding
from app.checks.facts.strain import is_calm
from app.circuit.operating_point import OperatingPoint
from app.job.names import letter_of

_KNOWN_STATES = ("pulled-in", "released")


@dataclass(frozen=True, slots=True)
class Fed:
    """A coil between the two sides of one source, at one point. ``hot`` and ``common`` are its own nodes."""

    device: Device
    coil: Coil
    winding: Winding
    point: OperatingPoint
    hot: str
    common: str
    volts: float
    pulled_in: bool

    def key(self) -> tuple[str, str]:
        """Return (coil, source) by name."""
        return self.device.name, self.winding.name


def fed_coils(context: CheckContext) -> tuple[Fed, ...]:
    """Return every coil at every point at which a source feeds it, whether it pulls in or not.

    Sources tied to another and networks without calm are left to other rules.
    """
    return tuple(
        fed
        for winding in context.windings
        if winding.name not in context.once(tied_names)
        for point in context.points_of(winding.part)
        if is_calm(context, point, winding.part)
        for fed in _fed_at(context, winding, point)
    )


def weakest(context: CheckContext) -> dict[tuple[str, str], Fed]:
    """Return each fed coil at the point at which it gets least; one that does not pull in comes first."""
    found: dict[tuple[str, str], Fed] = {}
    for fed in context.once(fed_coils):
        before = found.get(fed.key())
        if before is None or (fed.pulled_in, fed.volts + 1e-9) < (before.pulled_in, before.volts):
            found[fed.key()] = fed
    return found


def starved_parts(context: CheckContext) -> frozenset[str]:
    """Return the parts with a coil that is fed and does not pull in: what they ought to do needs no other reason."""
    return frozenset(fed.device.part for fed in context.once(fed_coils) if not fed.pulled_in)


def leads_of(context: CheckContext, fed: Fed) -> tuple[str, str] | None:
    """Return the terminals of its own part on the hot and on the common side of a coil, where it has both."""
    part = fed.device.part
    leads = context.inside(part).devices[fed.device.inner]
    first, second = (leads.first, leads.second) if fed.hot == fed.device.a else (leads.second, leads.first)
    islands = context.islands_at(fed.point)
    hot = next((f"{part}.{letter}" for letter in first if islands.same(f"{part}.{letter}", fed.hot)), None)
    common = next((f"{part}.{letter}" for letter in second if islands.same(f"{part}.{letter}", fed.common)), None)
    return (hot, common) if hot is not None and common is not None and letter_of(hot) != letter_of(common) else None


def rated_coil_volts(context: CheckContext, fed: Fed) -> float:
    """Return the volts that a coil is made for."""
    return figure(fed.coil.volts, context.wiring.settings[fed.device.part])


def _fed_at(context: CheckContext, winding: Winding, point: OperatingPoint) -> Iterator[Fed]:
    islands = context.islands_at(point)
    hot, common = islands.of(winding.hot), islands.of(winding.common)
    for device in context.devices_by_network.get(context.network_of(winding.part), []):
        if not isinstance(device.element, Coil):
            continue
        a, b = islands.of(device.a), islands.of(device.b)
        turned = a == common and b == hot
        if turned or (a == hot and b == common):
            state = point.elements[device.name]
            if state.volts is not None and state.state in _KNOWN_STATES:
                sides = (device.b, device.a) if turned else (device.a, device.b)
                pulled_in = state.state == "pulled-in"
                fed = Fed(device, device.element, winding, point, *sides, state.volts, pulled_in)
                if pulled_in or _is_really_fed(context, fed):
                    yield fed


def _is_really_fed(context: CheckContext, fed: Fed) -> bool:
    """Return whether the contacts on the way are closed: the islands count those of a call as closed even where its
    control has fallen asleep."""
    islands = context.islands_at(fed.point)
    out, back = islands.path(fed.winding.hot, fed.hot) or [], islands.path(fed.winding.common, fed.common) or []
    contacts = (join for join, _ in (*out, *back) if join.sort == "contact")
    return all(fed.point.elements[f"{join.part}.{join.inner}"].state == "closed" for join in contacts)
