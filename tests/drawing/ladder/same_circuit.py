"""Whether two circuits are one: by what is joined with what, and by what every element does in a situation."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from app.circuit.network import EARTH, Branch, Circuit, Join
from app.circuit.operating_point import ElementState, OperatingPoint

Node = tuple[str, int]


def _joined(circuit: Circuit) -> dict[str, tuple[Node, Node]]:
    """Return the two nodes of every element and conductor. Earth is one node of all networks."""
    found: dict[str, tuple[Node, Node]] = {}
    for network in circuit.networks:
        grounded = network.ground is not None
        node = [(EARTH, 0) if grounded and at == network.earth else (str(network.number), at) for at in network.node_of]
        pieces: list[Branch | Join] = [*network.branches, *network.joins]
        for each in pieces:
            found[each.name] = (node[each.points[0]], node[each.points[1]])
    return found


def joined_otherwise(one: Circuit, other: Circuit, names: Collection[str]) -> list[str]:
    """Return where the elements and conductors ``names`` do not hang together in both circuits alike."""
    first, second = _joined(one), _joined(other)
    there: dict[Node, Node] = {(EARTH, 0): (EARTH, 0)}
    back: dict[Node, Node] = dict(there)
    found = []
    for name in sorted(names & first.keys()):
        for mine, its in zip(first[name], second[name], strict=True):
            if there.setdefault(mine, its) != its or back.setdefault(its, mine) != mine:
                found.append(f"{name}: {mine} is {its}, not {there[mine]}")
    return found


def doing_otherwise(
    ours: Sequence[OperatingPoint], theirs: Sequence[OperatingPoint], names: Collection[str]
) -> list[str]:
    """Return what settles, runs, or carries otherwise in two circuits, situation by situation."""
    found = []
    for one, other in zip(ours, theirs, strict=True):
        if (one.settled, one.effects) != (other.settled, other.effects):
            found.append(f"{one.situation}: {one.effects} is {other.effects}")
        found += [
            f"{one.situation}: {name} {one.elements[name]} is {other.elements[name]}"
            for name in sorted(names & one.elements.keys())
            if not _alike(one.elements[name], other.elements[name])
        ]
    return found


def _alike(one: ElementState, other: ElementState) -> bool:
    # What is always joined shares its amps among ideal ways as it likes: only what has a state carries for certain.
    near = _near(one.volts, other.volts) and (not one.state or _near(one.amps, other.amps))
    return one.state == other.state and near


def _near(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= 1e-6 * (1 + abs(one))
