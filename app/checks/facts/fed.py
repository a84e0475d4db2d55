"""Coils that a source feeds on both sides in an operating point, and how many volts they have there.

Rules of the file: a coil that has pulled in is fed by the one source that could reach it; only where that leaves it
open, and for a coil that has volts and does not pull in, are the islands of the point asked, which cost more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Coil
from app.checks.context import CheckContext
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Device, Join, Winding
from app.checks.facts.strain import is_calm
from app.circuit.operating_point import OperatingPoint

LEAST_SHARE = 0.2
"""A coil that does not pull in and has less than this share of its volts is not fed, or is short of more than volts."""


@dataclass(frozen=True, slots=True)
class Fed:
    """A coil between the two sides of one source, at one point."""

    device: Device
    coil: Coil
    winding: Winding
    point: OperatingPoint
    volts: float
    pulled_in: bool

    def key(self) -> tuple[str, str]:
        """Return (coil, source) by name."""
        return self.device.name, self.winding.name


@dataclass(frozen=True, slots=True)
class Way:
    """How a coil is fed: its node on the hot and on the common side, and the joins from the source to each."""

    hot: str
    common: str
    out: tuple[Join, ...]
    back: tuple[Join, ...]


def fed_coils(context: CheckContext) -> tuple[Fed, ...]:
    """Return every coil at every point at which a source feeds it, whether it pulls in or not.

    Sources tied to another and networks without calm are left to other rules.
    """
    tied = context.once(tied_names)
    windings: dict[int, list[Winding]] = {}
    for winding in context.windings:
        if winding.name not in tied:
            windings.setdefault(context.network_of(winding.part), []).append(winding)
    return tuple(fed for network, own in sorted(windings.items()) for fed in _fed_in(context, network, own))


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


def way_to(context: CheckContext, fed: Fed) -> Way | None:
    """Return how a coil is fed at its point, by the fewest joins; None where next to no resistance does not do it."""
    return _way(context, fed.point, fed.device, fed.winding)


def leads_of(context: CheckContext, fed: Fed) -> tuple[str, str] | None:
    """Return the terminals of its own part on the hot and on the common side of a coil, where it has both."""
    way = way_to(context, fed)
    if way is None:
        return None
    part, islands = fed.device.part, context.islands_at(fed.point)
    leads = context.inside(part).devices[fed.device.inner]
    first, second = (leads.first, leads.second) if way.hot == fed.device.a else (leads.second, leads.first)
    hot = next((f"{part}.{letter}" for letter in first if islands.same(f"{part}.{letter}", way.hot)), None)
    common = next((f"{part}.{letter}" for letter in second if islands.same(f"{part}.{letter}", way.common)), None)
    return (hot, common) if hot is not None and common is not None else None


def rated_coil_volts(context: CheckContext, fed: Fed) -> float:
    """Return the volts that a coil is made for."""
    return figure(fed.coil.volts, context.wiring.settings[fed.device.part])


def _fed_in(context: CheckContext, network: int, windings: list[Winding]) -> Iterator[Fed]:
    part = windings[0].part
    points = [point for point in context.points_of(part) if is_calm(context, point, part)]
    for device in context.devices_by_network.get(network, ()):
        coil = device.element
        if isinstance(coil, Coil) and device.part in context.wired_parts:
            reaching = [winding for winding in windings if _could_feed(context, winding, device)]
            least = LEAST_SHARE * figure(coil.volts, context.wiring.settings[device.part])
            for point in points if reaching else ():
                state = point.elements[device.name]
                if state.volts is None or state.volts < least or state.state not in ("pulled-in", "released"):
                    continue
                pulled_in = state.state == "pulled-in"
                winding = (
                    reaching[0] if pulled_in and len(reaching) == 1 else _feeding(context, point, device, reaching)
                )
                if winding is not None:
                    yield Fed(device, coil, winding, point, state.volts, pulled_in)


def _could_feed(context: CheckContext, winding: Winding, device: Device) -> bool:
    ever = context.ever
    ends, sides = {ever.of(device.a), ever.of(device.b)}, {ever.of(winding.hot), ever.of(winding.common)}
    return ends == sides


def _feeding(context: CheckContext, point: OperatingPoint, device: Device, windings: list[Winding]) -> Winding | None:
    """Return the source that feeds a device at a point over contacts that are really closed: the islands count those
    of a call as closed even where its control has fallen asleep."""
    for winding in windings:
        way = _way(context, point, device, winding)
        contacts = () if way is None else (join for join in (*way.out, *way.back) if join.sort == "contact")
        if way is not None and all(point.elements[f"{join.part}.{join.inner}"].state == "closed" for join in contacts):
            return winding
    return None


def _way(context: CheckContext, point: OperatingPoint, device: Device, winding: Winding) -> Way | None:
    islands = context.islands_at(point)
    for hot, common in ((device.a, device.b), (device.b, device.a)):
        if islands.same(hot, winding.hot) and islands.same(common, winding.common):
            out, back = islands.path(winding.hot, hot), islands.path(winding.common, common)
            if out is not None and back is not None:
                return Way(hot, common, tuple(join for join, _ in out), tuple(join for join, _ in back))
    return None
