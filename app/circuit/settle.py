"""One operating point: passes until nothing changes, fuses, and what is said when nothing settles.

Rules of the file: it follows the definition of an operating point to the letter and knows no way of solving. It is a
generator that yields questions (which branches conduct) and is sent their solutions, so that one caller can answer
one at a time and another can answer hundreds together.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass

from app.circuit.doubt import HOLDS_UP_TO, NO_DOUBT, Doubt, doubt_in, doubtful_fuses
from app.circuit.linear import Solution
from app.circuit.operating_point import Unsettled
from app.circuit.scene import Scene
from app.circuit.state import Question, State, numbers

RELATIVE_SLACK = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Snapshot:
    """One pass: the state from which it was solved, what conducted (bits by branch), and what could not be known."""

    scene: Scene
    state: State
    on: int
    solution: Solution
    doubt: Doubt


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """The end: one snapshot, or those of the cycle. ``blown`` gives the amps of each fuse (number) before it opened.

    ``worlds`` are those of all passes that led there; none where nothing was unseen.
    """

    snapshots: tuple[Snapshot, ...]
    unsettled: Unsettled | None
    blown: dict[int, float]
    worlds: frozenset[int] = frozenset()


Run = Generator[Question, Solution, Settled]


def settle(scene: Scene) -> Run:
    """Settle a scene from rest: coils released, inputs off, fuses whole."""
    return settle_from(scene, rest_of(scene), [])


def rest_of(scene: Scene) -> State:
    """Return the state before anything has happened."""
    return State(0, scene.opened, scene.cast.rest_memory(), 0)


def settle_from(scene: Scene, state: State, trail: list[Snapshot], *, may_try_movers: bool = True) -> Run:
    """Settle a scene from a state; each pass is added to ``trail``, which is given empty."""
    seen: dict[State, int] = {}
    blown: dict[int, float] = {}
    for _ in range(_most_passes(scene)):
        snapshot, after = yield from _pass(scene, state)
        seen[state] = len(trail)
        trail.append(snapshot)
        if after in seen:
            # A state that follows itself has settled; a longer way back to a state is a cycle.
            cycle = trail[seen[after] :]
            unsure = doubtful_fuses(scene, [each.doubt for each in cycle]) if scene.network.touched else 0
            if unsure:
                state = after._replace(fuse_doubt=after.fuse_doubt | unsure)
                continue
            opening = _fuses_that_open(scene, cycle)
            if opening:
                blown.update(opening)
                state = after._replace(opened=after.opened | sum(1 << fuse for fuse in opening))
                continue
            if len(cycle) == 1:
                return Settled((snapshot,), None, blown, _worlds(trail))
            unsettled = yield from _race_or_chatter(scene, cycle, may_try_movers)
            return Settled(tuple(cycle), unsettled, blown, _worlds(trail))
        state = after
    return Settled(tuple(trail), Unsettled("undecided", _changing(scene, trail)), blown, _worlds(trail))


def _worlds(trail: Sequence[Snapshot]) -> frozenset[int]:
    return frozenset(world for snapshot in trail for world in snapshot.doubt.worlds)


def _most_passes(scene: Scene) -> int:
    return 4 * (len(scene.figures.rises) + len(scene.figures.fuse_amps)) + 8


def _pass(scene: Scene, state: State) -> Generator[Question, Solution, tuple[Snapshot, State]]:
    """Solve once from a state; return what was seen, and the state that follows."""
    network = scene.network
    on, memory = scene.cast.outcome(state.held, state.opened, state.memory)
    question = Question(scene.figures, on, scene.extras)
    solution = network.known.get(question)
    if solution is None:
        solution = yield question
    doubt = doubt_in(scene, state, on, solution) if network.touched else NO_DOUBT
    held = judged_on(scene, state.held, solution) & ~doubt.judged
    return Snapshot(scene, state, on, solution, doubt), State(held, state.opened, memory, doubt.judged, doubt.fuses)


def judged_on(scene: Scene, held: int, solution: Solution) -> int:
    """Return which judged elements are on at these volts."""
    limits = solution.judged.get(scene.supply)
    if limits is None:
        limits = solution.judged[scene.supply] = _limits_passed(scene, solution)
    rise, hold = limits
    return rise & ~held | hold & held


def _limits_passed(scene: Scene, solution: Solution) -> tuple[int, int]:
    """Return (judged elements that come on at these volts, those that stay on), as bits."""
    volts, root = solution.volts, solution.root
    figures, supply = scene.figures, scene.supply
    slack = figures.slack_volts
    rise = hold = 0
    for at, (a, b) in enumerate(scene.network.judged_nodes):
        across = abs(volts[a] - volts[b]) * supply if root[a] == root[b] else 0.0
        if across >= figures.rises[at] - slack:
            rise |= 1 << at
        if across >= figures.falls[at] - slack:
            hold |= 1 << at
    return rise, hold


def fuse_amps(snapshot: Snapshot, fuse: int) -> float:
    """Return the amps through a fuse, given its number in the network."""
    scene = snapshot.scene
    branch = scene.network.fuse_branches[fuse]
    if not snapshot.on >> branch & 1:
        return 0.0
    a, b = scene.network.branches[branch].nodes
    volts = snapshot.solution.volts
    return abs((volts[a] - volts[b]) * scene.figures.on[branch]) * scene.supply


def _fuses_that_open(scene: Scene, cycle: Sequence[Snapshot]) -> dict[int, float]:
    """Return the amps of the fuses with the greatest overload, when it is more than they hold."""
    over: dict[int, float] = {}
    for fuse in range(len(scene.figures.fuse_amps)):
        amps = max(0.0 if snapshot.doubt.fuses >> fuse & 1 else fuse_amps(snapshot, fuse) for snapshot in cycle)
        if amps > HOLDS_UP_TO * scene.figures.fuse_amps[fuse] * (1 + RELATIVE_SLACK):
            over[fuse] = amps
    if not over:
        return {}
    ratio = {fuse: amps / scene.figures.fuse_amps[fuse] for fuse, amps in over.items()}
    greatest = max(ratio.values()) * (1 - RELATIVE_SLACK)
    return {fuse: amps for fuse, amps in over.items() if ratio[fuse] >= greatest}


def _race_or_chatter(
    scene: Scene, cycle: Sequence[Snapshot], may_try_movers: bool
) -> Generator[Question, Solution, Unsettled]:
    """Let one coil of the cycle move first, each in turn: does the rest then settle?"""
    network = scene.network
    outcomes: dict[str, tuple[str, ...]] = {}
    states = [snapshot.state for snapshot in cycle]
    coils = network.coil_bits
    if may_try_movers:
        moving = _moving(states) & coils
        for coil in numbers(moving):
            start = before_it_moves(states, coil)
            start = start._replace(held=start.held ^ 1 << coil)
            end = yield from settle_from(scene, start, [], may_try_movers=False)
            if end.unsettled is None:
                pulled_in = end.snapshots[0].state.held & coils
                outcomes[network.judged_names[coil]] = tuple(
                    sorted(network.judged_names[at] for at in numbers(pulled_in))
                )
    names = _changing(scene, cycle)
    return Unsettled("race" if outcomes else "chatter", names, len(cycle), outcomes)


def before_it_moves(states: Sequence[State], coil: int) -> State:
    """Return the first state of the cycle after which this coil changes."""
    for at, state in enumerate(states):
        if (state.held ^ states[(at + 1) % len(states)].held) >> coil & 1:
            return state
    raise ValueError("the coil does not change in this cycle")


def _changing(scene: Scene, cycle: Sequence[Snapshot]) -> tuple[str, ...]:
    """Return the coils that change, or, where none does, the inputs and loads that do."""
    moving = _moving([snapshot.state for snapshot in cycle])
    names = scene.network.judged_names
    return tuple(sorted(names[at] for at in numbers(moving & scene.network.coil_bits or moving)))


def _moving(states: Sequence[State]) -> int:
    moving = 0
    for state in states[1:]:
        moving |= state.held ^ states[0].held
    return moving
