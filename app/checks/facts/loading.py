"""What a contact carries: the amps while everything runs, and those of the moment in which coils pull in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Coil, Contact, Input, Load
from app.checks.context import CheckContext
from app.checks.facts.demand import nominal_va
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Device, Join
from app.checks.facts.strain import is_calm
from app.circuit.operating_point import OperatingPoint

INRUSH_SHARE = 3.0
"""For the instant in which coils pull in a contact bears this many times its rating. Common practice, no source:
industrial pilot-duty ratings allow ten times (from memory), small relays of controls are given two or three times."""
NEARLY = 1.1
"""So much above its rating a contact is let pass: volt-amperes are given at rated volts, and a source under little
load rides up to a tenth above them."""
MOST_ABOVE_RATED = 1.3
"""No source gives more than this many times its rated volts, so no load takes more than this many times its amps."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """A contact that carries too much at a point. ``inrush_amps`` are those while the coils behind it pull in."""

    contact: Join
    point: OperatingPoint
    rating: float
    amps: float
    inrush_amps: float


def overloaded_contacts(context: CheckContext) -> tuple[Loaded, ...]:
    """Return the contacts that carry too much, each at the point at which it carries most, by name."""
    found = (_most(context, contact, rating) for contact, rating in _doubtful(context))
    return tuple(sorted((each for each in found if each is not None), key=lambda each: each.contact.by))


def _doubtful(context: CheckContext) -> Iterator[tuple[Join, float]]:
    """Yield the contacts with a rating behind which there is enough to exceed it, were all of it on at once."""
    behind, loads = context.once(_loads_behind)
    for contact in context.wiring.contacts:
        rating = rating_of(context, contact)
        if rating is None or contact.part not in context.wired_parts:
            continue
        tops = {behind.of(node) for node in (contact.a, contact.b) if not context.hot_at_rest(node)}
        sealed = sum(loads[top].sealed for top in tops if top in loads) * MOST_ABOVE_RATED
        inrush = sum(loads[top].inrush for top in tops if top in loads) * MOST_ABOVE_RATED
        if sealed > rating or inrush > INRUSH_SHARE * rating:
            yield contact, rating


def rating_of(context: CheckContext, contact: Join) -> float | None:
    """Return the most amps of a contact, None where its kind gives none."""
    element = context.wiring.kinds[contact.part].elements[contact.inner]
    if not isinstance(element, Contact) or element.max_amps is None:
        return None
    return figure(element.max_amps, context.wiring.settings[contact.part])


@dataclass(slots=True)
class _Amps:
    """Amps at rated volts, added up."""

    sealed: float = 0.0
    inrush: float = 0.0


def _loads_behind(context: CheckContext) -> tuple[Islands, dict[str, _Amps]]:
    """Return what hangs together once every contact that is not fed at rest is closed, and the amps of its devices."""
    contacts = [
        join for join in context.wiring.contacts if not (context.hot_at_rest(join.a) or context.hot_at_rest(join.b))
    ]
    behind = Islands(contacts, context.wired)
    loads: dict[str, _Amps] = {}
    for device in context.wiring.devices:
        sealed, inrush = _amps(context, device)
        for top in {behind.of(device.a), behind.of(device.b)}:
            total = loads.setdefault(top, _Amps())
            total.sealed += sealed
            total.inrush += inrush
    return behind, loads


def _amps(context: CheckContext, device: Device) -> tuple[float, float]:
    values, element = context.wiring.settings[device.part], device.element
    va = nominal_va(device, values)
    match element:
        case Coil():
            volts = figure(element.volts, values)
            return va / volts, figure(element.va_inrush, values) / volts
        case Load():
            return (va / figure(element.volts, values),) * 2
        case Input():
            return (va / 24.0,) * 2
    return 0.0, 0.0


def _most(context: CheckContext, contact: Join, rating: float) -> Loaded | None:
    worst: Loaded | None = None
    name = f"{contact.part}.{contact.inner}"
    for point in context.points_of(contact.part):
        if not is_calm(context, point, contact.part):
            continue
        amps = point.elements[name].amps
        if amps <= rating * 1e-3:
            continue
        inrush = amps + _more_amps_to_pull_in(context, contact, point)
        load = max(amps, inrush / INRUSH_SHARE) / rating
        if load > NEARLY * (1 + 1e-9) and (worst is None or load > _load(worst) + 1e-9):
            worst = Loaded(contact, point, rating, amps, inrush)
    return worst


def _load(loaded: Loaded) -> float:
    return max(loaded.amps, loaded.inrush_amps / INRUSH_SHARE) / loaded.rating


def _more_amps_to_pull_in(context: CheckContext, contact: Join, point: OperatingPoint) -> float:
    """Return by how much the coils behind a contact that have pulled in in this call take more while they do so."""
    behind, _ = context.once(_loads_behind)
    tops = {behind.of(node) for node in (contact.a, contact.b) if not context.hot_at_rest(node)}
    more = 0.0
    for device in context.devices_by_network.get(context.network_of(contact.part), []):
        if tops & {behind.of(device.a), behind.of(device.b)}:
            now = point.elements[device.name].state == "pulled-in"
            if now and context.idle.elements[device.name].state != "pulled-in":
                sealed, inrush = _amps(context, device)
                more += inrush - sealed
    return more
