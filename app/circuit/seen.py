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
        return (solution.volts[a] - solution.volts[b]) * self._scale(solution.root[a])

    def _scale(self, root: int) -> float:
        """Return what turns solved volts of a component into those of the situation."""
        reference = self.references.get(root)
        return self.snapshot.scene.supply if reference is None else self.snapshot.scene.supply * reference.turned

    @cached_property
    def _emf(self) -> dict[int, float]:
        """Return the open-circuit volts of each live source at 100 % supply, by branch."""
        on = self.snapshot.on
        return {source.slot: source.emf for source in self.snapshot.scene.figures.sources if on >> source.slot & 1}

    def through(self, branch: int) -> complex:
        """Return the amps of a branch, from its first point to its second."""
        snapshot = self.snapshot
        figures = snapshot.scene.figures
        siemens = figures.on[branch] if snapshot.on >> branch & 1 else figures.off[branch]
        if not siemens:
            return 0j
        # What conducts has both its nodes in one component.
        a, b = self.network.branches[branch].nodes
        volts = snapshot.solution.volts
        return (volts[a] - volts[b] - self._emf.get(branch, 0.0)) * siemens * self._scale(snapshot.solution.root[a])

    @cached_property
    def amps(self) -> list[complex]:
        """Return the amps of each branch, from its first point to its second."""
        return [self.through(branch) for branch in range(len(self.network.branches))]

    @cached_property
    def join_amps(self) -> list[complex]:
        """Return the amps of each join, from its first point to its second."""
        more = [(a, b, self._through_fault(a, b, ohms)) for a, b, ohms in self.snapshot.scene.joins]
        return join_amps(self.network, self.amps, more)

    def _through_fault(self, a: int, b: int, ohms: float) -> complex | None:
        """Return the amps from one point to another through a fault; None where it has no resistance."""
        if not ohms:
            return None
        node_of, solution = self.network.node_of, self.snapshot.solution
        volts = solution.volts[node_of[a]] - solution.volts[node_of[b]]
        return volts / ohms * self._scale(solution.root[node_of[a]])
