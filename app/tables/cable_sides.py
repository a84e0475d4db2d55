"""The two ends of a cable, told apart by the parts on which its conductors are landed.

Rules of the file: a document may list the ends of each conductor in any order, and several parts may stand at one end
of a cable. So the ends of a cable are found, not read: the first conductor that is landed at both ends says which part
stands where, and the others are turned to fit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.job.model import Conductor, Layout
from app.job.names import part_of


@dataclass(frozen=True)
class CableSides:
    """The conductors of a cable with, for each, the number of its end at side 0; and the parts at either side."""

    first_end: Mapping[str, int]
    parts: tuple[tuple[str, ...], tuple[str, ...]]

    def end_at(self, conductor: str, side: int) -> int:
        """Return the number of the end of a conductor that lies at a side."""
        return self.first_end[conductor] if side == 0 else 1 - self.first_end[conductor]


def conductors_of(layout: Layout, cable: str) -> Mapping[str, Conductor]:
    """Return the conductors of a cable in the order of the document."""
    return {name: conductor for name, conductor in layout.conductors.items() if conductor.cable == cable}


def cable_sides(members: Mapping[str, Conductor]) -> CableSides:
    """Return which end of each conductor of a cable lies at which side of it."""
    at: tuple[dict[str, None], dict[str, None]] = ({}, {})
    first_end: dict[str, int] = {}
    waiting = sorted(members, key=lambda name: -len(members[name].landed()))
    while waiting:
        # What touches a part that is known goes first, so that nobody is turned by guessing.
        name = next((each for each in waiting if _fit(members[each], at) != 0), waiting[0])
        waiting.remove(name)
        first_end[name] = 1 if _fit(members[name], at) < 0 else 0
        for side in (0, 1):
            end = members[name].ends[first_end[name] if side == 0 else 1 - first_end[name]]
            if isinstance(end, str):
                at[side].setdefault(part_of(end))
    return CableSides({name: first_end[name] for name in members}, (tuple(at[0]), tuple(at[1])))


def _fit(conductor: Conductor, at: tuple[Mapping[str, None], Mapping[str, None]]) -> int:
    """Return how well a conductor fits as it is listed, less how well it fits the other way round."""
    score = 0
    for index, end in enumerate(conductor.ends):
        if isinstance(end, str):
            part = part_of(end)
            score += (part in at[index]) - (part in at[1 - index])
    return score
