"""Our volts against ngspice on our own deck: every demo in every situation, circuits of our own, networks by chance."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest

from app.catalogue.catalogue import Catalogue
from app.checks.outcome import groups_of
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, asking, demo_layouts, faulty, sketch
from tests.circuit.chance import FAULT_NAMES, fault_by_chance, layout_by_chance, situation_by_chance
from tests.circuit.spice_agreement import LIMIT, Agreement, Case, agreement, settled_points

DEMOS = demo_layouts()
LARGE = [name for name, (layout, _) in DEMOS.items() if len(layout.parts) >= 20]
Tell = Callable[[str], None]


def agrees(folder: Path, cases: list[Case]) -> Agreement:
    found = agreement(folder, cases)
    assert found.worst <= LIMIT
    return found


def test_the_calls_of_small_demos_agree_with_ngspice(tmp_path: Path, tell: Tell) -> None:
    cases = [
        case
        for name, (layout, catalogue) in DEMOS.items()
        if name not in LARGE
        for case in settled_points(layout, catalogue, situations_of(layout, catalogue))
    ]
    tell(agrees(tmp_path, cases).told("calls of the small demo jobs"))


@pytest.mark.parametrize("name", LARGE)
def test_some_calls_of_large_demo_agree_with_ngspice(name: str, tmp_path: Path) -> None:
    layout, catalogue = DEMOS[name]
    agrees(tmp_path, settled_points(layout, catalogue, situations_of(layout, catalogue)[::20]))


@pytest.mark.slow
@pytest.mark.parametrize("name", DEMOS)
def test_every_situation_of_demo_agrees_with_ngspice(name: str, tmp_path: Path, tell: Tell) -> None:
    layout, catalogue = DEMOS[name]
    groups = groups_of(build_circuit(layout, catalogue))
    situations = [deviation.situation() for group in groups for deviation in group.looked_at()]
    tell(agrees(tmp_path, settled_points(layout, catalogue, situations)).told(f"every situation of {name}"))


def networks_by_chance(seed: str, count: int) -> list[Case]:
    """Return settled networks of any kinds with coils, contacts, sources and up to three faults."""
    chance = Random(seed)
    found: list[Case] = []
    while len(found) < count:
        layout = layout_by_chance(chance, CATALOGUE, fewest=4, most=12, unknown=0.01)
        situation = situation_by_chance(chance, layout, CATALOGUE, faults=chance.randint(0, 3))
        found += settled_points(layout, CATALOGUE, [situation])
    return found


def test_networks_by_chance_agree_with_ngspice(tmp_path: Path, tell: Tell) -> None:
    tell(agrees(tmp_path, networks_by_chance("a slice", 150)).told("networks by chance"))


@pytest.mark.slow
@pytest.mark.parametrize("seed", ["clay", "loam", "marl", "peat"])
def test_many_networks_by_chance_agree_with_ngspice(seed: str, tmp_path: Path, tell: Tell) -> None:
    tell(agrees(tmp_path, networks_by_chance(seed, 750)).told(f"networks by chance, {seed}"))


def test_each_class_of_fault_agrees_with_ngspice(tmp_path: Path, tell: Tell) -> None:
    cases: list[Case] = []
    for is_ in FAULT_NAMES:
        chance = Random(is_)
        met = len(cases)
        while len(cases) < met + 10:
            layout = layout_by_chance(chance, CATALOGUE)
            situation = situation_by_chance(chance, layout, CATALOGUE)
            fault = fault_by_chance(chance, layout, CATALOGUE, dict(situation.set), is_)
            if fault is not None:
                cases += settled_points(layout, CATALOGUE, [situation.model_copy(update={"faults": (fault,)})])
    tell(agrees(tmp_path, cases).told("each class of fault"))


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
    "a lamp on the earth that a source elsewhere stands on": (
        sketch({"xf": "supply", "g": "chassis", "h": "chassis", "la": "lamp"}, "xf.C g.G", "h.G la.A"),
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
    agrees(tmp_path, settled_points(layout, catalogue, situations))
