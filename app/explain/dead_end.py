"""How far hot comes where no way leads on: to the output of a control at which nothing more is landed.

A device without any way to it tells nothing of the way that it should have. What can be told is where a call that is
asked for goes out and gets nowhere, and how far one comes from the device itself.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping

from app.catalogue.kind import Contact
from app.explain.answer import Explanation
from app.explain.leg import Leg, Stopped, Stretch
from app.explain.names import Names
from app.explain.standing import Standing
from app.explain.ways import DEVICES, Way
from app.job.model import UnknownEnd
from app.job.names import letter_of, part_of

IDLE_AMPS = 0.02
"""Less than this through a contact works nothing: at most an input listens there, which draws a few milliamperes."""

Before = Mapping[str, tuple[Way, str]]
"""For each point the way by which it was reached, and from which point."""


def dead_end(standing: Standing, names: Names, lacking: Explanation) -> Stretch | None:
    """Return the way from a source to where an asked call gets nowhere; None where that is not one place.

    ``lacking`` is the explanation of a device that no supply reaches; of a common that is missing nothing is known
    on the hot side.
    """
    if lacking.stop == "no-common":
        return None
    before = hot_from(standing)
    outputs = [way for way in idle_outputs(standing) if way.a in before or way.b in before]
    wanted = letter_of(lacking.reasons[0].subject.partition(":")[2])
    ends = [last_behind(standing, before, way) for way in outputs]
    found = [each for each in ends if each]
    alike = [each for each in found if letter_of(each) == wanted] if len(found) > 1 else found
    if len(alike) != 1:
        return None
    legs = legs_to(standing, before, alike[0])
    bare = not any(alike[0] in conductor.ends for conductor in standing.circuit.layout.conductors.values())
    words = f"{letter_of(alike[0])} not landed" if bare else f"nothing leads on from {letter_of(alike[0])}"
    return _ended(standing, names, legs, alike[0], words)


def far_side(standing: Standing, names: Names, lacking: Explanation) -> Stretch:
    """Return how far one comes from a device on which something is lacking."""
    at = lacking.reasons[0].subject
    screw = at.partition(":")[2]
    if not at.startswith("terminal:"):
        screws = sorted(name for name in standing.point.terminals if part_of(name) == part_of(screw))
        return Stretch((), Stopped(f"terminal:{screws[0]}" if screws else "", "nothing leads here"))
    before = reached_by(standing, [screw])
    legs = [leg for point in before for leg in legs_to(standing, before, point)]
    what = "common" if lacking.stop == "no-common" else "supply"
    once = tuple(dict.fromkeys(legs))
    for point in (*reversed(list(before)), screw):
        ended = _ended(standing, names, once, point, "")
        if ended.stop.words:
            return ended
    return Stretch(once, Stopped(f"terminal:{screw}", f"no {what} reaches {letter_of(screw)}"))


def legs_to(standing: Standing, before: Before, goal: str) -> tuple[Leg, ...]:
    """Return the legs from the beginning of a search to a point."""
    hops: list[tuple[Way, str, str]] = []
    here = goal
    while here in before:
        way, came_from = before[here]
        hops.append((way, came_from, here))
        here = came_from
    legs: list[Leg] = []
    at = here if here in standing.point.terminals else ""
    for way, _, reached in reversed(hops):
        if reached not in standing.point.terminals:
            continue
        if at and at != reached:
            legs.append(Leg(way.subject if way.sort == "conductor" else f"part:{part_of(reached)}", at, reached))
        at = reached
    return tuple(legs)


def hot_from(standing: Standing) -> Before:
    """Return what conducts to the hot side of a source now."""
    sources = [way.a for way in standing.ways.ways if way.sort == "source" and standing.is_on(way.name)]
    return reached_by(standing, sources)


def reached_by(standing: Standing, starts: list[str]) -> dict[str, tuple[Way, str]]:
    """Return what conducts to some points now, the nearest first, without going through devices."""
    before: dict[str, tuple[Way, str]] = {}
    ahead = deque(starts)
    while ahead:
        here = ahead.popleft()
        for way in standing.ways.around(here):
            other = way.other(here)
            passes = way.sort not in DEVICES and way.sort != "source" and standing.conducts(way)
            if passes and other not in before and other not in starts:
                before[other] = (way, here)
                ahead.append(other)
    return before


def idle_outputs(standing: Standing) -> Iterator[Way]:
    """Yield the contacts that the asked calls close and by which nothing is worked."""
    for way in standing.ways.ways:
        called = isinstance(way.element, Contact) and way.element.by == "calls" and standing.is_on(way.name)
        if called and standing.point.elements[way.name].amps < IDLE_AMPS:
            yield way


def last_behind(standing: Standing, before: Before, contact: Way) -> str | None:
    """Return the screw behind a contact from which nothing leads on, the farthest of several."""
    behind: list[str] = []
    for point in before:
        here = point
        while here in before:
            way, here = before[here]
            if way.subject == contact.subject:
                behind.append(point)
                break
    screws = [point for point in behind if point in standing.point.terminals]
    return screws[-1] if screws else None


def _ended(standing: Standing, names: Names, legs: tuple[Leg, ...], screw: str, words: str) -> Stretch:
    """Return legs with their end: at a screw, or at the loose end of a conductor that is landed there alone."""
    for name, conductor in standing.circuit.layout.conductors.items():
        if conductor.landed() != [screw]:
            continue
        loose = 1 - conductor.ends.index(screw)
        unseen = isinstance(conductor.ends[loose], UnknownEnd)
        said = f"{names.conductor(name)} not {'seen' if unseen else 'landed'}"
        return Stretch((*legs, Leg(f"conductor:{name}", screw, "")), Stopped(f"end:{name}.{loose}", said))
    return Stretch(legs, Stopped(f"terminal:{screw}", words))
