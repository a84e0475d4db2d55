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

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product
from typing import NamedTuple, cast

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName, Choice, Contact
from app.catalogue.terms import Compared, Constant, Named, comparisons_in, names_in, parse_term
from app.circuit.logic import enabled_calls, values_of
from app.circuit.situation import Situation
from app.circuit.template import template_of
from app.job.model import Layout, Part

SUPPLIES = (100, 88, 106)
"""Percent of the rated line volts: as rated, the least and the most that a healthy service gives (handbook 4)."""
AT_REST_C = 20.0
COLDEST_C, WARMEST_C = -80.0, 80.0
BESIDE_C = 2.0
"""How far beyond the outermost threshold a temperature is taken."""

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

    def plain(self, deviation: Deviation) -> Deviation:
        """Return the simplest deviation that comes to the same for certain.

        A switch that only decides which calls a control has makes no difference to a call that it leaves.
        """
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


def axes_of(networks: Sequence[Sequence[str]], layout: Layout, catalogue: Catalogue) -> Axes:
    """Return what can be otherwise in a group.

    Args:
        networks: the parts of the group, those that conductors couple together.
    """
    asked: list[Asked] = []
    positions: list[tuple[Position, tuple[Asked, ...]]] = []
    for parts in networks:
        by_part = {part: _calls_of(part, layout, catalogue, {}) for part in parts}
        asked += (each for part in parts for each in by_part[part])
        for part in parts:
            for name, value in _other_positions(layout.parts[part], catalogue):
                own = _calls_of(part, layout, catalogue, {name: value}) if by_part[part] else ()
                together = (each for other in parts for each in (own if other == part else by_part[other]))
                positions.append(((f"{part}.{name}", value), tuple(together)))
    parts = [part for network in networks for part in network]
    gates = frozenset(f"{part}.{name}" for part in parts for name in _gates(layout.parts[part], catalogue))
    return Axes(tuple(asked), tuple(positions), temperatures_of(parts, layout, catalogue), gates)


def _gates(part: Part, catalogue: Catalogue) -> Iterator[str]:
    kind = catalogue.kind_of(part)
    if kind is None:
        return
    terms = [*kind.states.values(), *kind.effects.values()]
    terms += (term for call in kind.calls.values() for term in call.closes.values())
    asked = {name for term in terms for name in names_in(parse_term(term))}
    moved = {element.by for element in kind.elements.values() if isinstance(element, Contact)}
    yield from (name for name in kind.switches if name not in asked | moved)


def _calls_of(part: str, layout: Layout, catalogue: Catalogue, overrides: Mapping[str, Choice]) -> tuple[Asked, ...]:
    kind = catalogue.kind_of(layout.parts[part])
    if kind is None or not kind.calls:
        return ()
    calls = enabled_calls(template_of(kind), values_of(kind, layout.parts[part], overrides))
    return tuple((part, cast(CallName, call)) for call in calls)


def _other_positions(part: Part, catalogue: Catalogue) -> Iterator[tuple[str, Choice]]:
    """Safeties first, then other switches, then jumpers; each by name."""
    kind = catalogue.kind_of(part)
    if kind is None:
        return
    values = values_of(kind, part, {})
    for name in sorted(kind.switches, key=lambda name: (not kind.switches[name].safety, name)):
        yield from ((name, value) for value in kind.switches[name].positions if value != values[name])
    for name in sorted(kind.jumpers):
        yield name, "removed" if values[name] == "fitted" else "fitted"


def temperatures_of(parts: Sequence[str], layout: Layout, catalogue: Catalogue) -> tuple[float, ...]:
    """Return 20 °C and one temperature on each side of every threshold that a part compares with outdoors."""
    thresholds = sorted({each for part in parts for each in _thresholds(layout.parts[part], catalogue)})
    if not thresholds:
        return (AT_REST_C,)
    outer = (max(COLDEST_C, thresholds[0] - BESIDE_C), min(WARMEST_C, thresholds[-1] + BESIDE_C))
    between = ((low + high) / 2 for low, high in pairwise(thresholds))
    marks = (float("-inf"), *thresholds, float("inf"))
    # 20 °C stands for the stretch between two thresholds in which it lies.
    stretches = zip(pairwise(marks), (outer[0], *between, outer[1]), strict=True)
    return (AT_REST_C, *(outdoor_c for (low, high), outdoor_c in stretches if not low < AT_REST_C < high))


def _thresholds(part: Part, catalogue: Catalogue) -> Iterator[float]:
    kind = catalogue.kind_of(part)
    if kind is None:
        return
    values = values_of(kind, part, {})
    calls = (term for call in kind.calls.values() for term in (call.when, *call.closes.values()))
    for text in (*kind.states.values(), *kind.effects.values(), *calls):
        if "outdoor_c" not in text:
            continue
        for compared in comparisons_in(parse_term(text)):
            yield from _threshold(compared, values)


def _threshold(compared: Compared, values: Mapping[str, Choice]) -> Iterator[float]:
    sides = (compared.left, compared.right)
    for one, other in (sides, sides[::-1]):
        if one == Named("outdoor_c"):
            value = other.value if isinstance(other, Constant) else values.get(other.name)
            if isinstance(value, int | float) and not isinstance(value, bool):
                yield float(value)
