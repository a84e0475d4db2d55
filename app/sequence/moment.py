"""One instant of a run, as it stood at its end; its operating point is worked out when it is asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from app.circuit.answering import operating_point
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.settle import Settled
from app.circuit.situation import Situation
from app.circuit.view import RestViews, View, Views, view_of
from app.sequence.stage import Played


@dataclass(frozen=True, eq=False)
class Moment:
    """An instant: ``blown`` gives the amps of each fuse (``part.element``) that has opened until then."""

    at_ms: int
    circuit: Circuit
    situation: Situation
    played: tuple[Played, ...]
    blown: Mapping[str, float]

    @cached_property
    def point(self) -> OperatingPoint:
        """Return the operating point."""
        views: dict[int, View] = {}
        for played in self.played:
            network = played.scene.network
            settled = replace(self._with_blown(played), unsettled=played.unsettled)
            view = view_of(self.circuit, network, [settled], self.circuit.offset_of(network))
            views.update((self.circuit.network_of[part], view) for part in network.parts)
        each = tuple(views[number] for number in range(len(self.circuit.networks)))
        return operating_point(self.circuit, self.situation, Views(RestViews(each), {}))

    def _with_blown(self, played: Played) -> Settled:
        network = played.scene.network
        names = [network.branches[branch].name for branch in network.fuse_branches]
        blown = {at: self.blown[name] for at, name in enumerate(names) if name in self.blown}
        return replace(played.settled, blown=blown)
