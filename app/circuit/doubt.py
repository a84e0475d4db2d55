"""What could be otherwise because something was not seen: the far end of a conductor, the inside of a part.

The law, and what it takes for granted. Behind an unseen end there may be anything between the hot and the common side
of the sources of its component: a load, a switch, a relay that the circuit itself moves, another unseen end. So at the
node where it lands there is either *some volts between hot and common* (where the circuit there is soft) or *some amps
up to what the sources are made for* (where it is stiff, as on a supply or common rail, which no load within a rating
moves by more than a little). Every other volt of a linear network follows from these in proportion, so that the least
and the most that can stand across any element are sums, however many unseen ends there are; see
``app.circuit.unseen``. A coil, input or fuse that is on, or off, at both is known. One that is not is in doubt; its
contacts are tried both ways, each way a world with bounds of its own, see ``app.circuit.worlds``, and what once was in
doubt stays so, because what it did in an earlier pass may have decided what others do now.

Taken for granted, and said once where findings speak of the unseen end: no dead short and no overload lies behind it,
no source of another component, and apart from hot and common no terminal of which it is on record what is landed
there. A component without a source and with one unseen end has nothing across its elements, whatever the end brings:
there is no way back. With several, up to 30 V may stand between any two of them.

More seen never makes less known: a further unseen end adds a term to each sum and takes none away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import cast

from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.scene import Extra, Scene
from app.circuit.state import Question, State
from app.circuit.unseen import Reach, ports_of, reach_of
from app.circuit.veil import Veil
from app.circuit.worlds import worlds_of

HOLDS_UP_TO = 1.35
"""Of its rating; a fuse opens above it. From its rating up to there it holds, which is a finding."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """What could be otherwise.

    ``judged`` (by judged element), ``fuses`` and ``branches`` are bits; ``worlds`` are the branches that may be on, as
    bits, the world that is told first. ``veil`` tells what of the volts is known.
    """

    judged: int = 0
    fuses: int = 0
    branches: int = 0
    worlds: tuple[int, ...] = ()
    reaches: tuple[Reach, ...] = field(default=(), compare=False, repr=False)
    veil: Veil | None = field(default=None, compare=False, repr=False)

    def hides(self, node: int) -> bool:
        """Return whether the volts of a node are unknown."""
        return self.veil is not None and self.veil.hides(node)

    def hides_amps(self, a: int, b: int, siemens: complex) -> bool:
        """Return whether the amps of a branch between two nodes are unknown."""
        return self.veil is not None and self.veil.hides_amps(a, b, siemens)

    def hides_join_amps(self, node: int) -> bool:
        """Return whether the amps of what is always joined at a node are unknown."""
        return self.veil is not None and self.veil.hides_join_amps(node)

    def may_meet(self, node: int) -> bool:
        """Return whether the component of a node could be joined to another in a way that nobody saw."""
        return self.veil is not None and self.veil.may_meet(node)


NO_DOUBT = Doubt()


def doubt_in(scene: Scene, state: State, on: int, solution: Solution) -> Doubt:
    """Return what is in doubt at this pass.

    Args:
        state: from which the pass was solved; its doubt stays.
        on: the branches that are on, as bits.
        solution: of these branches.
    """
    network = scene.network
    if not state.doubt:
        quiet = quiet_doubt(network, scene.extras)
        if quiet is not None:
            return quiet
    ports, lone = ports_of(network, scene.extras)
    worlds = worlds_of(scene, state, on)
    if worlds is None:
        return _broad_doubt(scene, state, solution, ports, lone)
    reaches = tuple(reach_of(network, Question(scene.figures, world, scene.extras), ports) for world in worlds)
    judged = state.doubt | _judged_in_doubt(scene, state.held, reaches)
    varies = 0
    for world in worlds:
        varies |= world ^ on
    return Doubt(judged, state.fuse_doubt, varies, worlds, reaches, Veil(network, lone, reaches))


def quiet_doubt(network: Network, extras: Sequence[Extra]) -> Doubt | None:
    """Return the doubt of every pass where what is unseen lies at nodes to which nothing leads, such as a spare pair
    of sensor terminals; None where a pass has to be looked at."""
    if not network.touched:
        return NO_DOUBT
    key = ("quiet", extras)
    if key not in network.made:
        ports, lone = ports_of(network, extras)
        network.made[key] = None if ports else Doubt(veil=Veil(network, lone, ()))
    return cast("Doubt | None", network.made[key])


def doubtful_fuses(scene: Scene, doubts: Sequence[Doubt]) -> int:
    """Return the fuses (bits) of which it is not known whether they hold what they carry in the end.

    A fuse that is overloaded in every world opens, as long as it is the only one; which of several goes first may
    differ from world to world.
    """
    maybe, surely = 0, 0
    for fuse, branch in enumerate(scene.network.fuse_branches):
        most = HOLDS_UP_TO * scene.figures.fuse_amps[fuse]
        bounds = [reach.fuse_amps(branch) for doubt in doubts for reach in doubt.reaches]
        if any(high * scene.supply > most for _, high in bounds):
            maybe |= 1 << fuse
            if all(low * scene.supply > most for low, _ in bounds):
                surely |= 1 << fuse
    known_before = ~doubts[0].fuses if doubts else 0
    return 0 if maybe == surely and maybe.bit_count() < 2 else maybe & known_before


def _judged_in_doubt(scene: Scene, held: int, reaches: Sequence[Reach]) -> int:
    """Return the judged elements that are on in some worlds and off in others; each keeps what it did as it would."""
    figures, supply, slack = scene.figures, scene.supply, scene.figures.slack_volts
    doubt = 0
    for at, (least, most) in enumerate(_spans_over(scene.network, reaches)):
        limit = (figures.falls[at] if held >> at & 1 else figures.rises[at]) - slack
        if least * supply < limit <= most * supply:
            doubt |= 1 << at
    return doubt


def _spans_over(network: Network, reaches: Sequence[Reach]) -> Sequence[tuple[float, float]]:
    """Return the least and the most volts of each judged element over all worlds; worked out once for the same."""
    # A reach is kept with its network, so that its identity stays its own.
    key = ("spans", *map(id, reaches))
    if key not in network.made:
        of_element = zip(*(reach.judged_spans for reach in reaches), strict=True)
        network.made[key] = [(min(low for low, _ in each), max(high for _, high in each)) for each in of_element]
    return cast("Sequence[tuple[float, float]]", network.made[key])


def _broad_doubt(scene: Scene, state: State, solution: Solution, ports: Sequence[int], lone: frozenset[int]) -> Doubt:
    """Return the doubt where too much may be one way or the other to try each: nothing is known of what it reaches.

    The components of unseen ends and of contacts in doubt are unknown whole, and so is what is judged there.
    """
    network, root = scene.network, solution.root
    judged, fuses = state.doubt, state.fuse_doubt
    roots = {root[node] for node in ports}
    branches = 0
    while True:
        judged |= _lying_in(network.judged_nodes, root, roots)
        fuses |= _lying_in(network.fuse_nodes, root, roots)
        moved = scene.cast.moved_by(state.held, state.opened, state.memory, judged, fuses)
        moved |= sum(1 << branch for at, branch in enumerate(network.fuse_branches) if fuses >> at & 1)
        if not moved & ~branches:
            own = sum(1 << network.branch_of[n] for at, n in enumerate(network.judged_names) if judged >> at & 1)
            return Doubt(judged, fuses, branches | own, veil=Veil.over_roots(network, lone, root, frozenset(roots)))
        branches |= moved
        for at, branch in enumerate(network.branches):
            if branches >> at & 1:
                roots.update(root[node] for node in branch.nodes)


def _lying_in(places: Sequence[tuple[int, int]], root: Sequence[int], roots: set[int]) -> int:
    return sum(1 << at for at, (a, b) in enumerate(places) if root[a] in roots or root[b] in roots)
