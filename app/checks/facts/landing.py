"""What one more join between two terminals would make of the circuit, told from the islands alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.bypass import safeties_bypassed_by
from app.checks.facts.foreign import clashes, fed_pairs, foreign_rails
from app.checks.facts.gone_around import fuses_gone_around_by
from app.checks.facts.islands import Islands
from app.checks.facts.joined import touching
from app.checks.facts.joins import Winding
from app.checks.facts.jumped import calls_jumped_by
from app.checks.facts.spoken import when_words
from app.checks.facts.strain import is_bridged
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Landing:
    """A conductor that would join two terminals."""

    near: str
    far: str


def is_dangerous(context: CheckContext, near: str, far: str) -> bool:
    """Return whether joining two terminals would bring a danger about."""
    return next(dangers_of(context, Landing(near, far)), None) is not None


def dangers_of(context: CheckContext, landing: Landing) -> Iterator[str]:
    """Yield what rules of severity danger would say, in words; only what the landing itself brings about."""
    yield from _foreign(context, landing)
    for point in _points_that_matter(context, landing):
        islands = context.islands_at(point)
        windings = _windings_touched(context, landing, islands)
        if not windings or islands.same(landing.near, landing.far):
            continue
        joined = islands.with_join(landing.near, landing.far)
        for winding in windings:
            if is_bridged(joined, winding) and not is_bridged(islands, winding):
                yield f"Hot to common{_when(point)}: a short of {context.label_of(winding.part)}."
        yield from _fed_pairs(context, landing, islands, joined, point)
        yield from _tied(context, windings, islands, joined, point)
    yield from _shorts_elsewhere(context, landing)
    for terminal in calls_jumped_by(context, landing.near, landing.far):
        yield f"A jumper: the call on {context.name_of(terminal)} would always be on."
    for join in safeties_bypassed_by(context, landing.near, landing.far):
        yield f"A way around a safety of {context.label_of(join.part)}."


def oddities_of(context: CheckContext, landing: Landing) -> Iterator[str]:
    """Yield what makes a landing pointless or strange without any danger."""
    for fuse in fuses_gone_around_by(context, landing.near, landing.far):
        yield f"A way around the fuse of {context.label_of(fuse.part)}: on a short nothing would open."
    functions = {context.function_of(landing.near), context.function_of(landing.far)}
    if context.wired.same(landing.near, landing.far):
        yield "The two are joined already."
    if "common" in functions and functions & {"call", "signal", "supply", "supply-heating", "supply-cooling"}:
        yield "One side is common, the other is not."
    if functions == {"signal", "call"}:
        yield "A message is no call: the one only signals."
    if "spare" in functions:
        yield "What this terminal does is not known."
    if "dry" in functions and "common" in functions:
        yield "A dry pair is closed by a contact, not by common."


def _foreign(context: CheckContext, landing: Landing) -> Iterator[str]:
    """A terminal that is not for 24 V would meet one that is, or another family."""
    near = [context.function_of(node) for node in context.at_rest.members(landing.near)]
    far = [context.function_of(node) for node in context.at_rest.members(landing.far)]
    for first in near:
        for second in far:
            if clashes(first, second) or clashes(second, first):
                yield f"A {first} terminal and a {second} terminal may never meet."


def _fed_pairs(
    context: CheckContext, landing: Landing, before: Islands, after: Islands, point: OperatingPoint
) -> Iterator[str]:
    sides = {before.of(landing.near), before.of(landing.far)}
    for node in context.once(fed_pairs):
        if before.of(node) in sides:
            for rail in foreign_rails(context, node):
                if after.same(node, rail) and not before.same(node, rail):
                    yield f"This brings 24 V from elsewhere to {context.name_of(node)}{_when(point)}."


def _tied(
    context: CheckContext, windings: list[Winding], before: Islands, after: Islands, point: OperatingPoint
) -> Iterator[str]:
    # A source with no side on what is joined touches the same as before.
    for first in windings:
        for second in windings:
            if first.name != second.name and touching(after, first, second) and not touching(before, first, second):
                labels = f"{context.label_of(first.part)} and {context.label_of(second.part)}"
                yield f"Ties two transformers together{_when(point)}: {labels}."


def _shorts_elsewhere(context: CheckContext, landing: Landing) -> Iterator[str]:
    """Look for a short in every other situation as well, where closed contacts could make one at all."""
    ever = {context.ever.of(landing.near), context.ever.of(landing.far)}
    windings = [w for w in context.windings if ever == {context.ever.of(w.hot), context.ever.of(w.common)}]
    if not windings:
        return
    for part in dict.fromkeys((part_of(landing.near), part_of(landing.far))):
        for point in context.other_points_of(part):
            islands = context.islands_at(point)
            sides = {islands.of(landing.near), islands.of(landing.far)}
            for winding in windings:
                if len(sides) == 2 and sides == {islands.of(winding.hot), islands.of(winding.common)}:
                    label = context.label_of(winding.part)
                    yield f"Hot to common {when_words(context, point)}: a short of {label}."


def _points_that_matter(context: CheckContext, landing: Landing) -> list[OperatingPoint]:
    """Idle, and the calls of the networks in which the two terminals lie."""
    networks = frozenset({context.network_of(part_of(landing.near)), context.network_of(part_of(landing.far))})
    known = context.once(_points_by_networks)
    if networks not in known:
        known[networks] = [point for point in context.points if context.network_at(point) in (None, *networks)]
    return known[networks]


def _points_by_networks(_: CheckContext) -> dict[frozenset[int], list[OperatingPoint]]:
    """Return what will hold the points that matter to a landing, by the networks that it touches."""
    return {}


def _windings_touched(context: CheckContext, landing: Landing, islands: Islands) -> list[Winding]:
    """Return the sources of which a side lies on the island of either terminal."""
    known = context.once(_sides_by_islands)
    if id(islands) not in known:
        known[id(islands)] = (islands, [(islands.of(w.hot), islands.of(w.common), w) for w in context.windings])
    near, far = islands.of(landing.near), islands.of(landing.far)
    return [w for hot, common, w in known[id(islands)][1] if hot in (near, far) or common in (near, far)]


def _sides_by_islands(_: CheckContext) -> dict[int, tuple[Islands, list[tuple[str, str, Winding]]]]:
    """Return what will hold the islands of both sides of each source, by the islands that are looked at."""
    return {}


def _when(point: OperatingPoint) -> str:
    calls = [f"{control}={call}" for control, calls in point.situation.calls.items() for call in calls]
    return f" in the call {calls[0]}" if calls else ""
