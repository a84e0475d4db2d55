"""The figures of all parts of a network, put together, and what of them never switches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import cast

from app.circuit.figures import PartFigures, SourceFigures
from app.circuit.network import Network
from app.circuit.plan import Plan


@dataclass(frozen=True, slots=True, eq=False)
class NetworkFigures:
    """The figures of all parts of a network, by branch, judged element, fuse and source."""

    on: tuple[complex, ...]
    off: tuple[complex, ...]
    rises: tuple[float, ...]
    falls: tuple[float, ...]
    fuse_amps: tuple[float, ...]
    sources: tuple[SourceFigures, ...]
    slack_volts: float
    by_plan: dict[int, tuple[list[complex], list[tuple[int, int, complex, complex]]]] = field(default_factory=dict)

    def assembled(self, network: Network, plan: Plan) -> tuple[list[complex], list[tuple[int, int, complex, complex]]]:
        """Return (entries of what never switches, [(branch, entry, siemens on, siemens off)] of what does)."""
        found = self.by_plan.get(id(plan))
        if found is None:
            fixed = [0j] * plan.size
            switching = []
            for at, entry in enumerate(plan.entries(branch.nodes for branch in network.branches)):
                if entry < 0:
                    continue
                if self.on[at] == self.off[at]:
                    fixed[entry] += self.on[at]
                else:
                    switching.append((at, entry, self.on[at], self.off[at]))
            found = self.by_plan[id(plan)] = (fixed, switching)
        return found


def network_figures(network: Network, parts: Sequence[PartFigures], ohms: Mapping[str, float]) -> NetworkFigures:
    """Return the figures of a network; made once for the same.

    Args:
        network: whose figures are asked.
        parts: figures of its parts.
        ohms: of conductors that a fault has changed, infinite for one that is cut.
    """
    key = ("network figures", tuple(ohms.items()), *map(id, parts))
    found = network.made.get(key)
    if found is None:
        # The parts are kept beside the answer, so that their identities stay theirs.
        found = network.made[key] = (_gather(network, parts, ohms), tuple(parts))
    return cast("tuple[NetworkFigures, object]", found)[0]


def _gather(network: Network, parts: Sequence[PartFigures], ohms: Mapping[str, float]) -> NetworkFigures:
    wires = tuple(
        complex(1 / ohms.get(branch.name, branch.ohms)) for branch in network.branches if branch.ohms is not None
    )
    sources = tuple(
        SourceFigures(place.branch + s.slot, s.emf, s.siemens, s.va, s.phase_known, s.mains)
        for place, part in zip(network.places, parts, strict=True)
        for s in part.sources
    )
    return NetworkFigures(
        on=tuple(y for part in parts for y in part.on) + wires,
        off=tuple(y for part in parts for y in part.off) + wires,
        rises=tuple(volts for part in parts for volts in part.rises),
        falls=tuple(volts for part in parts for volts in part.falls),
        fuse_amps=tuple(amps for part in parts for amps in part.fuse_amps),
        sources=sources,
        slack_volts=1e-9 * max((abs(s.emf) for s in sources), default=0.0),
    )
