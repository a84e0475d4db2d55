"""All situations of a layout by what comes of them: one outcome for all that settle alike in their group.

Rules of the file: rules look at outcomes, never at situations one by one; there are some hundred of these and some
dozen of those.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from app.circuit.deviations import Axes, Deviation, axes_of
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import groups
from app.circuit.solve import solve_all, views_of
from app.circuit.view import View

MOST_A_GROUP = 2000
"""More situations than these are not looked at in one group; a rule says so."""


@dataclass(frozen=True)
class Outcome:
    """What a group of parts settles to, and the situations that bring it, the simplest first.

    ``point`` is the operating point of the first; the others have the same coils, contacts and fuses in the same
    state and the same effects, and may have other volts where their supply is another.
    """

    group: int
    point: OperatingPoint
    situations: tuple[Situation, ...]


@dataclass(frozen=True)
class Group:
    """A group of parts and what can be otherwise in it."""

    parts: tuple[str, ...]
    axes: Axes

    def looked_at(self) -> Iterator[Deviation]:
        """Yield the situations that are looked at."""
        return islice(self.axes.deviations(), MOST_A_GROUP)


def groups_of(circuit: Circuit) -> tuple[Group, ...]:
    """Return the groups of a layout, in the order of their first part."""
    found = []
    for parts in groups(circuit.layout, circuit.catalogue):
        networks: dict[int, list[str]] = {}
        for part in parts:
            networks.setdefault(circuit.network_of[part], []).append(part)
        found.append(Group(parts, axes_of(list(networks.values()), circuit.layout, circuit.catalogue)))
    return tuple(found)


def outcomes_of(circuit: Circuit, groups: Sequence[Group]) -> tuple[Outcome, ...]:
    """Return the outcomes of each group, simplest first."""
    alike: dict[tuple[Hashable, ...], list[Situation]] = {}
    for number, group in enumerate(groups):
        numbers = sorted({circuit.network_of[part] for part in group.parts})
        for deviation in group.looked_at():
            situation = deviation.situation()
            _, views = views_of(circuit, situation)
            key = (number, *(_settled_state(views[at]) for at in numbers))
            alike.setdefault(key, []).append(situation)
    points = solve_all(circuit, [situations[0] for situations in alike.values()])
    return tuple(
        Outcome(int(str(key[0])), point, tuple(situations))
        for (key, situations), point in zip(alike.items(), points, strict=True)
    )


def _settled_state(view: View) -> Hashable:
    seen = tuple((each.snapshot.on, each.snapshot.state.held, each.snapshot.doubt) for each in view.seen)
    return view.effects, tuple(view.blown), view.unsettled is None, seen
