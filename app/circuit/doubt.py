"""How far something unknown reaches: through what conducts, and through what may or may not conduct."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.circuit.linear import Solution
from app.circuit.scene import Scene
from app.circuit.state import State, numbers


@dataclass(frozen=True, slots=True)
class Doubt:
    """What could be otherwise because of something unknown.

    ``judged``, ``fuses`` and ``branches`` are bits; ``roots`` are the components in which nothing is known.
    """

    judged: int = 0
    fuses: int = 0
    branches: int = 0
    roots: frozenset[int] = frozenset()


NO_DOUBT = Doubt()


def doubt_in(scene: Scene, state: State, solution: Solution) -> Doubt:
    """Return what is in doubt at this pass.

    An unknown end, part or opaque element makes its whole component unknown. Elements judged there are in doubt, and
    so are the contacts that they move; a contact in doubt makes both its sides unknown. What was once in doubt stays
    so: what it did in an earlier pass may have decided what others do now.
    """
    network = scene.network
    root = solution.root
    roots = {root[node] for node in network.touched}
    judged, branches = state.doubt, 0
    while True:
        judged |= _lying_in(network.judged_nodes, root, roots)
        fuses = _lying_in(network.fuse_nodes, root, roots)
        moved = scene.cast.moved_by(state.held, state.opened, state.memory, judged, fuses) if judged or fuses else 0
        if not moved & ~branches:
            return Doubt(judged, fuses, branches, frozenset(roots))
        branches |= moved
        for branch in numbers(branches):
            roots.update(root[node] for node in network.branches[branch].nodes)


def _lying_in(places: Sequence[tuple[int, int]], root: Sequence[int], roots: set[int]) -> int:
    return sum(1 << at for at, (a, b) in enumerate(places) if root[a] in roots or root[b] in roots)
