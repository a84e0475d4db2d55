"""Outcomes: many situations sorted by what they settle to, so that what comes to the same is looked at once.

Two situations have one outcome when every network settles to the same: the same branches conduct with the same
figures, the same coils, inputs and fuses are on, the same effects hold, the same is in doubt, and what does not settle
does so in the same way. Volts then differ by nothing but the supply percent, which is no part of an outcome. The
calls and positions that led there may differ: contacts that two calls close alike are alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import Sorted, sort_situations


@dataclass(frozen=True, eq=False)
class Outcome:
    """What some of the situations come to.

    ``at`` are their places in the list that was asked, ascending and never empty.
    """

    at: tuple[int, ...]
    asked: Sorted

    @cached_property
    def point(self) -> OperatingPoint:
        """The operating point of the first of its situations; made when it is first asked for."""
        return self.point_at(self.at[0])

    def point_at(self, place: int) -> OperatingPoint:
        """Return the operating point of the situation at a place of the list that was asked; made each time."""
        return self.asked.point(place)


def outcomes_of(
    circuit: Circuit, situations: Sequence[Situation], within: Sequence[Sequence[int]] | None = None
) -> list[Outcome]:
    """Return the distinct outcomes of many situations, in the order in which each is first met.

    This costs some ten microseconds a situation where states repeat: nothing but bits is looked at, and no operating
    point is made before somebody asks for it.

    Args:
        circuit: the compiled layout.
        situations: in the order that decides which one stands for an outcome; best the simplest first.
        within: for each situation the numbers of the networks that tell outcomes apart; None for all of them.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    asked = sort_situations(circuit, situations, within)
    places: dict[int, list[int]] = {}
    for place, outcome in enumerate(asked.outcome):
        places.setdefault(outcome, []).append(place)
    return [Outcome(tuple(at), asked) for at in places.values()]
