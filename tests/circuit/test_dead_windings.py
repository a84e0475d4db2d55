"""A winding whose mains are off is no source, and still joins its two ends: what a meter then shows (common practice,
no source)."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.circuit.meter import Meter, Reading, read_with
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Cable, Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE, sketch

OFF = Situation.model_validate({"mains": {"main": "off"}})
BARE: Layout = sketch({"xf": "supply", "co": "contactor"}, "xf.R -", "co.A -")


def shown(meter: Meter, layout: Layout, a: str, b: str, situation: Situation) -> Reading:
    circuit = build_circuit(layout, CATALOGUE)
    return read_with(meter, circuit, solve(circuit, situation), a, b)


@pytest.mark.parametrize("meter", ["high", "low"])
def test_from_end_to_end_a_meter_shows_no_volts(meter: Meter) -> None:
    reading = shown(meter, BARE, "xf.R", "xf.C", OFF)
    assert reading.volts == pytest.approx(0.0, abs=1e-9)
    assert "only the winding of xf joins the two" in reading.why


def test_an_ideal_one_floats_there_and_says_what_is_between() -> None:
    reading = shown("ideal", BARE, "xf.R", "xf.C", OFF)
    assert reading.floating
    assert "only the winding of xf joins the two" in reading.why


def test_what_no_winding_joins_still_floats() -> None:
    assert shown("ideal", BARE, "xf.R", "co.A", OFF) == Reading(floating=True)
    assert "nothing joins" in shown("high", BARE, "xf.R", "co.A", OFF).why


def test_a_live_source_has_nothing_to_say_of_it() -> None:
    assert shown("ideal", BARE, "xf.R", "xf.C", Situation()).why == ""


def test_beside_a_live_conductor_a_dead_winding_shows_no_phantom() -> None:
    """What comes through 15 m of insulation, 53 µA at most, is nothing to a winding of some hundred ohms: 57.6 Ω are
    those of 24 V and 10 VA, and its no-load impedance is a few times that."""
    wires = {
        "live": Conductor(ends=("xf.R", None), cable="cb"),
        "common": Conductor(ends=("xf.C", "xd.C")),
        "dead": Conductor(ends=("xd.R", None), cable="cb"),
    }
    parts = {
        "xf": Part(kind="control-transformer"),
        "xd": Part(kind="control-transformer", settings={"mains_supply": "outdoor"}),
    }
    circuit = build_circuit(
        Layout(parts=parts, cables={"cb": Cable(length_m=15.0)}, conductors=wires), builtin_catalogue()
    )
    off = Situation.model_validate({"mains": {"outdoor": "off"}})
    reading = read_with("high", circuit, solve(circuit, off), "xd.R", "xd.C")
    assert reading.volts == pytest.approx(0.0, abs=0.05)
    assert "only the winding of xd" in reading.why
