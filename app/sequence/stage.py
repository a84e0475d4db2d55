"""A situation as the networks of a circuit see it, and how they settle at an instant from the state before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.circuit.asking import networks_joined
from app.circuit.broken_layout import broken_layout, changes_layout
from app.circuit.faults import injected
from app.circuit.network import Circuit, Network, build_circuit
from app.circuit.operating_point import Unsettled
from app.circuit.pure import solve_each
from app.circuit.scene import Scene, cast_of, scene_of
from app.circuit.settle import Run, Settled, Snapshot, before_it_moves, settle_from
from app.circuit.situation import Fault, Situation
from app.circuit.state import State
from app.sequence.standing import Amounts, Standing, amounts_of, phases_of, state_of


@dataclass(frozen=True, slots=True, eq=False)
class Stage:
    """A situation with its circuit (that of the faults, where they make another layout) and a scene a network."""

    circuit: Circuit
    situation: Situation
    scenes: tuple[Scene, ...]
    cutting: tuple[Fault, ...]

    def amounts(self) -> dict[str, Amounts]:
        """Return what the timers of each part wait for."""
        return {
            place.part: amounts_of(part)
            for scene in self.scenes
            for place, part in zip(scene.network.places, scene.cast.parts, strict=True)
        }

    def assumes(self) -> tuple[str, ...]:
        """Return what is taken for granted: that sources of unknown phase are in phase with others."""
        unknown = (
            scene.network.branches[source.slot].name
            for scene in self.scenes
            if scene.network.source_count > 1
            for source in scene.figures.sources
            if not source.phase_known
        )
        return tuple(f"{name} is in phase with the other sources" for name in sorted(unknown))


@dataclass(frozen=True, slots=True, eq=False)
class Played:
    """What a network did at an instant: all passes, what it came to, and the state to go on from.

    ``mover`` is the coil that was taken to move first in a race, with the passes from then on in ``passes`` from
    ``moved_at``.
    """

    scene: Scene
    passes: tuple[Snapshot, ...]
    settled: Settled
    onward: State
    unsettled: Unsettled | None
    mover: str | None = None
    moved_at: int = 0


def stage_of(circuit: Circuit, situation: Situation, before: Stage | None = None) -> Stage:
    """Return a situation as the networks of a circuit see it.

    Args:
        circuit: without any fault.
        situation: what is asked.
        before: the stage until now, whose circuit serves on where the same conductors are cut.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    faults = injected(circuit.layout, circuit.catalogue, situation.faults)
    cutting = tuple(fault for fault in situation.faults if changes_layout(circuit.layout, fault))
    if before is not None and before.cutting == cutting:
        circuit = before.circuit
    elif cutting:
        circuit = build_circuit(broken_layout(circuit.layout, cutting), circuit.catalogue, circuit.frequency_hz)
    joined = networks_joined(circuit, faults)
    alone = {part for network in joined for part in network.parts}
    networks = [*joined, *(network for network in circuit.networks if not alone.intersection(network.parts))]
    scenes = tuple(scene_of(network, circuit.layout, situation, faults, {}) for network in networks)
    return Stage(circuit, situation, tuple(sorted(scenes, key=lambda scene: scene.network.number)), cutting)


def scene_at(scene: Scene, amounts: Mapping[str, Amounts], standings: Mapping[str, Standing], now: int) -> Scene:
    """Return a scene at an instant: each part with how far its timers have run."""
    parts = tuple(
        part.at_instant(phases_of(amounts[place.part], standings[place.part], now))
        for place, part in zip(scene.network.places, scene.cast.parts, strict=True)
    )
    return replace(scene, cast=cast_of(scene.network, parts))


def play(scene: Scene, standings: Mapping[str, Standing]) -> Played:
    """Settle a network at an instant from how its parts stand."""
    start = state_of(scene.network, standings, scene.opened)
    played = _play_from(scene, start._replace(doubt=0))
    # What was in doubt before and is known now is known only where its volts alone decide, not what it did before.
    doubtful = start.doubt & ~played.onward.doubt
    if doubtful and (undecided := doubtful & _kept(scene, played.settled.snapshots[-1])):
        played = _play_from(scene, start._replace(doubt=undecided))
    return played


def _play_from(scene: Scene, start: State) -> Played:
    trail: list[Snapshot] = []
    settled = _ended(scene.network, settle_from(scene, start, trail))
    if settled.unsettled is None:
        return Played(scene, tuple(trail), settled, settled.snapshots[0].state, None)
    if settled.unsettled.why == "race":
        return _first_moved(scene, trail, settled)
    return Played(scene, tuple(trail), settled, _let_go(settled.snapshots), settled.unsettled)


def _first_moved(scene: Scene, trail: Sequence[Snapshot], race: Settled) -> Played:
    """Go on from a race as if the coil that comes first by its name had moved first."""
    unsettled = race.unsettled
    if unsettled is None:
        raise ValueError("only a race has a first mover")
    mover = min(unsettled.outcomes)
    coil = scene.network.judged_names.index(mover)
    start = before_it_moves([snapshot.state for snapshot in race.snapshots], coil)
    rest: list[Snapshot] = []
    moved = start._replace(held=start.held ^ 1 << coil)
    settled = _ended(scene.network, settle_from(scene, moved, rest, may_try_movers=False))
    settled = replace(settled, blown={**race.blown, **settled.blown})
    return Played(scene, (*trail, *rest), settled, settled.snapshots[0].state, unsettled, mover, len(trail))


def _ended(network: Network, run: Run) -> Settled:
    try:
        question = next(run)
        while True:
            answer = network.known.get(question)
            if answer is None:
                [answer] = solve_each(network, [question])
                network.known[question] = answer
            question = run.send(answer)
    except StopIteration as end:
        settled: Settled = end.value
        return settled


def _let_go(cycle: Sequence[Snapshot]) -> State:
    """Return the state to go on from where nothing settles: what is on in each state of the cycle is on."""
    first = cycle[0].state
    held = first.held
    doubt = 0
    for snapshot in cycle:
        held &= snapshot.state.held
        doubt |= snapshot.state.doubt
    return first._replace(held=held & ~doubt, opened=cycle[-1].state.opened, doubt=doubt)


def _kept(scene: Scene, snapshot: Snapshot) -> int:
    """Return the judged elements (bits) that would keep whatever they were at these volts."""
    volts, root = snapshot.solution.volts, snapshot.solution.root
    slack = scene.figures.slack_volts
    kept = 0
    for at, (a, b) in enumerate(scene.network.judged_nodes):
        across = abs(volts[a] - volts[b]) * scene.supply if root[a] == root[b] else 0.0
        if scene.figures.falls[at] - slack <= across < scene.figures.rises[at] - slack:
            kept |= 1 << at
    return kept
