"""Points at which a fuse opened, a source is bridged or nothing settles: there, silence of the equipment is no news.

Rules about what a call brings look only at calm points, so that one short does not also shout that nothing works.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.checks.context import CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.wiring import Join, Winding
from app.circuit.operating_point import OperatingPoint

STRAINED_SHARE = 3.0
"""A source that gives more than this many times its rated amps is bridged by something that is no load."""


@dataclass(frozen=True, slots=True)
class Bridge:
    """A path of next to no resistance from the hot to the common side of a source in one operating point."""

    winding: Winding
    path: tuple[tuple[Join, str], ...]
    point: OperatingPoint


def rated_volts(context: CheckContext, winding: Winding) -> float:
    """Return the rated volts of a source."""
    return figure(winding.element.volts, context.wiring.settings[winding.part])


def rated_va(context: CheckContext, winding: Winding) -> float:
    """Return the rated volt-amperes of a source."""
    return figure(winding.element.va, context.wiring.settings[winding.part])


def bridges(context: CheckContext) -> tuple[Bridge, ...]:
    """Return every bridged source, point by point, idle first."""
    found: list[Bridge] = []
    for point in context.points:
        if not is_strained(context, point):
            continue
        islands = context.islands_at(point)
        for winding in windings_at(context, point):
            path = islands.path(winding.hot, winding.common) if is_bridged(islands, winding) else None
            if path is not None:
                found.append(Bridge(winding, tuple(path), point))
    return tuple(found)


def is_bridged(islands: Islands, winding: Winding) -> bool:
    """Return whether nothing limits the current from the hot to the common side of a source."""
    return islands.same(winding.hot, winding.common)


def windings_at(context: CheckContext, point: OperatingPoint) -> list[Winding]:
    """Return the sources that a point's call could load; all of them for idle."""
    network = context.network_at(point)
    return [winding for winding in context.windings if network in (None, context.network_of(winding.part))]


def is_strained(context: CheckContext, point: OperatingPoint) -> bool:
    """Return whether a fuse opened or a source gives far more than it is made for."""
    if point.blown:
        return True
    for winding in windings_at(context, point):
        given = point.sources.get(winding.name)
        rated_amps = rated_va(context, winding) / rated_volts(context, winding)
        if given is not None and given.amps > STRAINED_SHARE * rated_amps:
            return True
    return False


def calm_points(context: CheckContext) -> frozenset[int]:
    """Return the places in ``context.points`` of the points that settled with every fuse whole and no source
    bridged; none where already the idle point is not one of them."""
    calm = frozenset(
        index for index, point in enumerate(context.points) if point.settled and not is_strained(context, point)
    )
    return calm if 0 in calm else frozenset()


def is_calm(context: CheckContext, point: OperatingPoint) -> bool:
    """Return whether what a point shows of effects can be taken at its word."""
    return id(point) in context.once(_calm_ids)


def _calm_ids(context: CheckContext) -> frozenset[int]:
    return frozenset(id(context.points[index]) for index in context.once(calm_points))
