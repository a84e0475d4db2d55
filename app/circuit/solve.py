"""Operating points: of one situation, or of many at once.

Networks that nothing couples are settled apart, and what several situations ask of one network alike is settled
once. All runs of a network go forward together, so that their linear questions are answered as arrays where numpy is
there and one by one where it is not; the answers are equal.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import import_module
from itertools import product

from app.circuit.answering import operating_point
from app.circuit.broken_layout import broken_layout, changes_layout
from app.circuit.ends import end_of
from app.circuit.faults import NOTHING, Injected, injected
from app.circuit.linear import Solution
from app.circuit.network import EARTH, Circuit, Network, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.pure import solve_each
from app.circuit.scene import Scene, scene_of
from app.circuit.settle import Run, Settled, settle
from app.circuit.situation import Situation
from app.circuit.state import Question
from app.circuit.union import Union
from app.circuit.view import RestViews, View, Views, view_of
from app.job.names import part_of

Solver = Callable[[Network, Sequence[Question]], list[Solution]]
FEWEST_FOR_ARRAYS = 32
"""Below so many questions the pure way is the faster one."""
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
    return solve_all_with(solve_best, circuit, situations)


def solve_best(network: Network, questions: Sequence[Question]) -> list[Solution]:
    """Answer many linear questions as arrays where numpy is to be had, few of them or without it in pure Python."""
    solver = best_solver() if len(questions) >= FEWEST_FOR_ARRAYS else solve_each
    return solver(network, questions)


@lru_cache(maxsize=1)
def best_solver() -> Solver:
    """Return the way for large batches: arrays, imported at the first need, or the pure way where numpy is not."""
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


@dataclass(frozen=True, eq=False)
class Sorted:
    """Situations sorted by what they settle to: ``outcome`` gives a number for each, equal for equal outcomes."""

    outcome: list[int]
    batch: _Batch
    asked: list[_Asked]

    def point(self, place: int) -> OperatingPoint:
        """Return the operating point of the situation at a place of the list."""
        return self.batch.answer(self.asked[place])


def sort_situations(
    circuit: Circuit, situations: Sequence[Situation], within: Sequence[Sequence[int]] | None = None
) -> Sorted:
    """Settle many situations and sort them by what they come to; see ``app.circuit.outcomes``.

    Args:
        within: for each situation the numbers of the networks that tell outcomes apart; None for all of them.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    batch = _Batch(solve_best)
    asked = [batch.ask(circuit, situation) for situation in situations]
    batch.settle()
    number: dict[Hashable, int] = {}
    if within is None:
        ends = [each.ends() for each in asked]
    else:
        ends = [each.ends_within(numbers) for each, numbers in zip(asked, within, strict=True)]
    return Sorted([number.setdefault(end, len(number)) for end in ends], batch, asked)


def views_of(circuit: Circuit, situation: Situation) -> tuple[Circuit, list[View]]:
    """Return what each network of a situation settled to, and the circuit with the faults that change its layout."""
    batch = _Batch(solve_each)
    asked = batch.ask(circuit, situation)
    batch.settle()
    return asked.circuit, asked.views().each()


@dataclass(eq=False)
class _Slot:
    """What one network is asked: a scene for each phase that is tried; after settling, what came of it."""

    circuit: Circuit
    network: Network
    scenes: list[Scene]
    offset: int
    settled: list[Settled] = field(default_factory=list)
    found: View | None = None
    came_to: Hashable = None

    def view(self) -> View:
        """Return what came of it; to be asked once all has settled."""
        if self.found is None:
            self.found = view_of(self.circuit, self.network, self.settled, self.offset)
        return self.found

    def end(self) -> Hashable:
        """Return what tells two ends of a network apart, whatever the supply and the calls that led there."""
        if self.came_to is None:
            self.came_to = tuple(end_of(settled) for settled in self.settled)
        return self.came_to


@dataclass(eq=False)
class _Rest:
    """The slots of all networks at rest, by number; after settling, what came of them."""

    slots: list[_Slot]
    found: RestViews | None = None

    def views(self) -> RestViews:
        """Return what came of them; to be asked once all has settled."""
        if self.found is None:
            self.found = RestViews(tuple(slot.view() for slot in self.slots))
        return self.found


@dataclass(frozen=True)
class _Asked:
    """A situation with its circuit, the networks at rest, and by number the slots of those that it touches."""

    circuit: Circuit
    situation: Situation
    rest: _Rest
    touched: dict[int, _Slot]

    def ends(self) -> Hashable:
        """Return what tells two outcomes apart."""
        touched = self.touched
        own = tuple(sorted(((number, slot.end()) for number, slot in touched.items()), key=lambda each: each[0]))
        rest = tuple((at, slot.end()) for at, slot in enumerate(self.rest.slots) if at not in touched)
        return id(self.circuit), own + rest

    def ends_within(self, numbers: Sequence[int]) -> Hashable:
        """Return what tells two outcomes of some of the networks apart."""
        touched, rest = self.touched, self.rest.slots
        return tuple((number, (touched.get(number) or rest[number]).end()) for number in numbers)

    def views(self) -> Views:
        """Return what came of it; to be asked once all has settled."""
        return Views(self.rest.views(), {number: slot.view() for number, slot in self.touched.items()})


class _Batch:
    """Collects what is asked of each network, settles it, and puts the answers together."""

    def __init__(self, solver: Solver) -> None:
        self.solver = solver
        self.broken: dict[Hashable, Circuit] = {}
        self.slots: dict[Hashable, _Slot] = {}
        self.at_rest: dict[Hashable, _Rest] = {}

    def ask(self, circuit: Circuit, situation: Situation) -> _Asked:
        """Note what a situation asks of each network; networks that it does not touch stay as they are at rest."""
        faults = injected(circuit.layout, circuit.catalogue, situation.faults)
        circuit = self._broken(circuit, situation)
        slots: dict[int, _Slot] = {}
        touched = {part_of(name) for name in situation.set} | situation.calls.keys() | faults.parts
        touched |= {part_of(end) for name in faults.wires for end in circuit.layout.conductors[name].landed()}
        numbers = {circuit.network_of[part] for part in touched if part in circuit.network_of}
        for network in networks_joined(circuit, faults):
            slot = self._slot(circuit, network, situation, faults)
            for part in network.parts:
                slots[circuit.network_of[part]] = slot
            numbers -= {circuit.network_of[part] for part in network.parts}
        for number in numbers:
            slots[number] = self._slot(circuit, circuit.networks[number], situation, faults)
        return _Asked(circuit, situation, self._at_rest(circuit, situation), slots)

    def settle(self) -> None:
        """Settle everything that was asked."""
        by_network: dict[int, list[_Slot]] = {}
        for slot in self.slots.values():
            by_network.setdefault(id(slot.network), []).append(slot)
        for slots in by_network.values():
            scenes = [scene for slot in slots for scene in slot.scenes]
            settled = iter(_settle_together(slots[0].network, scenes, self.solver))
            for slot in slots:
                slot.settled = [next(settled) for _ in slot.scenes]

    def answer(self, asked: _Asked) -> OperatingPoint:
        """Return the operating point of a situation, once its networks have settled."""
        return operating_point(asked.circuit, asked.situation, asked.views())

    def _broken(self, circuit: Circuit, situation: Situation) -> Circuit:
        """Return the circuit with the faults that change its layout; made once for each set of them."""
        faults = [fault for fault in situation.faults if changes_layout(circuit.layout, fault)]
        if not faults:
            return circuit
        key = (id(circuit), *((fault.is_, fault.at, fault.ohms) for fault in faults))
        found = self.broken.get(key)
        if found is None:
            layout = broken_layout(circuit.layout, faults)
            found = self.broken[key] = build_circuit(layout, circuit.catalogue, circuit.frequency_hz)
        return found

    def _at_rest(self, circuit: Circuit, situation: Situation) -> _Rest:
        """Return the slots of all networks without calls, settings and faults, at the supply of a situation."""
        mains = tuple(sorted(situation.mains.items()))
        key = (id(circuit), situation.supply_percent, situation.outdoor_c, mains)
        found = self.at_rest.get(key)
        if found is None:
            rest = situation.model_copy(update={"calls": {}, "set": {}, "faults": ()})
            found = _Rest([self._slot(circuit, network, rest, NOTHING) for network in circuit.networks])
            self.at_rest[key] = found
        return found

    def _slot(self, circuit: Circuit, network: Network, situation: Situation, faults: Injected) -> _Slot:
        scenes = [
            scene_of(network, circuit.layout, situation, faults, phases)
            for phases in _phases(network, circuit, situation, faults)
        ]
        key = (id(network), *((s.cast, s.figures, s.supply, s.opened, s.joins) for s in scenes))
        found = self.slots.get(key)
        if found is None:
            found = self.slots[key] = _Slot(circuit, network, scenes, circuit.offset_of(network))
        return found


def networks_joined(circuit: Circuit, faults: Injected) -> list[Network]:
    """Return the networks that faults make one, each such set as a network of its own."""
    pairs = [
        (circuit.network_of[part_of(one)], -1 if other == EARTH else circuit.network_of[part_of(other)])
        for one, other, _ in faults.joins
    ]
    if all(other in (one, -1) for one, other in pairs) and sum(other < 0 for _, other in pairs) < 2:
        return []
    # Several grounds are joined by earth, which stands behind the last network here.
    union = Union(len(circuit.networks) + 1)
    for one, other in pairs:
        union.join(one, len(circuit.networks) if other < 0 else other)
    sets: dict[int, list[int]] = {}
    for number in range(len(circuit.networks)):
        sets.setdefault(union.find(number), []).append(number)
    return [circuit.network_joining(frozenset(numbers)) for numbers in sets.values() if len(numbers) > 1]


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
