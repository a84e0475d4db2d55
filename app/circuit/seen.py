"""A snapshot of one network in volts and amps: references, phasors, currents."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from app.circuit.figures import SourceFigures
from app.circuit.joins import join_amps
from app.circuit.network import Network
from app.circuit.settle import Snapshot

GROUND = "ground"


@dataclass(frozen=True, slots=True)
class Reference:
    """Where a component has 0 V: a terminal's name (or ``GROUND``), the shift of its volts, the source that leads.

    ``turned`` is -1 for a component whose only source has an unknown phase and was tried at 180°: alone, its phase
    means nothing, and it is shown at 0°.
    """

    name: str
    shift: complex
    source: SourceFigures
    turned: int


@dataclass(frozen=True, eq=False)
class Seen:
    """Answers about one snapshot. ``has_ground`` tells whether the layout has a ground element anywhere."""

    snapshot: Snapshot
    has_ground: bool

    @property
    def network(self) -> Network:
        """Return the network that was solved."""
        return self.snapshot.scene.network

    @cached_property
    def references(self) -> dict[int, Reference]:
        """Return the reference of each component that has a live source, by root."""
        network, solution = self.network, self.snapshot.solution
        earth = network.earth
        by_root: dict[int, list[SourceFigures]] = {}
        for source in self.snapshot.scene.figures.sources:
            if self.snapshot.on >> source.slot & 1:
                by_root.setdefault(solution.root[network.branches[source.slot].nodes[1]], []).append(source)
        found = {}
        for root, sources in by_root.items():
            lead = min(sources, key=lambda s: (-s.va, network.branches[s.slot].name))
            turned = -1 if len(sources) == 1 and not lead.phase_known and lead.emf < 0 else 1
            common = network.branches[lead.slot]
            if self.has_ground and solution.root[earth] == root:
                found[root] = Reference(GROUND, solution.volts[earth], lead, turned)
            else:
                found[root] = Reference(network.points[common.points[1]], solution.volts[common.nodes[1]], lead, turned)
        return found

    def volts(self, node: int, reference: Reference) -> complex:
        """Return the volts of a node against the reference of its component."""
        return (self.snapshot.solution.volts[node] - reference.shift) * (self.snapshot.scene.supply * reference.turned)

    def across(self, branch: int) -> complex | None:
        """Return the volts from the first to the second node of a branch; None where they lie apart."""
        a, b = self.network.branches[branch].nodes
        solution = self.snapshot.solution
        if solution.root[a] != solution.root[b]:
            return None
        reference = self.references.get(solution.root[a])
        turned = 1 if reference is None else reference.turned
        return (solution.volts[a] - solution.volts[b]) * (self.snapshot.scene.supply * turned)

    @cached_property
    def amps(self) -> list[complex]:
        """Return the amps of each branch, from its first point to its second."""
        figures, on = self.snapshot.scene.figures, self.snapshot.on
        through = []
        for at in range(len(self.network.branches)):
            siemens = figures.on[at] if on >> at & 1 else figures.off[at]
            through.append((self.across(at) or 0j) * siemens if siemens else 0j)
        for source in figures.sources:
            if on >> source.slot & 1:
                node = self.network.branches[source.slot].nodes[0]
                reference = self.references[self.snapshot.solution.root[node]]
                driven = source.emf * self.snapshot.scene.supply * reference.turned
                through[source.slot] -= driven * source.siemens
        return through

    @cached_property
    def join_amps(self) -> list[complex]:
        """Return the amps of each join, from its first point to its second."""
        network = self.network
        more: list[tuple[int, int, complex | None]] = []
        for a, b, ohms in self.snapshot.scene.joins:
            more.append((a, b, self._through(a, b, ohms)))
        return join_amps(network, self.amps, more)

    def _through(self, a: int, b: int, ohms: float) -> complex | None:
        """Return the amps from one point to another through a fault; None where it has no resistance."""
        if not ohms:
            return None
        network, solution = self.network, self.snapshot.solution
        volts = solution.volts[network.node_of[a]] - solution.volts[network.node_of[b]]
        reference = self.references.get(solution.root[network.node_of[a]])
        return volts / ohms * self.snapshot.scene.supply * (1 if reference is None else reference.turned)
