"""Where on a path hot becomes common: the joins between the last terminal meant to be hot and the next meant to be
common. That is what a person has to take off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.inside import SUPPLY_FUNCTIONS
from app.checks.facts.joins import Join
from app.circuit.operating_point import OperatingPoint

_HOT = SUPPLY_FUNCTIONS | {"call", "signal"}


@dataclass(frozen=True, slots=True)
class Gap:
    """The joins between two nodes of a path, and these nodes."""

    joins: tuple[Join, ...]
    start: str
    goal: str

    def movable(self) -> tuple[Join, ...]:
        """Return what a person can take off: conductors and jumpers."""
        return tuple(join for join in self.joins if join.sort in ("conductor", "jumper"))

    def subjects(self) -> tuple[str, ...]:
        """Return the subjects of a finding about this gap: what can be taken off, else what there is."""
        return tuple(join.by for join in (self.movable() or self.joins))


def gap_to_common(context: CheckContext, start: str, path: Sequence[tuple[Join, str]]) -> Gap:
    """Return where a path from ``start`` (a hot node) first reaches something meant to be common."""
    return _gap(context, start, path, _HOT, frozenset({"common"}))


def gap_to_call(context: CheckContext, start: str, path: Sequence[tuple[Join, str]]) -> Gap:
    """Return where a path from ``start`` (a hot node) leaves the last terminal meant as supply."""
    return _gap(context, start, path, SUPPLY_FUNCTIONS, frozenset({"call", "signal"}))


def _gap(
    context: CheckContext, start: str, path: Sequence[tuple[Join, str]], near: frozenset[str], far: frozenset[str]
) -> Gap:
    """The gap opens after the last ``near`` terminal before the first ``far`` one; without one it is the whole path."""
    nodes = [start, *(node for _, node in path)]
    functions = [context.function_of(node) for node in nodes]
    end = next((index for index, function in enumerate(functions) if function in far), len(nodes) - 1)
    begin = max((index for index in range(end) if functions[index] in near), default=0)
    return Gap(tuple(join for join, _ in path[begin:end]), nodes[begin], nodes[end])


def wires_past_the_contact(context: CheckContext, terminal: str, point: OperatingPoint) -> list[Join]:
    """Return what a person can take off that leads from what is rightly hot to a terminal that is not.

    At rest it lies where supply becomes call; in a call it is the last conductor behind the last contact.
    """
    islands = context.islands_at(point)
    for winding in context.windings:
        path = islands.path(winding.hot, terminal)
        if path is None:
            continue
        if not any(point.situation.calls.values()):
            return list(gap_to_call(context, winding.hot, path).movable())
        last = [join for join, _ in path if join.sort in ("conductor", "contact")][-1:]
        return [join for join in last if join.sort == "conductor"]
    return []
