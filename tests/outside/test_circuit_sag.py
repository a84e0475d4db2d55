"""Sag of a transformer and of a long run (calculated by hand, checked twice)."""

from __future__ import annotations

import pytest

from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, sketch

HUNDRED_FEET_M = 30.48


def loaded(va: float, length_m: float | None = None) -> Layout:
    parts = {"xf": "supply", "la": {"kind": "lamp", "settings": {"va": va}}}
    layout = sketch(parts, "xf.R la.A", "xf.C la.B")
    wires = {name: wire.model_copy(update={"length_m": length_m}) for name, wire in layout.conductors.items()}
    return layout.model_copy(update={"conductors": wires})


def volts(layout: Layout, a: str, b: str) -> float | None:
    return read(solve(build_circuit(layout, CATALOGUE), Situation()), a, b).volts


def test_full_load_without_wire_gives_rated_volts() -> None:
    assert volts(loaded(40), "la.A", "la.B") == pytest.approx(24.00, abs=0.005)


def test_full_load_through_100_ft_of_18_awg() -> None:
    assert volts(loaded(40, HUNDRED_FEET_M), "xf.R", "xf.C") == pytest.approx(24.18, abs=0.005)
    assert volts(loaded(40, HUNDRED_FEET_M), "la.A", "la.B") == pytest.approx(22.21, abs=0.005)


@pytest.mark.parametrize(
    ("va", "ohms"), [(20, 2.88), (40, 1.44), (50, 1.15), (75, 0.77)], ids=["20 VA", "40 VA", "50 VA", "75 VA"]
)
def test_open_circuit_volts_and_series_ohms(va: float, ohms: float) -> None:
    parts = {"xf": {"kind": "supply", "settings": {"va": va}}, "la": {"kind": "lamp", "settings": {"va": 10}}}
    unloaded = volts(sketch(parts), "xf.R", "xf.C")
    assert unloaded == pytest.approx(26.4)
    under_load = volts(sketch(parts, "xf.R la.A", "xf.C la.B"), "xf.R", "xf.C")
    assert unloaded is not None
    assert under_load is not None
    assert (unloaded - under_load) / (under_load / 57.6) == pytest.approx(ohms, abs=0.005)


def test_trickle_through_the_equipment_false_calls_an_input_but_not_a_contactor() -> None:
    # Calculated by hand: a starved control of 1.2 kΩ in series with an electronic input of 3 kΩ leaves the input 18.9 V
    # of 26.4 V, and 7.5 V for itself (common practice, no source; arithmetic).
    parts = {
        "xf": "supply",
        "stat": {"kind": "resistor", "settings": {"ohms": 1200.0}},
        "fb": "board",
    }
    layout = sketch(parts, "xf.R stat.A", "stat.B fb.W", "fb.C xf.C")
    assert volts(layout, "fb.W", "fb.C") == pytest.approx(18.9, abs=0.05)
    assert volts(layout, "stat.A", "stat.B") == pytest.approx(7.5, abs=0.05)
