"""Our volts against ngspice on our own deck, for every demo and call and for circuits of our own."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.catalogue.catalogue import Catalogue, figure, settings_of
from app.circuit.netlist import netlist
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, asking, demo_layouts, faulty, sketch
from tests.circuit.spice import element_nodes, mapped, run_decks

DEMOS = demo_layouts()
LARGE = [name for name, (layout, _) in DEMOS.items() if len(layout.parts) >= 20]


def difference(point: OperatingPoint, deck: str, volts: dict[str, complex]) -> float:
    """Return the largest difference of a terminal, in volts or as a share of it, whichever is the smaller."""
    nodes = mapped(deck)
    worst = 0.0
    for name, state in point.terminals.items():
        assert (state.volts is not None) == (name in nodes), name
        if state.volts is not None:
            apart = abs(state.volts - volts[nodes[name]])
            worst = max(worst, min(apart, apart / max(abs(state.volts), 1e-300)))
    return worst


def worst_difference(folder: Path, circuit: Circuit, situations: list[Situation]) -> float:
    points = [point for point in solve_all(circuit, situations) if point.settled]
    decks = [netlist(circuit, point.situation) for point in points]
    found = run_decks(folder, decks)
    for point, deck, volts in zip(points, decks, found, strict=True):
        states_hold(circuit, point, deck, volts)
    return max(difference(*each) for each in zip(points, decks, found, strict=True))


def states_hold(circuit: Circuit, point: OperatingPoint, deck: str, volts: dict[str, complex]) -> None:
    """With the volts of ngspice, every coil, input and fuse is in a state that it may be in."""
    for name, (a, b) in element_nodes(deck).items():
        element = circuit.elements.get(name)
        if element is None:
            continue
        part = name.partition(".")[0]
        values = settings_of(circuit.catalogue.kind(circuit.layout.parts[part].kind), circuit.layout.parts[part])
        across = abs(volts[a] - volts[b])
        state = point.elements[name].state
        if element.is_ == "coil":
            rated = figure(element.volts, values)
            lets_go, pulls = (figure(share, values) * rated for share in (element.drop_out, element.pull_in))
            assert across >= lets_go - 1e-6 if state == "pulled-in" else across < pulls + 1e-6, name
        elif element.is_ == "input":
            threshold = figure(element.threshold_volts, values)
            assert across >= 0.8 * threshold - 1e-6 if state == "on" else across < threshold + 1e-6, name
        elif element.is_ == "fuse":
            assert state == "whole"
            assert across / 0.03 <= 1.35 * figure(element.amps, values) + 1e-6, name


@pytest.mark.parametrize("name", [name for name in DEMOS if name not in LARGE])
def test_demo_agrees_with_ngspice(name: str, tmp_path: Path) -> None:
    layout, catalogue = DEMOS[name]
    assert worst_difference(tmp_path, build_circuit(layout, catalogue), situations_of(layout, catalogue)) <= 1e-6


@pytest.mark.parametrize("name", LARGE)
def test_some_calls_of_large_demo_agree_with_ngspice(name: str, tmp_path: Path) -> None:
    layout, catalogue = DEMOS[name]
    assert worst_difference(tmp_path, build_circuit(layout, catalogue), situations_of(layout, catalogue)[::20]) <= 1e-6


@pytest.mark.slow
@pytest.mark.parametrize("name", LARGE)
def test_every_call_of_large_demo_agrees_with_ngspice(name: str, tmp_path: Path) -> None:
    layout, catalogue = DEMOS[name]
    assert worst_difference(tmp_path, build_circuit(layout, catalogue), situations_of(layout, catalogue)) <= 1e-6


def long_run() -> Layout:
    layout = sketch({"xf": "supply", "tc": "control", "ou": "contactor"}, "xf.R tc.R", "tc.Y ou.A", "ou.B xf.C")
    wires = {name: wire.model_copy(update={"length_m": 90.0}) for name, wire in layout.conductors.items()}
    return layout.model_copy(update={"conductors": wires})


LONG_RUNS = [
    asking(tc="cool-1"),
    faulty({"is": "conductor-open", "at": "conductor:w3"}, calls={"tc": ("cool-1",)}),
    faulty({"is": "joint-ohms", "at": "conductor:w2", "ohms": 4.0}, calls={"tc": ("cool-1",)}),
]
OWN: dict[str, tuple[Layout, Catalogue, list[Situation]]] = {
    "a long run of thin wire": (long_run(), CATALOGUE, LONG_RUNS),
    "two sources against each other": (
        sketch(
            {"xa": "supply", "xb": {"kind": "supply", "settings": {"phase_deg": 180, "va": 20}}, "la": "lamp"},
            *("xa.R xb.R", "xa.C xb.C", "la.A xa.R", "la.B xb.C"),
        ),
        CATALOGUE,
        [Situation(), Situation(supply_percent=88)],
    ),
    "a grounded common": (
        sketch(
            {"xf": "supply", "ch": "chassis", "la": "lamp", "k": "relay"},
            *("xf.C ch.G", "xf.R la.A", "la.B k.A", "k.B ch.G"),
        ),
        CATALOGUE,
        [Situation()],
    ),
    "leak through an open contact": (
        sketch({"xf": "supply", "fb": "board", "la": "lamp"}, "xf.R fb.R", "xf.C fb.C", "fb.OUT la.A", "la.B fb.C"),
        CATALOGUE,
        [Situation(), faulty({"is": "short", "at": ("terminal:fb.R", "terminal:fb.W"), "ohms": 20.0})],
    ),
    "shorts and grounds": (
        sketch(
            {"xf": "fused-supply", "fb": "board", "la": "lamp", "ch": "chassis"},
            *("xf.R fb.R", "xf.C fb.C", "fb.OUT la.A", "la.B fb.C", "fb.C ch.G"),
        ),
        CATALOGUE,
        [
            faulty({"is": "short", "at": ("terminal:fb.R", "terminal:fb.W"), "ohms": 0}),
            faulty({"is": "to-ground", "at": "terminal:fb.W", "ohms": 3.0}),
            faulty({"is": "short", "at": ("terminal:xf.R", "terminal:xf.C"), "ohms": 5.0}),
        ],
    ),
}


@pytest.mark.parametrize("name", OWN)
def test_own_circuit_agrees_with_ngspice(name: str, tmp_path: Path) -> None:
    layout, catalogue, situations = OWN[name]
    assert worst_difference(tmp_path, build_circuit(layout, catalogue), situations) <= 1e-6
