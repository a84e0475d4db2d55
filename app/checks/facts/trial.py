"""What would run if two terminals were joined: solved with a short between them, once for each island."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.catalogue.kind import CallName
from app.checks.context import CheckContext
from app.checks.facts.calls import unasked
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Fault, Situation
from app.circuit.solve import solve_all


def what_would_run(context: CheckContext, near: str, targets: Iterable[str]) -> dict[str, str]:
    """Return in words what nobody asked for and would run, by target; empty words where nothing would."""
    by_island: dict[str, list[str]] = {}
    for target in targets:
        if not context.wired.same(near, target):
            by_island.setdefault(context.wired.of(target), []).append(target)
    calls = _calls_by_island(context)
    asked = [(targets, point) for targets in by_island.values() for point in _points(context, calls, near, targets[0])]
    solved = solve_all(context.circuit, [_shorted(point.situation, near, targets[0]) for targets, point in asked])
    words: dict[str, str] = {}
    for (targets, before), after in zip(asked, solved, strict=True):
        found = _unasked_words(context, before, after)
        for target in targets:
            words[target] = words.get(target) or found
    return words


def _calls_by_island(context: CheckContext) -> list[tuple[OperatingPoint, frozenset[str]]]:
    """Return each call with the islands on which it puts 24 V."""
    return [
        (called.point, frozenset(context.wired.of(output) for output in context.outputs_of(called)))
        for called in context.called
    ]


def _points(
    context: CheckContext, calls: Sequence[tuple[OperatingPoint, frozenset[str]]], near: str, target: str
) -> Sequence[OperatingPoint]:
    """Idle, and the calls that put 24 V on either side."""
    sides = {context.wired.of(near), context.wired.of(target)}
    return [context.idle, *(point for point, fed in calls if sides & fed)]


def _shorted(situation: Situation, near: str, target: str) -> Situation:
    short = Fault.model_validate({"is": "short", "at": (f"terminal:{near}", f"terminal:{target}")})
    return situation.model_copy(update={"faults": (*situation.faults, short)})


def _unasked_words(context: CheckContext, before: OperatingPoint, after: OperatingPoint) -> str:
    if not after.settled and before.settled:
        return f"A coil would pull in and let go in turn{_in_call(after)}."
    added = sorted(set(after.effects) - set(before.effects))
    strange = unasked(_call_of(before), (effect for _, effect in added))
    for part, effect in added:
        if effect in strange:
            return f"{context.label_of(part)} would run ({effect}){_in_call(after) or ' with no call'}."
    return ""


def _call_of(point: OperatingPoint) -> CallName | None:
    return next((call for calls in point.situation.calls.values() for call in calls), None)


def _in_call(point: OperatingPoint) -> str:
    for control, calls in point.situation.calls.items():
        for call in calls:
            return f" in the call {control}={call}"
    return ""
