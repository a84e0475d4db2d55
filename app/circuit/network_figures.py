"""The figures of all parts of a network, put together, and what of them never switches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain
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
    wires = _wires(network, ohms)
    sources = tuple(
        SourceFigures(place.branch + s.slot, s.emf, s.siemens, s.va, s.phase_known, s.mains)
        for place, part in zip(network.places, parts, strict=True)
        for s in part.sources
    )
    return NetworkFigures(
        on=(*chain.from_iterable([part.on for part in parts]), *wires),
        off=(*chain.from_iterable([part.off for part in parts]), *wires),
        rises=tuple(chain.from_iterable([part.rises for part in parts])),
        falls=tuple(chain.from_iterable([part.falls for part in parts])),
        fuse_amps=tuple(chain.from_iterable([part.fuse_amps for part in parts])),
        sources=sources,
        slack_volts=1e-9 * max((abs(s.emf) for s in sources), default=0.0),
    )


def _wires(network: Network, ohms: Mapping[str, float]) -> Sequence[complex]:
    """Return the siemens of the conductors, which are the last branches of a network."""
    found = network.made.get("wires")
    if found is None:
        found = [complex(1 / branch.ohms) for branch in network.branches if branch.ohms is not None]
        network.made["wires"] = found
    sound = cast("list[complex]", found)
    if not ohms:
        return sound
    wires = sound.copy()
    first = len(network.branches) - len(wires)
    for name, each in ohms.items():
        wires[network.branch_of[name] - first] = complex(1 / each)
    return wires
