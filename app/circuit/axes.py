"""What can be otherwise in a group of parts, read from their kinds and settings: calls, positions, weather."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import cast

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName, Choice, Contact
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Compared, Constant, Named, comparisons_in, names_in
from app.circuit.deviations import AT_REST_C, Asked, Axes, Position
from app.circuit.logic import enabled_calls, values_of
from app.circuit.template import template_of
from app.job.model import Layout, Part

COLDEST_C, WARMEST_C = -80.0, 80.0
BESIDE_C = 2.0
"""How far beyond the outermost threshold a temperature is taken."""


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
    weathers = [_weather(part, layout.parts[part], catalogue) for part in parts]
    return Axes(
        tuple(asked),
        tuple(positions),
        temperatures_of(parts, layout, catalogue),
        gates,
        any(moved for moved, _ in weathers),
        frozenset(call for _, calls in weathers for call in calls),
    )


def _weather(name: str, part: Part, catalogue: Catalogue) -> tuple[bool, list[Asked]]:
    """Return whether outdoors moves a contact or an effect of a part by itself, and the calls that ask for it."""
    kind = catalogue.kind_of(part)
    if kind is None:
        return False, []
    outdoors = {"outdoor_c"}
    reads = {state: set(names_in(parse_term(term))) for state, term in kind.states.items()}
    while more := {state for state, names in reads.items() if names & outdoors} - outdoors:
        outdoors |= more

    def asks(terms: Iterable[str]) -> bool:
        return any(outdoors.intersection(names_in(parse_term(term))) for term in terms)

    moved = any(isinstance(element, Contact) and element.by in outdoors for element in kind.elements.values())
    calls = [(name, call) for call, said in kind.calls.items() if asks([said.when, *said.closes.values()])]
    return moved or asks(kind.effects.values()), calls


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
