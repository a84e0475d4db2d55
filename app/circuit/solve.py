"""Operating points: of one situation, or of many at once.

Networks that nothing couples are settled apart, and what several situations ask of one network alike is settled
once. All runs of a network go forward together, so that their linear questions are answered as arrays where numpy is
there and one by one where it is not; the answers are equal.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from importlib import import_module
from itertools import product

from app.circuit.answering import View, operating_point, view_of
from app.circuit.faults import IN_THE_LAYOUT, Injected, broken_layout, injected
from app.circuit.linear import Solution
from app.circuit.network import Circuit, Network, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.pure import solve_each
from app.circuit.scene import Scene, scene_of
from app.circuit.settle import Run, Settled, settle
from app.circuit.situation import Situation
from app.circuit.state import Question
from app.circuit.union import Union
from app.job.names import part_of

Solver = Callable[[Network, Sequence[Question]], list[Solution]]
Asked = tuple[Circuit, Situation, list[tuple[Network, list[Hashable]]]]
"""A situation, its circuit, and for each network the keys of what was asked of it (one for each phase tried)."""

MOST_PHASES_TRIED = 4
"""Of more sources than this with unknown phases, only these are tried both ways in every combination."""


def solve(circuit: Circuit, situation: Situation) -> OperatingPoint:
    """Return the operating point of a situation, from rest.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    return solve_all(circuit, [situation])[0]


def solve_all(circuit: Circuit, situations: Sequence[Situation]) -> list[OperatingPoint]:
    """Return the operating points of many situations, in their order.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    return solve_all_with(best_solver(), circuit, situations)


def best_solver() -> Solver:
    """Return the solver for batches: arrays, or the pure way where numpy cannot be imported."""
    try:
        arrays = import_module("app.circuit.batch.arrays")
    except ImportError:
        return solve_each
    solver: Solver = arrays.solve_together
    return solver


def solve_all_with(solver: Solver, circuit: Circuit, situations: Sequence[Situation]) -> list[OperatingPoint]:
    """Return the operating points of many situations, with a given way of solving linear networks."""
    batch = _Batch(solver)
    asked = [batch.ask(circuit, situation) for situation in situations]
    batch.settle()
    return [batch.answer(each) for each in asked]


def views_of(circuit: Circuit, situation: Situation) -> tuple[Circuit, list[View]]:
    """Return what each network of a situation settled to, and the circuit with the faults that change its layout."""
    batch = _Batch(solve_each)
    asked = batch.ask(circuit, situation)
    batch.settle()
    return asked[0], batch.views_of(asked)


class _Batch:
    """Collects what is asked of each network, settles it, and puts the answers together."""

    def __init__(self, solver: Solver) -> None:
        self.solver = solver
        self.broken: dict[Hashable, Circuit] = {}
        self.scenes: dict[int, tuple[Network, dict[Hashable, Scene]]] = {}
        self.settled: dict[tuple[int, Hashable], Settled] = {}
        self.views: dict[Hashable, View] = {}

    def ask(self, circuit: Circuit, situation: Situation) -> Asked:
        """Note what a situation asks of each network."""
        faults = injected(circuit.layout, circuit.catalogue, situation.faults)
        circuit = self._broken(circuit, situation)
        parts = []
        for network in _networks(circuit, faults):
            keys: list[Hashable] = []
            for phases in _phases(network, circuit, situation, faults):
                scene = scene_of(network, circuit.layout, situation, faults, phases)
                key = (scene.cast, scene.figures, scene.supply, scene.opened, scene.joins)
                self.scenes.setdefault(id(network), (network, {}))[1].setdefault(key, scene)
                keys.append(key)
            parts.append((network, keys))
        return circuit, situation, parts

    def settle(self) -> None:
        """Settle everything that was asked."""
        for network, scenes in self.scenes.values():
            for key, settled in zip(scenes, _settle_together(network, list(scenes.values()), self.solver), strict=True):
                self.settled[id(network), key] = settled

    def answer(self, asked: Asked) -> OperatingPoint:
        """Return the operating point of a situation, once its networks have settled."""
        return operating_point(asked[0], asked[1], self.views_of(asked))

    def views_of(self, asked: Asked) -> list[View]:
        """Return what each network of a situation settled to."""
        circuit, _, parts = asked
        views = []
        offset = 1
        for network, keys in parts:
            key = (id(network), tuple(keys), offset)
            view = self.views.get(key)
            if view is None:
                variants = [self.settled[id(network), each] for each in keys]
                view = self.views[key] = view_of(circuit, network, variants, offset)
            views.append(view)
            offset += network.size
        return views

    def _broken(self, circuit: Circuit, situation: Situation) -> Circuit:
        """Return the circuit with the faults that change its layout; made once for each set of them."""
        faults = [fault for fault in situation.faults if fault.is_ in IN_THE_LAYOUT]
        if not faults:
            return circuit
        key = tuple((fault.is_, fault.at, fault.ohms) for fault in faults)
        found = self.broken.get(key)
        if found is None:
            layout = broken_layout(circuit.layout, faults)
            found = self.broken[key] = build_circuit(layout, circuit.catalogue, circuit.frequency_hz)
        return found


def _networks(circuit: Circuit, faults: Injected) -> list[Network]:
    """Return the networks of a situation; those that a fault joins are one."""
    pairs = [
        (circuit.network_of[part_of(one)], None if other == "earth" else circuit.network_of[part_of(other)])
        for one, other, _ in faults.joins
    ]
    if all(other is None or one == other for one, other in pairs) and sum(o is None for _, o in pairs) < 2:
        return list(circuit.networks)
    union = Union(len(circuit.networks) + 1)
    for one, other in pairs:
        union.join(one, len(circuit.networks) if other is None else other)
    sets: dict[int, list[int]] = {}
    for number in range(len(circuit.networks)):
        sets.setdefault(union.find(number), []).append(number)
    return [circuit.network_joining(frozenset(numbers)) for numbers in sets.values()]


def _phases(network: Network, circuit: Circuit, situation: Situation, faults: Injected) -> list[dict[str, int]]:
    """Return the phases to try for sources of which the phase is not known: only where two sources could meet."""
    if network.source_count < 2 or not network.may_have_unknown_phase:
        return [{}]
    figures = scene_of(network, circuit.layout, situation, faults, {}).figures
    unknown = [network.branches[source.slot].name for source in figures.sources if not source.phase_known]
    tried = unknown[:MOST_PHASES_TRIED]
    return [dict(zip(tried, phases, strict=True)) for phases in product((0, 180), repeat=len(tried))]


def _settle_together(network: Network, scenes: Sequence[Scene], solver: Solver) -> list[Settled]:
    """Settle many scenes of one network; each round answers the questions of all that are still under way."""
    runs: list[Run] = [settle(scene) for scene in scenes]
    ended: list[Settled | None] = [None] * len(runs)
    waiting: dict[int, Question] = {}
    for at, run in enumerate(runs):
        try:
            waiting[at] = next(run)
        except StopIteration as end:
            ended[at] = end.value
    while waiting:
        new = list(dict.fromkeys(question for question in waiting.values() if question not in network.known))
        network.known.update(zip(new, solver(network, new), strict=True))
        for at, question in list(waiting.items()):
            try:
                waiting[at] = runs[at].send(network.known[question])
            except StopIteration as end:
                ended[at] = end.value
                del waiting[at]
    return [settled for settled in ended if settled is not None]
