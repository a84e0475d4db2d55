"""Nets: points that are one whatever is called; which of them are the hot or the common side of a source.

Rules of the file: a net is hot or common because of the winding that lies on it, never because of a letter. Only
where no winding can be reached do the functions of terminals tell what a net is meant to be.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from app.catalogue.kind import Contact, Function
from app.circuit.network import EARTH, Circuit
from app.explain.bearing import movers_of
from app.explain.ways import DEVICES, Way, Ways, is_lasting, ways_of

SUPPLIES: frozenset[Function] = frozenset({"supply", "supply-heating", "supply-cooling"})


@dataclass(frozen=True, slots=True)
class Region:
    """What is reached from one side of a conductor without crossing a hot or a common net.

    ``points`` are what lies on it; ``gates`` the contacts behind which a hot or common net lies: what can drive it;
    ``devices`` what would work if it were hot.
    """

    points: frozenset[str]
    gates: tuple[Way, ...]
    devices: tuple[Way, ...]


class Nets:
    """The nets of a layout."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.ways: Ways = ways_of(circuit)
        self._lasting: dict[str, list[Way]] = {}
        self._moving: dict[str, list[Way]] = {}
        for way in self.ways.ways:
            if is_lasting(circuit, way):
                self._index(self._lasting, way)
            elif way.sort == "contact":
                self._index(self._moving, way)

    @staticmethod
    def _index(where: dict[str, list[Way]], way: Way) -> None:
        where.setdefault(way.a, []).append(way)
        where.setdefault(way.b, []).append(way)

    def side(self, point: str, without: str) -> frozenset[str]:
        """Return what is one with a point when the way named ``without`` is taken away."""
        seen = {point}
        ahead = [point]
        while ahead:
            here = ahead.pop()
            # All that is grounded is one, and yet each net keeps what is its own.
            for way in self._lasting.get(here, ()) if here != EARTH else ():
                other = way.other(here)
                if way.subject != without and other not in seen:
                    seen.add(other)
                    ahead.append(other)
        return frozenset(seen)

    def meant_at(self, point: str, without: str) -> frozenset[Function]:
        """Return the functions of the nearest supply and common terminals on the net of a point."""
        found: set[Function] = set()
        seen = {point}
        ahead = [point]
        while ahead:
            here = ahead.pop()
            function = self.function_of(here)
            if function is not None and (function == "common" or function in SUPPLIES):
                found.add(function)
                continue
            for way in self._lasting.get(here, ()) if here != EARTH else ():
                if way.subject != without and way.other(here) not in seen:
                    seen.add(way.other(here))
                    ahead.append(way.other(here))
        return frozenset(found)

    @cached_property
    def hot(self) -> frozenset[str]:
        """The points on the hot side of a source."""
        return self._on(way.a for way in self.ways.ways if way.sort == "source")

    @cached_property
    def common(self) -> frozenset[str]:
        """The points on the common side of a source."""
        return self._on(way.b for way in self.ways.ways if way.sort == "source")

    @cached_property
    def waiting(self) -> frozenset[str]:
        """The points of supplies of controls that no source reaches: they wait for one."""
        starts = [
            point
            for way in self.ways.ways
            if isinstance(way.element, Contact) and way.element.by == "calls"
            for point in (way.a, way.b)
            if self.function_of(point) in SUPPLIES and point not in self.hot and point not in self.common
        ]
        return self._on(starts)

    def function_of(self, point: str) -> Function | None:
        """Return the function of a terminal, None for a point inside a part."""
        found = self.circuit.terminals.get(point)
        return None if found is None else found.function

    def _on(self, starts: Iterable[str]) -> frozenset[str]:
        found: set[str] = set()
        for start in starts:
            if start not in found:
                found |= self.side(start, "")
        return frozenset(found)

    def is_barrier(self, point: str) -> bool:
        """Return whether nothing is looked for beyond a point: a supply, a common, earth."""
        return point in self.hot or point in self.common or point in self.waiting or point == EARTH

    def region(
        self, start: str, without: str, kept_out: frozenset[str], crossing: Callable[[Way], bool] = lambda _: True
    ) -> Region:
        """Return what is reached from a point without the way named ``without``.

        ``kept_out`` is the other side of it; ``crossing`` tells which contacts may be crossed.
        """
        seen = {start}
        ahead = deque([start])
        gates: dict[str, Way] = {}
        while ahead:
            here = ahead.popleft()
            for way in self._lasting.get(here, ()) if here != EARTH else ():
                other = way.other(here)
                if way.subject != without and other not in seen:
                    seen.add(other)
                    ahead.append(other)
            for way in self._moving.get(here, ()):
                other = way.other(here)
                if self.is_barrier(other):
                    gates[way.subject] = way
                elif (
                    other not in seen
                    and other not in kept_out
                    and crossing(way)
                    and not self._is_moved_beyond(way, other)
                ):
                    seen.add(other)
                    ahead.append(other)
        return Region(frozenset(seen), tuple(gates[name] for name in sorted(gates)), self._devices_at(seen))

    def _is_moved_beyond(self, way: Way, other: str) -> bool:
        """A contact that closes only once the net behind it is hot already brings nothing there."""
        movers = self.movers.get(way.subject)
        if not movers:
            return False
        behind = self.side(other, "")
        return all(self.devices[mover].a in behind or self.devices[mover].b in behind for mover in movers)

    @cached_property
    def devices(self) -> Mapping[str, Way]:
        """The coils, inputs and loads by subject."""
        return {way.subject: way for way in self.ways.ways if way.sort in DEVICES}

    @cached_property
    def movers(self) -> Mapping[str, frozenset[str]]:
        """The devices that help to close each contact, by subject."""
        found: dict[str, frozenset[str]] = {}
        for way in self.ways.ways:
            if way.sort == "contact":
                part = self.circuit.layout.parts[way.part]
                kind = self.circuit.catalogue.kind_of(part)
                if kind is not None:
                    names = movers_of(kind, part, way.inner)
                    found[way.subject] = frozenset(f"element:{way.part}.{name}" for name in names)
        return found

    def _devices_at(self, points: Iterable[str]) -> tuple[Way, ...]:
        reached = set(points)
        found = {
            way.subject: way
            for point in reached
            for way in self.ways.around(point)
            if way.sort in DEVICES and not (way.a in reached and way.b in reached)
        }
        return tuple(found[name] for name in sorted(found))
