"""Points at which a fuse opened, a source is bridged or nothing settles: there, silence of the equipment is no news.

Rules about what a call brings look only at networks that are calm, so that one short does not also shout that nothing
works, and so that a short in one house does not hide what is wrong in the next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.catalogue import figure
from app.catalogue.kind import Contact
from app.checks.context import CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join, Winding
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

STRAINED_SHARE = 3.0
"""A source that gives more than this many times its rated amps is bridged by something that is no load."""

SHORT_OHMS = 2.5
"""What is left of a load below this is a short: 24 V controls of 230 VA do not exist. Common practice, no source."""


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
    """Return every bridged source, at each point that shows it, idle first.

    This follows from the joins alone, so that a short is told also where something unseen leaves its volts unknown.
    """
    found: list[Bridge] = []
    for winding in context.windings:
        for point in _every_point(context, winding) if is_bridged(context.ever, winding) else ():
            path = _bridging_path(context, winding, point)
            if path is not None:
                found.append(Bridge(winding, tuple(path), point))
    return tuple(found)


def _every_point(context: CheckContext, winding: Winding) -> Iterator[OperatingPoint]:
    yield from context.points_of(winding.part)
    yield from context.other_points_of(winding.part)


def is_bridged(islands: Islands, winding: Winding) -> bool:
    """Return whether nothing limits the current from the hot to the common side of a source."""
    return islands.same(winding.hot, winding.common)


def windings_at(context: CheckContext, point: OperatingPoint) -> list[Winding]:
    """Return the sources that a point's call could load; all of them for idle."""
    network = context.network_at(point)
    return [winding for winding in context.windings if network in (None, context.network_of(winding.part))]


def amps_before_opening(context: CheckContext, winding: Winding, point: OperatingPoint) -> float:
    """Return the most that a fuse on the hot side of a source carried before it opened; 0 where none opened."""
    return max(
        (amps for fuse, amps in point.blown.items() if _is_fed_through(context, winding, fuse)),
        default=0.0,
    )


def is_calm(context: CheckContext, point: OperatingPoint, part: str) -> bool:
    """Return whether what a point shows of a part's network can be taken at its word, at rest and now."""
    network = context.network_of(part)
    disturbed = context.once(_disturbed)
    if id(point) not in disturbed:
        disturbed[id(point)] = frozenset(_networks_disturbed_at(context, point))
    return network not in disturbed[id(context.idle)] and network not in disturbed[id(point)]


def _disturbed(context: CheckContext) -> dict[int, frozenset[int]]:
    """Return by point the networks in which a fuse opened, a source gives far too much, or nothing settles."""
    return {id(point): frozenset(_networks_disturbed_at(context, point)) for point in context.points}


def _networks_disturbed_at(context: CheckContext, point: OperatingPoint) -> Iterator[int]:
    yield from (context.network_of(part_of(fuse)) for fuse in point.blown)
    for winding in windings_at(context, point):
        given = point.sources.get(winding.name)
        rated_amps = rated_va(context, winding) / rated_volts(context, winding)
        if given is not None and given.amps > STRAINED_SHARE * rated_amps:
            yield context.network_of(winding.part)
    if point.unsettled is not None:
        named = [*point.unsettled.elements, *(name for coils in point.unsettled.outcomes.values() for name in coils)]
        yield from (context.network_of(part_of(name)) for name in named)
        if not named:
            yield from context.circuit.network_of.values()


def _bridging_path(context: CheckContext, winding: Winding, point: OperatingPoint) -> list[tuple[Join, str]] | None:
    islands = context.islands_at(point)
    if is_bridged(islands, winding):
        return islands.path(winding.hot, winding.common)
    if not _was_short(context, winding, point):
        return None
    moved = Islands(_moved_contacts(context, winding), islands)
    return moved.path(winding.hot, winding.common)


def _was_short(context: CheckContext, winding: Winding, point: OperatingPoint) -> bool:
    """Return whether a fuse opened on so little resistance that it was no load.

    What bridged the source may have let go since: a contact of a board that lost its power with the fuse.
    """
    amps = amps_before_opening(context, winding, point)
    volts, va = rated_volts(context, winding), rated_va(context, winding)
    regulation = max(0.01, figure(winding.element.regulation, context.wiring.settings[winding.part]))
    return amps > 0 and volts * (1 + regulation) / amps - volts**2 * regulation / va < SHORT_OHMS


def _moved_contacts(context: CheckContext, winding: Winding) -> list[Join]:
    """Return the contacts of a source's network that coils or states move."""
    found: list[Join] = []
    for join in context.contacts_by_network.get(context.network_of(winding.part), []):
        kind = context.wiring.kinds[join.part]
        element = kind.elements[join.inner]
        if isinstance(element, Contact) and element.by != "calls" and element.by not in kind.switches:
            found.append(join)
    return found


def _is_fed_through(context: CheckContext, winding: Winding, fuse: str) -> bool:
    return any(
        join.by == f"element:{fuse}" and context.wired.same(join.a, winding.hot) for join in context.wiring.fixed
    )
