"""A circuit held still at an operating point: what conducts now, as branches that a meter can be put beside.

Rules of the file: positions come from the operating point, never from settling again, so that a meter can be held to
any moment of a sequence.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from app.catalogue.kind import Choice, Element
from app.circuit.broken_layout import broken_layout
from app.circuit.faults import Injected, injected
from app.circuit.figures import SourceFigures
from app.circuit.impedance import IDEAL_SIEMENS
from app.circuit.linear import Solution, eliminate
from app.circuit.logic import values_of
from app.circuit.network import EARTH, Circuit, Network, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.plan import plan_elimination
from app.circuit.scene import scene_of
from app.job.names import part_of

ON = frozenset({"closed", "pulled-in", "whole", "on"})


@dataclass(frozen=True, slots=True)
class Held:
    """One branch as it stands: between two nodes, with its siemens now; ``element`` is None for a conductor."""

    name: str
    a: int
    b: int
    siemens: complex
    is_on: bool
    element: Element | None


@dataclass(eq=False)
class Frozen:
    """Some networks of a circuit at an operating point. Points are ``part.NODE``, earth, or names of our own."""

    circuit: Circuit
    supply: float
    node_of: dict[str, int] = field(default_factory=dict)
    size: int = 0
    held: list[Held] = field(default_factory=list)
    sources: list[tuple[int, int, SourceFigures]] = field(default_factory=list)
    touched: dict[int, str] = field(default_factory=dict)

    def node(self, point: str) -> int:
        """Return the node of a point; one that is not there yet becomes a node of its own."""
        found = self.node_of.get(point)
        if found is None:
            found = self.node_of[point] = self.size
            self.size += 1
        return found

    def solved(
        self, branches: Sequence[tuple[int, int, complex]], amps: Sequence[tuple[int, int, complex]]
    ) -> Solution:
        """Return the volts of the nodes with these branches and these amps from one node to another."""
        pairs = tuple((a, b) for a, b, _ in branches)
        plan = plan_elimination(self.size, pairs)
        entries = [0j] * plan.size
        for (_, _, siemens), entry in zip(branches, plan.entries(pairs), strict=True):
            if entry >= 0:
                entries[entry] += siemens
        injected_amps = [0j] * self.size
        for a, b, flow in amps:
            injected_amps[a] -= flow
            injected_amps[b] += flow
        return eliminate(plan, entries, injected_amps)


def frozen_around(circuit: Circuit, point: OperatingPoint, terminals: Iterable[str], *, with_cables: bool) -> Frozen:
    """Return the networks of some terminals, and those that faults or, where asked, cables couple with them.

    ``circuit`` is the layout without the faults of the point's situation.
    """
    situation = point.situation
    faults = injected(circuit.layout, circuit.catalogue, situation.faults)
    layout = broken_layout(circuit.layout, situation.faults)
    if layout is not circuit.layout:
        circuit = build_circuit(layout, circuit.catalogue, circuit.frequency_hz)
    frozen = Frozen(circuit, situation.supply_percent / 100)
    for number in _networks_around(circuit, faults, {part_of(name) for name in terminals}, with_cables=with_cables):
        _add(frozen, circuit.networks[number], point, faults)
    for one, other, ohms in faults.joins:
        if one in frozen.node_of and (other in frozen.node_of or other == EARTH):
            siemens = 1 / ohms if ohms else IDEAL_SIEMENS
            frozen.held.append(Held("", frozen.node(one), frozen.node(other), complex(siemens), True, None))
    return frozen


def values_at(frozen: Frozen, name: str, point: OperatingPoint) -> Mapping[str, Choice]:
    """Return the settings and positions of the part of an element, as they are at an operating point."""
    part = part_of(name)
    found = frozen.circuit.layout.parts[part]
    kind = frozen.circuit.catalogue.kind_of(found)
    set_here = {key.partition(".")[2]: value for key, value in point.situation.set.items() if part_of(key) == part}
    return {} if kind is None else values_of(kind, found, set_here)


def _networks_around(circuit: Circuit, faults: Injected, parts: set[str], *, with_cables: bool) -> list[int]:
    pairs: list[set[int]] = [
        {circuit.network_of[part_of(name)] for name in (one, other) if name != EARTH} for one, other, _ in faults.joins
    ]
    if with_cables:
        by_cable: dict[str, set[int]] = {}
        for conductor in circuit.layout.conductors.values():
            if conductor.cable is not None:
                numbers = {circuit.network_of[part_of(end)] for end in conductor.landed()}
                by_cable.setdefault(conductor.cable, set()).update(numbers)
        pairs += by_cable.values()
    found = {circuit.network_of[part] for part in parts}
    while True:
        more = {number for pair in pairs if pair & found for number in pair} - found
        if not more:
            return sorted(found)
        found |= more


def _add(frozen: Frozen, network: Network, point: OperatingPoint, faults: Injected) -> None:
    """Add a network; what is grounded in it shares the one earth."""
    numbers: dict[int, int] = {}
    if EARTH in frozen.node_of:
        numbers[network.earth] = frozen.node_of[EARTH]
    for name, own in zip(network.points, network.node_of, strict=True):
        if own not in numbers:
            numbers[own] = frozen.size
            frozen.size += 1
        frozen.node_of[name] = numbers[own]
    figures = scene_of(network, frozen.circuit.layout, point.situation, faults, {}).figures
    for at, branch in enumerate(network.branches):
        a, b = (numbers[node] for node in branch.nodes)
        element = frozen.circuit.elements.get(branch.name) if branch.ohms is None else None
        is_on = element is None or point.elements[branch.name].state in ON
        frozen.held.append(Held(branch.name, a, b, (figures.on if is_on else figures.off)[at], is_on, element))
    for source in figures.sources:
        branch = network.branches[source.slot]
        if point.elements[branch.name].state in ON:
            a, b = (numbers[node] for node in branch.nodes)
            frozen.sources.append((a, b, source))
    for node, why in network.touched.items():
        frozen.touched.setdefault(numbers[node], why)
