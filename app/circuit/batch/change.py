"""Faults as changes of one compiled network: parts asked otherwise, ohms of conductors, branches that are added.

A conductor that lands elsewhere (swapped) is one that is cut, and a new branch with its ohms where it lands then; so
that the network needs no compiling anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf, isinf

from app.circuit.asking import networks_joined
from app.circuit.broken_layout import broken_layout, changes_layout
from app.circuit.fault_points import FaultSet
from app.circuit.faults import injected
from app.circuit.impedance import IDEAL_SIEMENS, wire_ohms
from app.circuit.network import Circuit, Network
from app.circuit.parts_asked import Wanted, faulty_of
from app.circuit.scene import AddedJoin, Extra
from app.job.model import Conductor, Layout
from app.job.names import part_of


@dataclass(frozen=True, slots=True, eq=False)
class Change:
    """What faults change in one network. ``wanted`` is by part; ``lands_elsewhere`` tells that a conductor does."""

    wanted: Mapping[str, Wanted]
    wires: Mapping[str, float]
    extras: tuple[Extra, ...]
    joins: tuple[AddedJoin, ...]
    lands_elsewhere: bool


NO_CHANGE = Change({}, {}, (), (), lands_elsewhere=False)


class AnotherNetworkError(Exception):
    """The faults make another network, which has to be compiled."""


def changes_of(circuit: Circuit, faults: FaultSet) -> dict[int, Change]:
    """Return what faults change in each network that they touch, by its number.

    Raises:
        AnotherNetworkError: the faults join networks, or conductors without length are cut or land elsewhere.
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    found = injected(circuit.layout, circuit.catalogue, faults)
    if networks_joined(circuit, found):
        raise AnotherNetworkError
    wanted = faulty_of(found)
    wires = dict(found.wires)
    extras: list[tuple[int, Extra]] = []
    joins: list[tuple[int, AddedJoin]] = []
    for one, other, ohms in found.joins:
        number = circuit.network_of[part_of(one)]
        network = circuit.networks[number]
        joins.append((number, (network.number_of[one], network.number_of[other], ohms)))
        extras += ((number, each) for each in _branch(network, one, other, 1 / ohms if ohms else IDEAL_SIEMENS))
    moved = _moved(circuit.layout, faults)
    for name, after in moved.items():
        number, extra = _landed_elsewhere(circuit, name, after, wires.get(name))
        extras += ((number, each) for each in extra)
        wires[name] = inf
    numbers = {circuit.network_of[part] for part in wanted if part in circuit.network_of}
    numbers |= {number for number, _ in joins}
    wire_in = {name: _network_of(circuit, name) for name in wires}
    return {
        number: Change(
            {part: each for part, each in wanted.items() if circuit.network_of[part] == number},
            {name: ohms for name, ohms in wires.items() if wire_in[name] == number},
            tuple(sorted(extra for at, extra in extras if at == number)),
            tuple(join for at, join in joins if at == number),
            lands_elsewhere=any(wire_in[name] == number for name in moved),
        )
        for number in sorted(numbers | {number for number in wire_in.values() if number is not None})
    }


def _moved(layout: Layout, faults: FaultSet) -> dict[str, Conductor]:
    """Return the conductors with both ends landed that faults land elsewhere, or cut for want of a length."""
    if not any(changes_layout(layout, fault) for fault in faults):
        return {}
    moved = {}
    for name, after in broken_layout(layout, faults).conductors.items():
        before = layout.conductors[name]
        if after is before or after == before:
            continue
        if len(before.landed()) < 2:
            # One end that hangs carries nothing wherever it lands, unless nobody knows where the other one is.
            if any(not (end is None or isinstance(end, str)) for end in before.ends):
                raise AnotherNetworkError
            continue
        moved[name] = after
    return moved


def _landed_elsewhere(
    circuit: Circuit, name: str, after: Conductor, ohms: float | None
) -> tuple[int, tuple[Extra, ...]]:
    """Return the network of a conductor, and the branch that it is where it lands now."""
    number = _network_of(circuit, name)
    length_and_size = after.length_and_size(circuit.layout.cables)
    landed = after.landed()
    if number is None or length_and_size is None or len(landed) < 2:
        raise AnotherNetworkError
    network = circuit.networks[number]
    if name not in network.branch_of or any(end not in network.number_of for end in landed):
        raise AnotherNetworkError
    ohms = wire_ohms(*length_and_size) if ohms is None else ohms
    return number, () if isinf(ohms) else _branch(network, landed[0], landed[1], 1 / ohms)


def _branch(network: Network, one: str, other: str, siemens: float) -> tuple[Extra, ...]:
    a, b = (network.node_of[network.number_of[name]] for name in (one, other))
    return () if a == b else ((min(a, b), max(a, b), siemens),)


def _network_of(circuit: Circuit, conductor: str) -> int | None:
    landed = circuit.layout.conductors[conductor].landed()
    return circuit.network_of[part_of(landed[0])] if landed else None
