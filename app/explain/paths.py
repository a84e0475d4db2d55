"""The path by which a device gets its volts, or the one that lacks least: from hot through each way to common.

Rules of the file: where current flows the path follows the most of it. Where none flows, the path is the one with the
least in the way: rather a blown fuse, a lead that was cut or a safety than what a call closes, rather that than a
jumper that is out, and what a coil or a board closes last. Ties go to the shorter path and then to the smaller name,
so that the same circuit is always told in the same way.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from heapq import heappop, heappush

from app.catalogue.kind import Contact
from app.circuit.network import EARTH
from app.explain.standing import Standing
from app.explain.ways import DEVICES, Way

Cost = tuple[float, int, float]
"""What is in the way, devices passed through, and how far it is: least first."""
GAP_OF_FUSE = 0.5
GAP_OF_SAFETY = 0.8
GAP_OF_ASKED_CALL = 0.6
GAP_OF_CALL = 1.0
GAP_OF_COIL_OR_LOGIC = 3.0
GAP_OF_SOURCE = 1.5
GAP_OF_JUMPER = 1.5
LEAST_AMPS = 1e-4
MOST_PATHS_COUNTED = 8


@dataclass(frozen=True, slots=True)
class Hop:
    """One way and the point that is reached by it, as one goes from hot to common."""

    way: Way
    reaches: str


@dataclass(frozen=True, slots=True)
class Path:
    """From the hot side of ``source`` to the device, and on to its common side."""

    source: Way
    to_device: tuple[Hop, ...]
    to_common: tuple[Hop, ...]
    cost: Cost

    @property
    def hops(self) -> tuple[Hop, ...]:
        """Return all hops but the device's own."""
        return self.to_device + self.to_common


class Paths:
    """Looks for paths at an operating point."""

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        self.ways = standing.ways
        self._by_subject = {way.subject: way for way in self.ways.ways}
        self._sources = [way for way in self.ways.ways if way.sort == "source"]

    def running(self, device: Way) -> Path | None:
        """Return the conducting path that carries most, through other devices only where it must be."""
        return self._best(device, self._cost_of_conducting, frozenset())

    def lacking(self, device: Way, without: frozenset[str] = frozenset()) -> Path | None:
        """Return the path that lacks least, None where no closing of contacts would bring one."""
        found = self._best(device, self._cost_with_gaps, without)
        # A fuse that opened on a short leaves what lies behind it on the common side; then common is no bar.
        return found or self._best(device, self._cost_with_gaps, without, is_barred=False)

    def others(self, device: Way, path: Path) -> int:
        """Return how many more conducting paths there are beside one, by what else could carry it."""
        gone: set[str] = set()
        count = 0
        at: Path | None = path
        while at is not None and count < MOST_PATHS_COUNTED:
            goal = at.to_device[-1].reaches if at.to_device else at.source.a
            names = [hop.way.subject for hop in at.to_device]
            spare = [name for name in names if self._conducts_to(at.source.a, goal, {*gone, name})]
            if not spare:
                break
            gone.update(spare)
            at = self._best(device, self._cost_of_conducting, frozenset(gone))
            count += at is not None
        return count

    def reached_from(self, point: str, device: Way) -> frozenset[str]:
        """Return what a point could reach if every contact were closed and every jumper fitted, without devices."""
        seen = {point}
        ahead = [point]
        while ahead:
            here = ahead.pop()
            for way in self.ways.around(here) if here != EARTH else ():
                if way.sort not in DEVICES and way.sort != "source" and way.subject != device.subject:
                    other = way.other(here)
                    if other not in seen:
                        seen.add(other)
                        ahead.append(other)
        return frozenset(seen)

    def is_hot_side(self, point: str) -> bool:
        """Return whether a point conducts to the hot side of a source."""
        return self._island(point) in self._hot_islands

    def _conducts_to(self, start: str, goal: str, gone: set[str]) -> bool:
        """Return whether two points conduct to each other without some ways and without going through devices."""
        seen = {start}
        ahead = [start]
        while ahead:
            here = ahead.pop()
            for way in self.ways.around(here):
                other = way.other(here)
                passes = way.sort not in DEVICES and way.sort != "source" and way.subject not in gone
                if passes and other not in seen and self.standing.conducts(way):
                    seen.add(other)
                    ahead.append(other)
        return goal in seen

    def _best(
        self, device: Way, cost: Callable[[Way], Cost | None], without: frozenset[str], *, is_barred: bool = True
    ) -> Path | None:
        found: list[tuple[Cost, str, bool, Path]] = []
        for turned in (False, True):
            hot_end, common_end = (device.b, device.a) if turned else (device.a, device.b)
            from_hot = self._search(hot_end, device, cost, without, self._only_common if is_barred else _nowhere)
            from_common = self._search(common_end, device, cost, without, self._only_hot if is_barred else _nowhere)
            for source in self._sources:
                if source.a in from_hot and source.b in from_common:
                    one, other = from_hot[source.a], from_common[source.b]
                    total = _sum(_sum(one.cost, other.cost), self._cost_of_source(source))
                    if cost == self._cost_of_conducting and not self.standing.is_on(source.name):
                        continue
                    to_device = _backward(from_hot, source.a, hot_end)
                    to_common = _forward(from_common, source.b, common_end)
                    path = Path(source, to_device, to_common, total)
                    found.append((total, source.name, turned, path))
        return min(found, key=lambda each: each[:3])[3] if found else None

    def _search(
        self,
        start: str,
        device: Way,
        cost: Callable[[Way], Cost | None],
        without: frozenset[str],
        is_closed_off: Callable[[str], bool],
    ) -> Mapping[str, _Reached]:
        reached: dict[str, _Reached] = {}
        ahead: list[tuple[Cost, int, str, str, str]] = [((0.0, 0, 0.0), 0, "", start, "")]
        while ahead:
            so_far, hops, subject, here, before = heappop(ahead)
            if here in reached:
                continue
            reached[here] = _Reached(so_far, self._by_subject.get(subject), before)
            for way in self.ways.around(here) if here != EARTH or start == EARTH else ():
                other = way.other(here)
                if way.sort == "source" or way.subject == device.subject or way.subject in without:
                    continue
                one = cost(way)
                if one is not None and other not in reached and not is_closed_off(other):
                    heappush(ahead, (_sum(so_far, one), hops + 1, way.subject, other, here))
        return reached

    def _cost_of_conducting(self, way: Way) -> Cost | None:
        gap, through, distance = self._costs[way.subject]
        return (0.0, through, distance) if not gap else None

    def _cost_with_gaps(self, way: Way) -> Cost | None:
        return None if way.sort in DEVICES else self._costs[way.subject]

    @cached_property
    def _costs(self) -> Mapping[str, Cost]:
        """What each way costs as it stands: its gap, whether it is a device, how far it is."""
        return {
            way.subject: (
                0.0 if self.standing.conducts(way) else self._gap(way),
                int(way.sort in DEVICES),
                self._distance(way),
            )
            for way in self.ways.ways
            if way.sort != "source"
        }

    def _cost_of_source(self, source: Way) -> Cost:
        return (0.0 if self.standing.is_on(source.name) else GAP_OF_SOURCE, 0, 0.0)

    def _distance(self, way: Way) -> float:
        """The more it carries the nearer it is; rounded, so that no last digit decides between equal ones."""
        point = self.standing.point
        if way.sort == "short":
            amps = 0.0
        elif way.sort == "conductor":
            found = point.conductors.get(way.name)
            amps = 0.0 if found is None else found.amps
        else:
            amps = point.elements[way.name].amps
        return round(1 / max(amps, LEAST_AMPS), 6)

    def _gap(self, way: Way) -> float:
        if way.sort in ("fuse", "conductor"):
            return GAP_OF_FUSE
        if way.sort == "jumper":
            return GAP_OF_JUMPER
        element = way.element
        if isinstance(element, Contact) and element.by == "calls":
            asked = set(self.standing.point.situation.calls.get(way.part, ()))
            return GAP_OF_ASKED_CALL if asked & set(self.standing.closing(way.part, way.inner)) else GAP_OF_CALL
        kind = self.standing.kind(way.part)
        if isinstance(element, Contact) and kind is not None and element.by in kind.switches:
            return GAP_OF_SAFETY
        return GAP_OF_COIL_OR_LOGIC

    def _only_common(self, point: str) -> bool:
        island = self._island(point)
        return island in self._common_islands and island not in self._hot_islands

    def _only_hot(self, point: str) -> bool:
        island = self._island(point)
        return island in self._hot_islands and island not in self._common_islands

    @cached_property
    def _hot_islands(self) -> frozenset[str]:
        return frozenset(self._island(way.a) for way in self._sources)

    @cached_property
    def _common_islands(self) -> frozenset[str]:
        return frozenset(self._island(way.b) for way in self._sources)

    def _island(self, point: str) -> str:
        return self._islands.get(point, point)

    @cached_property
    def _islands(self) -> Mapping[str, str]:
        """For each point the smallest point with which it conducts now."""
        top: dict[str, str] = {}
        for start in sorted(self.ways.at):
            if start in top:
                continue
            ahead = [start]
            top[start] = start
            while ahead:
                here = ahead.pop()
                for way in self.ways.around(here):
                    other = way.other(here)
                    conducting = way.sort not in DEVICES and way.sort != "source" and self.standing.conducts(way)
                    if conducting and other not in top:
                        top[other] = start
                        ahead.append(other)
        return top


@dataclass(frozen=True, slots=True)
class _Reached:
    """How a point was reached: at what cost, by which way, from which point."""

    cost: Cost
    way: Way | None
    before: str


def _nowhere(_: str) -> bool:
    return False


def _sum(one: Cost, other: Cost) -> Cost:
    return (round(one[0] + other[0], 9), one[1] + other[1], round(one[2] + other[2], 6))


def _backward(reached: Mapping[str, _Reached], start: str, goal: str) -> tuple[Hop, ...]:
    """Return the hops from ``start`` to ``goal`` out of a search that began at ``goal``."""
    hops: list[Hop] = []
    here = start
    while here != goal:
        found = reached[here]
        assert found.way is not None
        hops.append(Hop(found.way, found.before))
        here = found.before
    return tuple(hops)


def _forward(reached: Mapping[str, _Reached], goal: str, start: str) -> tuple[Hop, ...]:
    """Return the hops from ``start`` to ``goal`` out of a search that began at ``start``."""
    hops: list[Hop] = []
    here = goal
    while here != start:
        found = reached[here]
        assert found.way is not None
        hops.append(Hop(found.way, here))
        here = found.before
    return tuple(reversed(hops))
