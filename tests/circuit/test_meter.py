"""Voltmeters that draw something: phantoms in a cable, a meter that loads, and the figures of the handbook."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from app.circuit.meter import Meter, Reading, read_with
from app.circuit.meter_loading import FARADS_PER_METRE, read_loaded
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Cable, Conductor, Layout, Part
from app.job.refusal import Refused
from app.job.sketch import Parts
from tests.circuit.bench import CATALOGUE, asking, faulty, sketch

EXACT_24_VOLTS = {"volts": 24 / 1.01, "regulation": 0.01}
"""A supply of 24.0 V with nothing on it, which is what the figures are for."""


def in_a_cable(length_m: float, live: int, common: int) -> Layout:
    """One conductor that floats, beside ``live`` ones on R and ``common`` ones on C, all in one cable."""
    wires = {f"live{at}": Conductor(ends=("xf.R", None), cable="cb") for at in range(live)}
    wires |= {f"common{at}": Conductor(ends=("xf.C", None), cable="cb") for at in range(common)}
    wires["floating"] = Conductor(ends=("st.A", None), cable="cb")
    return Layout(
        parts={"xf": Part(kind="supply", settings=EXACT_24_VOLTS), "st": Part(kind="joint")},
        cables={"cb": Cable(length_m=length_m)},
        conductors=wires,
    )


def loaded(layout: Layout, a: str, b: str, meter_ohms: float, frequency_hz: int = 60) -> Reading:
    circuit = build_circuit(layout, CATALOGUE, frequency_hz)
    return read_loaded(circuit, solve(circuit, Situation()), a, b, meter_ohms)


def shown(meter: Meter, layout: Layout, a: str, b: str, situation: Situation | None = None) -> Reading:
    circuit = build_circuit(layout, CATALOGUE)
    return read_with(meter, circuit, solve(circuit, situation or Situation()), a, b)


# Handbook 10, "Test value": 15 m at 50 pF/m beside a 24 V source, calculated there from the plain formula.
HANDBOOK = {"10 MΩ": (10e6, 22.6, 0.05), "1 MΩ": (1e6, 6.5, 0.05), "3 kΩ": (3e3, 0.02, 0.005)}


@pytest.mark.parametrize("meter", HANDBOOK)
def test_a_floating_conductor_beside_a_live_one_reads_as_the_handbook_says(meter: str) -> None:
    ohms, volts, within = HANDBOOK[meter]
    reading = loaded(in_a_cable(15.0, live=1, common=0), "st.A", "xf.C", ohms)
    assert reading.volts == pytest.approx(volts, abs=within)


@pytest.mark.parametrize(("live", "common"), [(1, 1), (2, 0), (2, 1), (3, 4), (0, 2)])
def test_neighbours_add_up_and_grounded_ones_pull_down(live: int, common: int) -> None:
    reading = loaded(in_a_cable(20.0, live, common), "st.A", "xf.C", 10e6)
    siemens = 2 * math.pi * 60 * 50e-12 * 20.0
    expected = 24.0 * live * siemens / math.hypot((live + common) * siemens, 1 / 10e6)
    assert reading.volts == pytest.approx(expected, rel=1e-6, abs=1e-9)


def test_the_line_frequency_counts() -> None:
    layout = in_a_cable(15.0, live=1, common=0)
    at_50, at_60 = (loaded(layout, "st.A", "xf.C", 1e6, hz).volts for hz in (50, 60))
    assert at_50 is not None
    assert at_60 is not None
    reactance = 1 / (2 * math.pi * 50 * FARADS_PER_METRE * 15.0)
    assert at_50 == pytest.approx(24.0 * 1e6 / math.hypot(1e6, reactance), rel=1e-6)
    assert at_50 < at_60


def test_a_phantom_says_what_it_is() -> None:
    reading = shown("high", in_a_cable(15.0, live=1, common=0), "st.A", "xf.C")
    assert "insulation" in reading.why
    assert shown("ideal", in_a_cable(15.0, live=1, common=0), "st.A", "xf.C") == Reading(floating=True)


def test_without_a_cable_nothing_comes_through() -> None:
    layout = sketch({"xf": "supply", "st": "joint"}, "xf.R -", "st.A -")
    reading = shown("high", layout, "st.A", "xf.C")
    assert reading.volts == pytest.approx(0.0, abs=1e-9)


def test_a_conductor_that_is_held_by_a_load_shows_no_phantom() -> None:
    layout = in_a_cable(15.0, live=1, common=0)
    parts = {**layout.parts, "lp": Part(kind="lamp")}
    wires = {
        **layout.conductors,
        "floating": Conductor(ends=("st.A", "lp.A"), cable="cb"),
        "back": Conductor(ends=("lp.B", "xf.C")),
    }
    held = layout.model_copy(update={"parts": parts, "conductors": wires})
    reading = shown("high", held, "st.A", "xf.C")
    assert reading.volts == pytest.approx(0.0, abs=1e-3)
    assert reading.why == ""


def test_both_halves_of_a_conductor_that_is_cut_lie_beside_the_others() -> None:
    # Each half of 15 m has the capacitance of 7.5 m to the live one, and stays apart from the other.
    layout = in_a_cable(15.0, live=1, common=0)
    wires = {**layout.conductors, "floating": Conductor(ends=("st.A", "sr.A"), cable="cb")}
    parts = {**layout.parts, "sr": Part(kind="joint")}
    cut = layout.model_copy(update={"parts": parts, "conductors": wires})
    opened = faulty({"is": "conductor-open", "at": "conductor:floating"})
    siemens = 2 * math.pi * 60 * 50e-12 * 7.5
    for end in ("st.A", "sr.A"):
        reading = shown("high", cut, end, "xf.C", opened)
        assert reading.volts == pytest.approx(24.0 * siemens / math.hypot(siemens, 1 / 10e6), rel=1e-6)


def test_two_isolated_supplies_show_nothing_between_them() -> None:
    layout = sketch({"xa": "supply", "xb": "supply"}, "xa.R -", "xb.R -")
    assert shown("high", layout, "xa.R", "xb.C").volts == pytest.approx(0.0, abs=1e-9)


def test_a_meter_on_a_leaking_contact_loads_it() -> None:
    layout = sketch({"xf": {"kind": "supply", "settings": EXACT_24_VOLTS}, "bo": "board"}, "xf.R bo.R", "xf.C bo.C")
    ideal, high, low = (shown(meter, layout, "bo.OUT", "bo.C").volts for meter in ("ideal", "high", "low"))
    # The source's own 0.14 Ω is nothing beside the 26.5 kΩ that leak.
    assert ideal == pytest.approx(24.0, rel=1e-6)
    assert high == pytest.approx(24.0 * 10e6 / (10e6 + 26500), rel=1e-5)
    assert low == pytest.approx(24.0 * 3e3 / (3e3 + 26500), rel=1e-4)


def test_a_low_resistance_across_an_open_contact_may_make_the_call_itself() -> None:
    parts: Parts = {"xf": {"kind": "supply", "settings": EXACT_24_VOLTS}, "tc": "control", "bo": "board"}
    layout = sketch(parts, "xf.R tc.R", "tc.W bo.W", "xf.R bo.R", "xf.C bo.C")
    low = shown("low", layout, "tc.R", "tc.W")
    assert low.volts is not None
    # 3 kΩ of the meter and 3 kΩ of the input share the 24 V: 12 V, just where the input is on.
    assert low.volts == pytest.approx(12.0, abs=0.01)
    assert shown("high", layout, "tc.R", "tc.W").volts == pytest.approx(24.0, abs=0.02)
    assert "bo.call" in low.why or low.volts < 12.0


def test_a_meter_that_moves_something_shows_what_then_stands_there() -> None:
    parts: Parts = {
        "xf": {"kind": "supply", "settings": EXACT_24_VOLTS},
        "tc": "control",
        "bo": {"kind": "board", "settings": {"threshold": 6.0}},
        "lp": {"kind": "lamp", "settings": {"va": 0.1}},
    }
    layout = sketch(parts, "xf.R tc.R", "tc.W bo.W", "xf.R bo.R", "xf.C bo.C", "bo.OUT lp.A", "lp.B xf.C")
    reading = shown("low", layout, "tc.R", "tc.W")
    assert "bo.call" in reading.why
    assert "bo.out" in reading.why


@pytest.mark.parametrize("meter", ["high", "low"])
def test_a_stiff_source_reads_as_with_an_ideal_meter(meter: Meter) -> None:
    parts = {"xf": "supply", "tc": "control", "co": "contactor"}
    layout = sketch(parts, "xf.R tc.R", "tc.Y co.A", "co.B xf.C")
    called = asking(tc="cool-1")
    ideal = shown("ideal", layout, "co.A", "co.B", called).volts
    assert shown(meter, layout, "co.A", "co.B", called).volts == pytest.approx(ideal, rel=1e-3)


def test_what_is_unknown_stays_unknown_for_every_meter() -> None:
    layout = sketch({"xf": "supply", "bb": "bus-box"}, "xf.C -")
    meters: tuple[Meter, ...] = ("ideal", "high", "low", "ohms")
    for meter in meters:
        assert shown(meter, layout, "bb.D1", "xf.C").unknown


def test_a_terminal_that_is_not_there_is_refused() -> None:
    with pytest.raises(Refused, match=r"xf\.Q"):
        shown("high", sketch({"xf": "supply"}), "xf.R", "xf.Q")


def test_a_moment_is_read_as_it_stands() -> None:
    """The meter is put beside what the point says, and nothing is settled again."""
    layout = sketch({"xf": "supply", "tc": "control", "co": "contactor"}, "xf.R tc.R", "tc.Y co.A", "co.B xf.C")
    circuit = build_circuit(layout, CATALOGUE)
    called = solve(circuit, asking(tc="cool-1"))
    moment = replace(called, situation=Situation())
    assert read_with("low", circuit, moment, "co.A", "co.B").volts == pytest.approx(
        read_with("low", circuit, called, "co.A", "co.B").volts
    )
