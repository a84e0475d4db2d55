"""Sources whose windings are tied together, in which operating point, and by what."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from app.checks.context import CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join, Winding
from app.circuit.operating_point import OperatingPoint


@dataclass(frozen=True, slots=True)
class Joined:
    """Two sources, and the path of next to no resistance between a hot side of one and a side of the other."""

    first: Winding
    second: Winding
    path: tuple[tuple[Join, str], ...]
    point: OperatingPoint


def joined_sources(context: CheckContext) -> tuple[Joined, ...]:
    """Return every pair of sources that are tied together, once, at the first point that shows it."""
    found: list[Joined] = []
    for first, second in combinations(context.windings, 2):
        if touching(context.ever, first, second) is None:
            continue
        for point in context.points_of(first.part):
            islands = context.islands_at(point)
            ends = touching(islands, first, second)
            path = None if ends is None else islands.path(*ends)
            if path is not None:
                found.append(Joined(first, second, tuple(path), point))
                break
    return tuple(found)


def touching(islands: Islands, first: Winding, second: Winding) -> tuple[str, str] | None:
    """Return the two nodes by which two sources touch, other than common to common; None where they do not.

    A hot side on the other's common counts only while the commons are apart: with both it is a bridged source.
    """
    if islands.same(first.hot, second.hot):
        return first.hot, second.hot
    if islands.same(first.common, second.common):
        return None
    if islands.same(first.hot, second.common):
        return first.hot, second.common
    if islands.same(first.common, second.hot):
        return first.common, second.hot
    return None


def tied_names(context: CheckContext) -> frozenset[str]:
    """Return the names of the sources that are tied to another."""
    return frozenset(
        winding.name for joined in context.once(joined_sources) for winding in (joined.first, joined.second)
    )
