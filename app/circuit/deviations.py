"""What a group of parts can be asked otherwise than at rest, and in which combinations it is looked at.

Rules of the file: a deviation is compact, because there are thousands; a ``Situation`` is made when somebody asks.
Parts of different groups never meet in a deviation. The combinations of a group are two families:

* conditions: idle, each call, each pair of calls of two controls, at every supply and every outdoor temperature;
* positions: each other position of a switch or jumper, with idle and each call that a conductor could bring to it, at
  every outdoor temperature.

Two safeties open at once, or one that is open while the supply is low, are a fault on a fault and are not looked at.
Two controls whose parts only share air meet in pairs of calls.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, product
from typing import NamedTuple

from app.catalogue.kind import CallName, Choice
from app.circuit.situation import Situation

SUPPLIES = (100, 88, 106)
"""Percent of the rated line volts: as rated, the least and the most that a healthy service gives (handbook 4)."""
AT_REST_C = 20.0

Asked = tuple[str, CallName]
"""A control and one of its calls."""
Position = tuple[str, Choice]
"""``part.name`` of a switch or jumper and a position that is not the present one."""


class Deviation(NamedTuple):
    """What is otherwise than at rest."""

    calls: tuple[Asked, ...] = ()
    position: Position | None = None
    supply_percent: int = 100
    outdoor_c: float = AT_REST_C

    def size(self) -> int:
        """Return the number of things that are otherwise."""
        others = (self.position is not None, self.supply_percent != 100, self.outdoor_c != AT_REST_C)
        return len(self.calls) + sum(others)

    def situation(self) -> Situation:
        """Return it as a situation."""
        return Situation.model_construct(
            calls={control: (call,) for control, call in self.calls},
            set=dict([self.position]) if self.position else {},
            supply_percent=float(self.supply_percent),
            outdoor_c=self.outdoor_c,
            mains={},
            faults=(),
        )


@dataclass(frozen=True, slots=True)
class Axes:
    """What can be otherwise in one group. ``asked`` are the calls that the set-up has as it stands.

    ``positions`` come with the calls of their network; a switch of a control decides which it then has.
    """

    asked: tuple[Asked, ...]
    positions: tuple[tuple[Position, tuple[Asked, ...]], ...]
    temperatures: tuple[float, ...]
    gates: frozenset[str] = frozenset()
    """The switches, by ``part.name``, that decide nothing but which calls a control has."""
    weather_sets: bool = False
    """Whether outdoors moves a contact or an effect by itself, and not only what a call closes."""
    weather_calls: frozenset[Asked] = frozenset()
    """The calls that close something else in other weather, or that a control then has or has not."""

    def plain(self, deviation: Deviation) -> Deviation:
        """Return the simplest deviation that comes to the same for certain.

        A switch that only decides which calls a control has makes no difference to a call that it leaves, and weather
        none to what asks for nothing outdoors.
        """
        if (
            deviation.outdoor_c != AT_REST_C
            and not self.weather_sets
            and self.weather_calls.isdisjoint(deviation.calls)
        ):
            deviation = deviation._replace(outdoor_c=AT_REST_C)
        position = deviation.position
        if position is None or position[0] not in self.gates or not set(deviation.calls) <= set(self.asked):
            return deviation
        return deviation._replace(position=None)

    def possible(self) -> int:
        """Return how many situations the families hold."""
        conditions = len(SUPPLIES) * (1 + len(self.asked) + self._pairs())
        positions = sum(1 + len(asked) for _, asked in self.positions)
        return len(self.temperatures) * (conditions + positions)

    def _pairs(self) -> int:
        own: dict[str, int] = {}
        for control, _ in self.asked:
            own[control] = own.get(control, 0) + 1
        together = sum(own.values())
        return (together * together - sum(count * count for count in own.values())) // 2

    def deviations(self) -> Iterator[Deviation]:
        """Yield all, those with the fewest things otherwise first: calls, then positions, outdoors, supplies."""
        shapes = product(range(3), (False, True), (False, True), (False, True))
        for shape in sorted(shapes, key=lambda each: (sum(each), *reversed(each))):
            calls, is_moved, is_outdoors, is_supplied = shape
            outdoors = self.temperatures[1:] if is_outdoors else self.temperatures[:1]
            supplies = SUPPLIES[1:] if is_supplied else SUPPLIES[:1]
            if not is_moved:
                together: Iterable[tuple[tuple[Asked, ...], Position | None]] = (
                    (asked, None) for asked in self._asked_together(calls)
                )
            elif calls < 2 and not is_supplied:
                together = self._moved(calls)
            else:
                continue
            yield from (
                Deviation(asked, position, supply, outdoor_c)
                for asked, position in together
                for outdoor_c in outdoors
                for supply in supplies
            )

    def _asked_together(self, count: int) -> Iterable[tuple[Asked, ...]]:
        """Return nothing asked, each call, or each pair of calls of two controls."""
        if count < 2:
            return combinations(self.asked, count)
        return (pair for pair in combinations(self.asked, 2) if pair[0][0] != pair[1][0])

    def _moved(self, count: int) -> Iterator[tuple[tuple[Asked, ...], Position | None]]:
        return ((asked, position) for position, own in self.positions for asked in combinations(own, count))
