"""Operating points: of one situation, or of many at once.

All settles of a network go forward together, so that they are answered as arrays where numpy is there and one by one
where it is not; the answers are equal.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from app.circuit.asking import Asked, Batch
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.pure import solve_each
from app.circuit.settling import Solver, solve_best
from app.circuit.situation import Situation
from app.circuit.view import View


def solve(circuit: Circuit, situation: Situation) -> OperatingPoint:
    """Return the operating point of a situation, from rest.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    return solve_all(circuit, [situation])[0]


def solve_all(circuit: Circuit, situations: Sequence[Situation]) -> list[OperatingPoint]:
    """Return the operating points of many situations, in their order.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    return solve_all_with(solve_best, circuit, situations)


def solve_all_with(solver: Solver, circuit: Circuit, situations: Sequence[Situation]) -> list[OperatingPoint]:
    """Return the operating points of many situations, with a given way of solving linear networks."""
    batch = Batch(solver)
    asked = [batch.ask(circuit, situation) for situation in situations]
    batch.settle()
    return [batch.answer(each) for each in asked]


@dataclass(frozen=True, eq=False)
class Sorted:
    """Situations sorted by what they settle to: ``outcome`` gives a number for each, equal for equal outcomes."""

    outcome: list[int]
    batch: Batch
    asked: list[Asked]

    def point(self, place: int) -> OperatingPoint:
        """Return the operating point of the situation at a place of the list."""
        return self.batch.answer(self.asked[place])

    def settles(self, place: int, within: Sequence[int]) -> bool:
        """Return whether some of the networks have one end each in the situation at a place of the list."""
        return self.asked[place].settles_within(within)


def sort_situations(
    circuit: Circuit, situations: Sequence[Situation], within: Sequence[Sequence[int]] | None = None
) -> Sorted:
    """Settle many situations and sort them by what they come to; see ``app.circuit.outcomes``.

    Args:
        within: for each situation the numbers of the networks that tell outcomes apart; None for all of them.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    batch = Batch(solve_best)
    asked = [batch.ask(circuit, situation) for situation in situations]
    batch.settle()
    number: dict[Hashable, int] = {}
    if within is None:
        ends = [each.ends() for each in asked]
    else:
        ends = [each.ends_within(numbers) for each, numbers in zip(asked, within, strict=True)]
    return Sorted([number.setdefault(end, len(number)) for end in ends], batch, asked)


def worlds_in(circuit: Circuit, situations: Sequence[Situation], within: Sequence[int]) -> set[Hashable]:
    """Return the ways in which the branches of some networks may stand in situations, where something was not seen.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    batch = Batch(solve_best)
    asked = [batch.ask(circuit, situation) for situation in situations]
    batch.settle()
    return set().union(*(each.worlds_within(within) for each in asked))


def views_of(circuit: Circuit, situation: Situation) -> tuple[Circuit, list[View]]:
    """Return what each network of a situation settled to, and the circuit with the faults that change its layout."""
    batch = Batch(solve_each)
    asked = batch.ask(circuit, situation)
    batch.settle()
    return asked.circuit, asked.views().each()
