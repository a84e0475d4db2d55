"""All situations of a layout by what comes of them: one outcome for all that settle alike in their group.

Rules of the file: rules look at outcomes, never at situations one by one; there are some hundred of these and some
dozen of those.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby, islice

from app.circuit.axes import axes_of
from app.circuit.deviations import Axes, Deviation
from app.circuit.kept_networks import kept_with
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.outcomes import Outcome as Found
from app.circuit.outcomes import outcomes_of as find_outcomes
from app.circuit.situation import Situation
from app.circuit.situations import groups
from app.circuit.solve import worlds_in
from app.circuit.unseen import leads_somewhere

Alike = tuple[Deviation, ...]
MOST_A_GROUP = 2000
"""More situations than these are not looked at in one group; a rule says so."""
MOST_IN_DOUBT = 256
"""The same in a group with an end that was not seen, where each situation is several to be worked out."""
MOST_WAYS_IN_DOUBT = 1200
"""Nor is more looked at in such a group once its contacts may stand in more ways than these, all situations together. A
thermostat none of whose wires was followed brings up to nine hundred."""
AT_ONCE = 16
"""After so many situations the ways are counted again."""


@dataclass(frozen=True, eq=False)
class Outcome:
    """What a group of parts settles to, and the situations that bring it.

    The situations of one outcome have the same coils, contacts and fuses in the same state and the same effects; their
    volts differ by nothing but the supply.
    """

    group: int
    found: Found
    deviations: Alike
    networks: tuple[int, ...]

    @cached_property
    def situations(self) -> tuple[Situation, ...]:
        """The situations that bring it, those with the fewest things otherwise than at rest first."""
        return tuple(deviation.situation() for deviation in sorted(self.deviations, key=Deviation.size))

    @property
    def point(self) -> OperatingPoint:
        """The operating point of the first of its situations."""
        return self.found.point

    @property
    def settles(self) -> bool:
        """Whether it has a settled state at all; asked at less cost than that of a point."""
        return self.found.asked.settles(self.found.at[0], self.networks)


@dataclass(frozen=True)
class Group:
    """A group of parts, the networks in which they lie, and what can be otherwise in it."""

    parts: tuple[str, ...]
    networks: tuple[int, ...]
    axes: Axes
    most: int
    """More situations than these are not looked at."""

    @property
    def possible(self) -> int:
        """The number of situations that there are."""
        return self.axes.possible()

    @property
    def made(self) -> int:
        """The number of situations that are looked at."""
        return min(self.possible, self.most)

    def looked_at(self) -> list[Deviation]:
        """Return what is looked at, the fewest things otherwise first."""
        return list(islice(self.axes.deviations(), self.most))


def groups_of(circuit: Circuit) -> tuple[Group, ...]:
    """Return the groups of a layout, in the order of their first part."""
    return tuple(_group(circuit, parts) for parts in groups(circuit.layout, circuit.catalogue))


def _group(circuit: Circuit, parts: tuple[str, ...]) -> Group:
    networks: dict[int, list[str]] = {}
    for part in parts:
        networks.setdefault(circuit.network_of[part], []).append(part)
    own = [circuit.networks[number] for number in networks]
    axes = kept_with(
        own,
        ("axes", parts),
        lambda: axes_of(list(networks.values()), circuit.layout, circuit.catalogue),
    )
    group = Group(parts, tuple(networks), axes, MOST_A_GROUP)
    if not any(leads_somewhere(network) for network in own):
        return group
    return replace(group, most=kept_with(own, ("most in doubt", parts), lambda: _most_in_doubt(circuit, group)))


def _most_in_doubt(circuit: Circuit, group: Group) -> int:
    """Return how many of its situations are looked at in a group with an end that was not seen."""
    ways: set[Hashable] = set()
    seen: set[Deviation] = set()
    deviations = list(islice(group.axes.deviations(), MOST_IN_DOUBT))
    for start in range(0, len(deviations), AT_ONCE):
        here = {group.axes.plain(deviation): deviation for deviation in deviations[start : start + AT_ONCE]}
        new = [deviation.situation() for plain, deviation in here.items() if plain not in seen]
        ways |= worlds_in(circuit, new, group.networks)
        if len(ways) > MOST_WAYS_IN_DOUBT:
            return start + AT_ONCE
        seen.update(here)
    return MOST_IN_DOUBT


def outcomes_of(circuit: Circuit, groups: Sequence[Group]) -> tuple[Outcome, ...]:
    """Return the outcomes of each group, simplest first."""
    asked = [(number, alike) for number, group in enumerate(groups) for alike in _to_ask(circuit, group)]
    situations = [alike[0].situation() for _, alike in asked]
    within = [groups[number].networks for number, _ in asked]
    outcomes: list[Outcome] = []
    for found in find_outcomes(circuit, situations, within):
        number = asked[found.at[0]][0]
        alike = tuple(deviation for at in found.at for deviation in asked[at][1])
        outcomes.append(Outcome(number, found, alike, groups[number].networks))
    for number, of_group in groupby(outcomes, key=lambda outcome: outcome.group):
        _kept_of(circuit, groups[number]).alike = [outcome.deviations for outcome in of_group]
    return tuple(outcomes)


@dataclass
class _Kept:
    """What is kept of a group as long as its networks are: sets of deviations that have come to the same."""

    alike: list[Alike] | None = None


def _kept_of(circuit: Circuit, group: Group) -> _Kept:
    return kept_with([circuit.networks[number] for number in group.networks], ("outcomes", group.parts), _Kept)


def _to_ask(circuit: Circuit, group: Group) -> Sequence[Alike]:
    """Return sets of deviations of which one stands for all: what came to the same before, or surely will."""
    kept = _kept_of(circuit, group).alike
    if kept is not None:
        return kept
    plain: dict[Deviation, list[Deviation]] = {}
    for deviation in group.looked_at():
        plain.setdefault(group.axes.plain(deviation), []).append(deviation)
    # Any of a set may stand for it; its first has the fewest things otherwise.
    return [tuple(alike) for alike in plain.values()]
