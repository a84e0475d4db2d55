"""What each conductor is for, kept with the network in which it lies: a change in one leaves the others as they were.

A role follows from the network of its conductor alone, but for one thing: heat is called auxiliary where a heat pump
serves the same air, wherever that is wired. So each network is judged as a layout of its own, and is found again by
the situations that were looked at and by which of its parts serve such air.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.catalogue.catalogue import Catalogue
from app.circuit.kept_networks import kept_with
from app.circuit.lazy import Lazy
from app.circuit.network import Circuit, Network, build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve_all
from app.explain.roles import Role, air_with_heat_pump, role_without_landing, roles_of
from app.job.model import Layout


def kept_roles(circuit: Circuit, situations: Sequence[Situation]) -> Mapping[str, Role]:
    """Return what ``roles_of`` gives for the operating points of some situations, each when it is first asked for.

    Args:
        circuit: the layout, compiled.
        situations: idle and calls of one control each, without faults.
    """
    pumped = air_with_heat_pump(circuit.layout, circuit.catalogue)
    by_network: dict[int, list[Situation]] = {}
    idle: list[Situation] = []
    for situation in situations:
        if not situation.calls:
            idle.append(situation)
        for network in {circuit.network_of[part] for part in situation.calls if part in circuit.network_of}:
            by_network.setdefault(network, []).append(situation)
    network_of = {name: network for network in circuit.networks for name in network.conductors}
    within: dict[int, Mapping[str, Role]] = {}

    def role(name: str) -> Role:
        network = network_of.get(name)
        if network is None:
            return role_without_landing(circuit.layout.conductors[name])
        if network.number not in within:
            asked = [*idle, *by_network.get(network.number, ())]
            within[network.number] = _roles_within(circuit, network, asked, pumped)
        return within[network.number][name]

    return Lazy(circuit.layout.conductors, role)


def _roles_within(
    circuit: Circuit, network: Network, situations: Sequence[Situation], pumped: frozenset[str]
) -> Mapping[str, Role]:
    asked = tuple(situation.model_dump_json() for situation in situations)
    beside = frozenset(part for part in network.parts if circuit.layout.parts[part].air in pumped)

    def alone() -> Mapping[str, Role]:
        return _roles_alone(layout_within(circuit.layout, network), circuit.catalogue, situations, pumped)

    return kept_with([network], ("roles", asked, beside), alone)


def _roles_alone(
    layout: Layout, catalogue: Catalogue, situations: Sequence[Situation], pumped: frozenset[str]
) -> Mapping[str, Role]:
    circuit = build_circuit(layout, catalogue)
    return roles_of(layout, catalogue, circuit, solve_all(circuit, situations), pumped)


def layout_within(layout: Layout, network: Network) -> Layout:
    """Return the parts and conductors of one network of a layout, as a layout."""
    return layout.model_copy(
        update={
            "parts": {part: layout.parts[part] for part in network.parts},
            "conductors": {name: layout.conductors[name] for name in network.conductors},
        }
    )
