"""Our operating points held against ngspice: the volts of every node, and with its volts the state of every element."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from app.catalogue.catalogue import Catalogue, figure, settings_of
from app.catalogue.kind import Choice
from app.circuit.netlist import netlist
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import solve_all
from app.job.model import Layout
from tests.circuit.independent_faults import broken
from tests.circuit.independent_settle import Naive
from tests.circuit.spice import element_nodes, mapped, run_decks

LIMIT = 1e-6
DECKS_A_RUN = 300
LEAST_VOLTS = 0.1
"""Below so many volts a difference counts as if there were so many: the arithmetic of both leaves nanovolts."""


@dataclass(frozen=True)
class Agreement:
    """The largest relative difference of a node, the decks, and the nodes with volts that were compared."""

    worst: float = 0.0
    decks: int = 0
    nodes: int = 0

    def told(self, what: str) -> str:
        """Return the figure in a line."""
        return (
            f"{what}: largest relative difference from ngspice {self.worst:.1e}, {self.decks} decks, {self.nodes} nodes"
        )


Case = tuple[Circuit, OperatingPoint]


def settled_points(layout: Layout, catalogue: Catalogue, situations: Sequence[Situation]) -> list[Case]:
    """Return the settled operating points of a layout, each with the circuit; equal decks are left to the caller."""
    circuit = build_circuit(layout, catalogue)
    return [(circuit, point) for point in solve_all(circuit, situations) if point.settled]


def agreement(folder: Path, cases: Iterable[Case]) -> Agreement:
    """Return how well the cases agree, each deck once; assert that ours are states that the volts of ngspice allow."""
    by_deck: dict[str, Case] = {}
    for circuit, point in cases:
        deck = netlist(circuit, point.situation)
        if mapped(deck):
            by_deck.setdefault(deck, (circuit, point))
        else:
            # Nothing is live, and ngspice takes no empty deck.
            assert all(state.volts is None for state in point.terminals.values())
            _contacts_follow(circuit, point)
    worst, nodes = 0.0, 0
    waiting = iter(by_deck.items())
    at = 0
    while batch := list(islice(waiting, DECKS_A_RUN)):
        inner = folder / f"run-{at}"
        inner.mkdir()
        at += 1
        for (deck, (circuit, point)), volts in zip(batch, run_decks(inner, [deck for deck, _ in batch]), strict=True):
            states_hold(circuit, point, deck, volts)
            differences = list(_differences(point, deck, volts))
            worst = max([worst, *differences])
            nodes += len(differences)
    return Agreement(worst, len(by_deck), nodes)


def _differences(point: OperatingPoint, deck: str, volts: dict[str, complex]) -> Iterable[float]:
    nodes = mapped(deck)
    for name, state in point.terminals.items():
        # A deck takes one phase where nobody knows it; the operating point then says that it is unknown.
        if not (state.unknown and "phase" in state.why):
            assert (state.volts is not None) == (name in nodes), name
        if state.volts is not None:
            theirs = volts[nodes[name]]
            yield abs(state.volts - theirs) / max(abs(theirs), LEAST_VOLTS)


def states_hold(circuit: Circuit, point: OperatingPoint, deck: str, volts: dict[str, complex]) -> None:
    """With the volts of ngspice every coil, input, load and fuse is in a state that it may be in; contacts follow."""
    dead = {str(fault.at).partition(":")[2] for fault in point.situation.faults if fault.is_.startswith("coil-")}
    for name, (a, b) in element_nodes(deck).items():
        element = circuit.elements.get(name)
        if element is None or name in dead or point.elements[name].state == "unknown":
            continue
        values = _values(circuit, point, name.partition(".")[0])
        across = abs(volts[a] - volts[b])
        state = point.elements[name].state
        if element.is_ == "coil":
            rated = figure(element.volts, values)
            lets_go, pulls = (figure(share, values) * rated for share in (element.drop_out, element.pull_in))
            assert across >= lets_go - 1e-6 if state == "pulled-in" else across < pulls + 1e-6, name
        elif element.is_ == "input":
            threshold = figure(element.threshold_volts, values)
            assert across >= 0.8 * threshold - 1e-6 if state == "on" else across < threshold + 1e-6, name
        elif element.is_ == "load" and element.powers_above is not None:
            above = figure(element.powers_above, values)
            assert across >= above - 1e-6 if state == "on" else across < above + 1e-6, name
        elif element.is_ == "fuse":
            assert state == "whole"
            assert across / 0.03 <= 1.35 * figure(element.amps, values) + 1e-6, name
    _contacts_follow(circuit, point)


def _values(circuit: Circuit, point: OperatingPoint, part: str) -> dict[str, Choice]:
    kind = circuit.catalogue.kind(circuit.layout.parts[part].kind)
    values = dict(settings_of(kind, circuit.layout.parts[part]))
    for name, value in point.situation.set.items():
        if name.partition(".")[0] == part:
            values[name.partition(".")[2]] = value
    set_otherwise = broken(circuit.layout, circuit.catalogue, point.situation.faults).otherwise
    values |= {name.partition(".")[2]: value for name, value in set_otherwise.items() if name.startswith(f"{part}.")}
    return values


def _contacts_follow(circuit: Circuit, point: OperatingPoint) -> None:
    """Every contact and jumper stands where the coils, inputs, switches and calls put it."""
    try:
        naive = Naive(circuit.layout, circuit.catalogue, point.situation)
    except ValueError:
        # What touches something unknown is unknown; its contacts may be, too.
        return
    if any(state.state == "unknown" for state in point.elements.values()):
        return
    on = {name: state.state in ("pulled-in", "on", "whole") for name, state in point.elements.items()}
    closed, _ = naive.work_out(on)
    ours = {name: state.state == "closed" for name, state in point.elements.items() if name in closed}
    assert ours == closed
