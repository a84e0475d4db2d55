"""What of the volts and amps of a network is known although something was not seen.

Volts are told where nothing unseen could move them by more than a load within its rating moves a sound supply
(``TOLD_WITHIN`` of the volts between hot and common); what is told are those with every unseen end open.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.circuit.network import Network
from app.circuit.unseen import Reach

TOLD_WITHIN = 0.15
"""Of the volts between hot and common: the usual regulation of 10 % and a run of wire (common practice, no source)."""
LEAST_SIEMENS = 0.25
"""From here up something is a wire, a contact, a fuse or a source; a coil or load of 24 V would be one of 140 VA."""


class Veil:
    """Tells of each node whether its volts are known.

    ``reaches`` are those of every world, the one that is told first; without any, what lies in ``roots`` is unknown.
    """

    def __init__(
        self,
        network: Network,
        lone: frozenset[int],
        reaches: Sequence[Reach],
        root: Sequence[int] = (),
        roots: frozenset[int] = frozenset(),
    ) -> None:
        self.network = network
        self.lone = lone
        self.reaches = reaches
        self.root = reaches[0].solution.root if reaches else root
        self.roots = roots
        self._hidden: dict[int, bool] = {}

    @classmethod
    def over_roots(cls, network: Network, lone: frozenset[int], root: Sequence[int], roots: frozenset[int]) -> Veil:
        """Return the veil over whole components."""
        return cls(network, lone, (), root, roots)

    def hides(self, node: int) -> bool:
        """Return whether the volts of a node are unknown."""
        found = self._hidden.get(node)
        if found is None:
            found = self._hidden[node] = self._hides(node)
        return found

    def _hides(self, node: int) -> bool:
        if node in self.lone:
            return True
        if not self.reaches:
            return bool(self.roots) and self.root[node] in self.roots
        root = self.root[node]
        told = self.reaches[0]
        if root not in told.sources:
            # It floats in every world, or it is not known whether it does.
            return any(r.solution.root[node] in r.sources or r.solution.root[node] in r.ports for r in self.reaches)
        common = self._common(root)
        middle = told.solution.volts[node] - told.solution.volts[common]
        return any(self._moves(reach, node, common, middle) for reach in self.reaches)

    def _moves(self, reach: Reach, node: int, common: int, told: complex) -> bool:
        """Return whether a node can stand elsewhere in a world than it is told."""
        if reach.solution.root[node] != reach.solution.root[common]:
            return True
        if reach.solution.root[node] not in reach.sources:
            return True
        here = reach.solution.volts[node] - reach.solution.volts[common] + reach.shift[node] - reach.shift[common]
        return abs(here - told) + reach.swing(node, common) > TOLD_WITHIN * self._span(self.root[common])

    def hides_amps(self, a: int, b: int, siemens: complex) -> bool:
        """Return whether the amps of a branch between two nodes are unknown.

        Those of coils and loads follow from their volts; what next to nothing limits may carry to and from anything
        unseen in its component.
        """
        if not siemens:
            return False
        return self.hides(a) or self.hides(b) or (abs(siemens) > LEAST_SIEMENS and self.hides_join_amps(a))

    def hides_join_amps(self, node: int) -> bool:
        """Return whether the amps of what is always joined at a node are unknown: where anything there is unseen."""
        if self.hides(node) or len(self.reaches) > 1:
            return True
        return any(reach.solution.root[node] in reach.ports for reach in self.reaches)

    def may_meet(self, node: int) -> bool:
        """Return whether something unseen could join the component of a node to another one."""
        if node in self.lone:
            return True
        if not self.reaches:
            return bool(self.roots) and self.root[node] in self.roots
        together = {each for each, root in enumerate(self.root) if root == self.root[node]}
        for reach in self.reaches:
            root = reach.solution.root
            if root[node] in reach.ports or {each for each, top in enumerate(root) if top == root[node]} != together:
                return True
        return False

    def _common(self, root: int) -> int:
        """Return the node against which volts are told: earth, or the common side of the source with the most VA."""
        network = self.network
        if network.ground is not None and self.root[network.earth] == root:
            return network.earth
        lead = min(self.reaches[0].sources[root], key=lambda s: (-s.va, network.branches[s.slot].name))
        return network.branches[lead.slot].nodes[1]

    def _span(self, root: int) -> float:
        """Return the volts between hot and common of the greatest source of a component, as told."""
        return max(abs(source.emf) for source in self.reaches[0].sources[root])
