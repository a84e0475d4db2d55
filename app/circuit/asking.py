"""What situations ask of each network, each such question once, and their answers put together.

Networks that nothing couples are settled apart, and what several situations ask of one network alike is settled once.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import product
from typing import cast

from app.circuit.answering import operating_point
from app.circuit.broken_layout import broken_layout, changes_layout
from app.circuit.faults import NOTHING, Injected, injected
from app.circuit.kept_scenes import kept_scenes
from app.circuit.network import EARTH, Circuit, Network, build_circuit, unseen_may_reach_earth
from app.circuit.operating_point import OperatingPoint
from app.circuit.scene import Scene, scene_of
from app.circuit.settle import Settled
from app.circuit.settling import Ends, Solver
from app.circuit.situation import Situation
from app.circuit.union import Union
from app.circuit.view import RestViews, View, Views, view_of
from app.job.names import part_of

MOST_ENDS_KEPT = 500
"""Ends of larger batches, as those of many faults, are not kept with the network."""
MOST_PHASES_TRIED = 4
"""Of more sources than this with unknown phases, only these are tried both ways in every combination."""


@dataclass(eq=False)
class Slot:
    """What one network is asked: a scene for each phase that is tried; after settling, what came of it."""

    circuit: Circuit
    network: Network
    scenes: list[Scene]
    offset: int
    key: Hashable
    ends: Ends | None = None
    first: int = 0
    found: View | None = None
    came_to: Hashable = None

    def settled(self) -> list[Settled]:
        """Return what came of each scene; to be asked once all has settled."""
        return [self._ends().settled(self.first + at) for at in range(len(self.scenes))]

    def _ends(self) -> Ends:
        if self.ends is None:
            raise ValueError("this is asked before it has settled")
        return self.ends

    def settles(self) -> bool:
        """Return whether every scene has one end; to be asked once all has settled."""
        return all(self._ends().settles(self.first + at) for at in range(len(self.scenes)))

    def settle(self, ends: Ends, first: int) -> None:
        """Note where its scenes are among what has settled, for others who ask this network the same."""
        self.ends, self.first = ends, first
        if len(ends.scenes) <= MOST_ENDS_KEPT:
            self.network.made["ends", self.key] = ends, first

    def recall(self) -> bool:
        """Take what came of the same scenes before; return whether they had settled."""
        kept = self.network.made.get(("ends", self.key))
        if kept is None:
            return False
        self.ends, self.first = cast("tuple[Ends, int]", kept)
        return True

    def worlds(self) -> set[Hashable]:
        """Return the ways in which its branches may stand on the way to the end, where something was not seen."""
        ends = zip(self.scenes, self.settled(), strict=True)
        return {(scene.figures, world) for scene, end in ends for world in end.worlds}

    def view(self) -> View:
        """Return what came of it; to be asked once all has settled."""
        if self.found is None:
            self.found = view_of(self.circuit, self.network, self.settled(), self.offset)
        return self.found

    def end(self) -> Hashable:
        """Return what tells two ends of a network apart, whatever the supply and the calls that led there."""
        if self.came_to is None:
            self.came_to = tuple(self._ends().key(self.first + at) for at in range(len(self.scenes)))
        return self.came_to


@dataclass(eq=False)
class Rest:
    """The slots of all networks at rest, by number; after settling, what came of them."""

    slots: list[Slot]
    found: RestViews | None = None

    def views(self) -> RestViews:
        """Return what came of them; to be asked once all has settled."""
        if self.found is None:
            self.found = RestViews(tuple(slot.view() for slot in self.slots))
        return self.found


@dataclass(frozen=True)
class Asked:
    """A situation with its circuit, the networks at rest, and by number the slots of those that it touches."""

    circuit: Circuit
    situation: Situation
    rest: Rest
    touched: dict[int, Slot]

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

    def settles_within(self, numbers: Sequence[int]) -> bool:
        """Return whether some of the networks have one end each."""
        touched, rest = self.touched, self.rest.slots
        return all((touched.get(number) or rest[number]).settles() for number in numbers)

    def worlds_within(self, numbers: Sequence[int]) -> set[Hashable]:
        """Return the ways in which the branches of some of the networks may stand, where something was not seen."""
        touched, rest = self.touched, self.rest.slots
        return set().union(*((touched.get(number) or rest[number]).worlds() for number in numbers))

    def views(self) -> Views:
        """Return what came of it; to be asked once all has settled."""
        return Views(self.rest.views(), {number: slot.view() for number, slot in self.touched.items()})


class Batch:
    """Collects what is asked of each network, settles it, and puts the answers together."""

    def __init__(self, solver: Solver) -> None:
        self.solver = solver
        self.broken: dict[Hashable, Circuit] = {}
        self.slots: dict[Hashable, Slot] = {}
        self.at_rest: dict[Hashable, Rest] = {}

    def ask(self, circuit: Circuit, situation: Situation) -> Asked:
        """Note what a situation asks of each network; networks that it does not touch stay as they are at rest."""
        faults = NOTHING
        if situation.faults:
            faults = injected(circuit.layout, circuit.catalogue, situation.faults)
            circuit = self._broken(circuit, situation)
        slots: dict[int, Slot] = {}
        touched = {part_of(name) for name in situation.set} | situation.calls.keys()
        if faults is not NOTHING:
            touched |= faults.parts
            touched |= {part_of(end) for name in faults.wires for end in circuit.layout.conductors[name].landed()}
        numbers = {circuit.network_of[part] for part in touched if part in circuit.network_of}
        for network in networks_joined(circuit, faults):
            slot = self._slot(circuit, network, situation, faults)
            for part in network.parts:
                slots[circuit.network_of[part]] = slot
            numbers -= {circuit.network_of[part] for part in network.parts}
        for number in numbers:
            slots[number] = self._slot(circuit, circuit.networks[number], situation, faults)
        return Asked(circuit, situation, self._at_rest(circuit, situation), slots)

    def settle(self) -> None:
        """Settle everything that was asked."""
        by_network: dict[int, list[Slot]] = {}
        for slot in self.slots.values():
            if not slot.recall():
                by_network.setdefault(id(slot.network), []).append(slot)
        for slots in by_network.values():
            ends = Ends(slots[0].network, [scene for slot in slots for scene in slot.scenes], self.solver)
            first = 0
            for slot in slots:
                slot.settle(ends, first)
                first += len(slot.scenes)

    def answer(self, asked: Asked) -> OperatingPoint:
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

    def _at_rest(self, circuit: Circuit, situation: Situation) -> Rest:
        """Return the slots of all networks without calls, settings and faults, at the supply of a situation."""
        mains = tuple(sorted(situation.mains.items()))
        key = (id(circuit), situation.supply_percent, situation.outdoor_c, mains)
        found = self.at_rest.get(key)
        if found is None:
            rest = situation.model_copy(update={"calls": {}, "set": {}, "faults": ()})
            found = Rest([self._slot(circuit, network, rest, NOTHING) for network in circuit.networks])
            self.at_rest[key] = found
        return found

    def _slot(self, circuit: Circuit, network: Network, situation: Situation, faults: Injected) -> Slot:
        make = partial(_scenes, network, circuit, situation, faults)
        scenes = kept_scenes(network, situation, make) if faults is NOTHING else make()
        asked = tuple((s.cast, s.figures, s.supply, s.opened, s.joins) for s in scenes)
        # Two circuits may share a kept network, but each numbers its components in its own way.
        key = (id(circuit), id(network), asked)
        found = self.slots.get(key)
        if found is None:
            found = self.slots[key] = Slot(circuit, network, scenes, circuit.offset_of(network), asked)
        return found


def networks_joined(circuit: Circuit, faults: Injected) -> list[Network]:
    """Return the networks that faults make one, each such set as a network of its own."""
    pairs = [
        (circuit.network_of[part_of(one)], -1 if other == EARTH else circuit.network_of[part_of(other)])
        for one, other, _ in faults.joins
    ]
    pairs += [(number, -1) for number in _grounded_beside(circuit, {one for one, other in pairs if other < 0})]
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


def _grounded_beside(circuit: Circuit, by_fault: set[int]) -> list[int]:
    """Return the grounded networks that a fault to ground joins with its own: those of any system, where something
    unseen could be the way back (see ``network.build_circuit``); of a network that only the fault grounds, anything."""
    if not by_fault:
        return []
    grounded = [network.number for network in circuit.networks if network.ground is not None]
    seeks = any(unseen_may_reach_earth(circuit.networks[number]) for number in grounded)
    return grounded if seeks or any(circuit.networks[number].touched for number in by_fault) else []


def _scenes(network: Network, circuit: Circuit, situation: Situation, faults: Injected) -> list[Scene]:
    return [
        scene_of(network, circuit.layout, situation, faults, phases)
        for phases in _phases(network, circuit, situation, faults)
    ]


def _phases(network: Network, circuit: Circuit, situation: Situation, faults: Injected) -> list[dict[str, int]]:
    """Return the phases to try for sources of which the phase is not known: only where two sources could meet."""
    if network.source_count < 2 or not network.may_have_unknown_phase:
        return [{}]
    figures = scene_of(network, circuit.layout, situation, faults, {}).figures
    unknown = [network.branches[source.slot].name for source in figures.sources if not source.phase_known]
    tried = unknown[:MOST_PHASES_TRIED]
    return [dict(zip(tried, phases, strict=True)) for phases in product((0, 180), repeat=len(tried))]
