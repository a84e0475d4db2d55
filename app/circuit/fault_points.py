"""Many faults by many situations of one circuit, settled together: what training and fault finding ask.

The answer is a table with a row for each set of faults and a column for each situation without any. Nothing but bits
and volts is made for a place in it; an operating point is made when somebody asks for one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from importlib import import_module
from typing import Protocol

from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.outcomes import outcomes_of
from app.circuit.situation import Fault, Situation

FaultSet = tuple[Fault, ...]
Effects = tuple[tuple[str, str], ...]


class FaultPoints(Protocol):
    """The table. ``fault`` and ``base`` are places in what was asked."""

    @property
    def count(self) -> int:
        """Return how many operating points the table holds."""

    def point(self, fault: int, base: int) -> OperatingPoint:
        """Return one operating point."""

    def effects(self, fault: int, base: int) -> Effects:
        """Return the (part, effect) pairs that hold, in a stable order."""

    def volts_between(self, one: str, other: str) -> list[list[float | None]]:
        """Return the volts that an ideal meter shows between two terminals, a list for each set of faults.

        None where a terminal floats against the other, or is unknown.
        """


def fault_points(circuit: Circuit, bases: Sequence[Situation], faults: Sequence[FaultSet]) -> FaultPoints:
    """Settle every set of faults in every situation.

    Args:
        circuit: the compiled layout.
        bases: situations; faults that they hold already are left out.
        faults: sets of faults that are there at the same time; the empty one is the sound circuit.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    table = best_table()
    return PointByPoint(circuit, bases, faults) if table is None else table(circuit, bases, faults)


@lru_cache(maxsize=1)
def best_table() -> Callable[[Circuit, Sequence[Situation], Sequence[FaultSet]], FaultPoints] | None:
    """Return what settles a table as arrays; None without numpy."""
    try:
        module = import_module("app.circuit.batch.fault_table")
    except ImportError:
        return None
    made: Callable[[Circuit, Sequence[Situation], Sequence[FaultSet]], FaultPoints] = module.fault_table
    return made


class PointByPoint:
    """The table as situations that are settled like any others."""

    def __init__(self, circuit: Circuit, bases: Sequence[Situation], faults: Sequence[FaultSet]) -> None:
        self.width = len(bases)
        situations = [with_faults(base, each) for each in faults for base in bases]
        self.outcomes = {}
        for outcome in outcomes_of(circuit, situations):
            self.outcomes.update(dict.fromkeys(outcome.at, outcome))

    @property
    def count(self) -> int:
        """Return how many operating points the table holds."""
        return len(self.outcomes)

    def point(self, fault: int, base: int) -> OperatingPoint:
        """Return one operating point."""
        place = fault * self.width + base
        return self.outcomes[place].point_at(place)

    def effects(self, fault: int, base: int) -> Effects:
        """Return the (part, effect) pairs that hold, in a stable order."""
        return self.point(fault, base).effects

    def volts_between(self, one: str, other: str) -> list[list[float | None]]:
        """Return the volts that an ideal meter shows between two terminals, a list for each set of faults."""
        rows = range(self.count // self.width if self.width else 0)
        return [[self.point(row, base).volts_between(one, other) for base in range(self.width)] for row in rows]


def with_faults(base: Situation, faults: FaultSet) -> Situation:
    """Return a situation with faults."""
    return base.model_copy(update={"faults": faults})
