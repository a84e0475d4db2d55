"""Fuses: which stand ahead of everything that a source feeds, and what hangs on it ahead of any."""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Fuse
from app.checks.context import CheckContext
from app.checks.facts.demand import overloaded_names
from app.checks.facts.islands import Islands
from app.checks.facts.joined import tied_names
from app.checks.facts.joins import Join, Winding
from app.checks.facts.secondary import limiting_of
from app.checks.facts.strain import is_calm
from app.circuit.operating_point import OperatingPoint


@dataclass(frozen=True, slots=True)
class Protection:
    """A source that does not limit itself, its first fuses, and the nodes that it feeds ahead of any fuse."""

    winding: Winding
    fuses: tuple[Join, ...]
    bare: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Strained:
    """A fuse that carries more than its rating and holds, at the point at which it carries most."""

    fuse: Join
    amps: float
    rating: float
    point: OperatingPoint


def protections(context: CheckContext) -> tuple[Protection, ...]:
    """Return the sources that are wired and not known to limit themselves, apart from those tied to another."""
    open_ended = [
        winding
        for winding in context.windings
        if limiting_of(context, winding) != "inherent"
        and winding.part in context.wired_parts
        and winding.name not in context.once(tied_names)
    ]
    if not open_ended:
        return ()
    return tuple(_protection(context, winding, context.once(unfused)) for winding in open_ended)


def unfused(context: CheckContext) -> Islands:
    """Return what next to no resistance joins at all times while every fuse is out."""
    return Islands([join for join in context.wiring.fixed if join.sort != "fuse"])


def fuse_rating(context: CheckContext, fuse: Join) -> float:
    """Return the amps of a fuse."""
    element = _element(context, fuse)
    return figure(element.amps, context.wiring.settings[fuse.part])


def fuse_that_does(context: CheckContext, fuse: Join, most: float) -> tuple[str, int | float] | None:
    """Return (setting, choice) of the largest fuse that the holder takes within ``most`` amps."""
    setting = _element(context, fuse).amps
    if not isinstance(setting, str):
        return None
    choices = context.wiring.kinds[fuse.part].settings[setting].choices
    fits = [each for each in choices if isinstance(each, int | float) and not isinstance(each, bool) and each <= most]
    return (setting, max(fits)) if fits else None


def strained_fuses(context: CheckContext) -> tuple[Strained, ...]:
    """Return the fuses that carry more than their rating and hold, where no source on them is overloaded, which
    explains it."""
    found: dict[str, Strained] = {}
    for fuse in context.wiring.fixed:
        if fuse.sort != "fuse" or fuse.part not in context.wired_parts:
            continue
        rating, network = fuse_rating(context, fuse), context.network_of(fuse.part)
        windings = [winding for winding in context.windings if context.network_of(winding.part) == network]
        overloaded = [winding for winding in windings if winding.name in context.once(overloaded_names)]
        if any(_has_a_side_at(context, winding, fuse) for winding in overloaded):
            continue
        for point in context.points_of(fuse.part):
            given = sum(point.sources[winding.name].amps for winding in windings)
            if given <= rating or not is_calm(context, point, fuse.part):
                continue
            amps = point.elements[f"{fuse.part}.{fuse.inner}"].amps
            before = found.get(fuse.by)
            if amps > rating * (1 + 1e-9) and (before is None or amps > before.amps + 1e-9):
                found[fuse.by] = Strained(fuse, amps, rating, point)
    return tuple(found[name] for name in sorted(found))


def _has_a_side_at(context: CheckContext, winding: Winding, fuse: Join) -> bool:
    ever = context.ever
    return ever.of(fuse.a) in (ever.of(winding.hot), ever.of(winding.common))


def _element(context: CheckContext, fuse: Join) -> Fuse:
    element = context.wiring.kinds[fuse.part].elements[fuse.inner]
    assert isinstance(element, Fuse)
    return element


def _protection(context: CheckContext, winding: Winding, unfused: Islands) -> Protection:
    top, wiring = unfused.of(winding.hot), context.wiring
    fuses = tuple(join for join in wiring.fixed if join.sort == "fuse" and top in map(unfused.of, (join.a, join.b)))
    ends = [node for device in wiring.devices for node in (device.a, device.b)]
    ends += [node for contact in wiring.contacts for node in (contact.a, contact.b)]
    return Protection(winding, fuses, tuple(sorted({node for node in ends if unfused.of(node) == top})))
