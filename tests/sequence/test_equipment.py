"""Cooling, heat pumps, electric heat, valves and dampers in time."""

from __future__ import annotations

from app.job.sketch import Parts
from app.sequence.run import Run
from tests.circuit.bench import sketch
from tests.sequence.playing import play_layout, times_of, told


def cooling(*changes: str, minimum_off_s: int = 300, **settings: object) -> Run:
    """Run a furnace with a condensing unit and a thermostat of contacts."""
    parts: Parts = {
        "xf": "control-transformer",
        "fb": {"kind": "furnace-board", "settings": settings},
        "tc": "thermostat-heat-cool",
        "ou": {"kind": "condensing-unit", "settings": {"minimum_off_s": minimum_off_s}},
    }
    wires = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "tc.W fb.W", "tc.Y fb.Y", "tc.G fb.G", "fb.Y ou.Y", "fb.C ou.C")
    return play_layout(sketch(parts, *wires), *changes)


def heat_pump(*changes: str, for_s: float = 20_000.0, **settings: object) -> Run:
    """Run an air handler with electric heat and a heat pump of which the valve is energised in cooling."""
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"va": 75}},
        "ah": "air-handler-board",
        "tc": "thermostat-heat-pump",
        "ou": {"kind": "heat-pump-unit", "settings": settings},
    }
    wires = (
        "xf.R ah.XF",
        "xf.C ah.XC",
        "ah.R tc.R",
        "ah.C tc.C",
        "tc.Y ah.Y",
        "tc.O/B ah.O",
        "tc.G ah.G",
        "tc.W ah.W1",
    )
    outdoors = ("ah.Y ou.Y", "ah.O ou.O/B", "ah.R ou.R", "ah.C ou.C", "ou.W ah.W1")
    return play_layout(sketch(parts, *wires, *outdoors), *changes, for_s=for_s)


def test_cooling_runs_everything_at_once_and_the_fan_a_while_longer() -> None:
    run = cooling("0:tc=cool-1", "600:tc=idle")
    assert told(run, "effect:ou:compressor", "effect:ou:outdoor-fan", "effect:fb:indoor-fan") == [
        (0.0, "effect:fb:indoor-fan", "on"),
        (0.0, "effect:ou:compressor", "on"),
        (0.0, "effect:ou:outdoor-fan", "on"),
        (600.0, "effect:ou:compressor", "off"),
        (600.0, "effect:ou:outdoor-fan", "off"),
        (660.0, "effect:fb:indoor-fan", "off"),
    ]


def test_the_fan_stops_at_once_where_that_is_set() -> None:
    run = cooling("0:tc=cool-1", "600:tc=idle", fan_off_s=0)
    assert times_of(run, "effect:fb:indoor-fan") == [(0.0, "on"), (600.0, "off")]


def test_a_fan_call_alone_leaves_no_delay() -> None:
    run = cooling("0:tc=fan", "600:tc=idle")
    assert times_of(run, "effect:fb:indoor-fan") == [(0.0, "on"), (600.0, "off")]


def test_a_condensing_unit_waits_with_its_timer_and_starts_at_once_without() -> None:
    calls = ("0:tc=cool-1", "600:tc=idle", "610:tc=cool-1")
    for off_s, again in ((300, 900.0), (180, 780.0), (0, 610.0)):
        run = cooling(*calls, minimum_off_s=off_s)
        assert times_of(run, "effect:ou:compressor") == [(0.0, "on"), (600.0, "off"), (again, "on")]


def test_an_open_pressure_switch_stops_the_compressor_and_leaves_the_fan() -> None:
    run = cooling("0:tc=cool-1", "300:ou.high_pressure=open")
    assert times_of(run, "effect:ou:compressor")[-1] == (300.0, "off")
    assert times_of(run, "effect:fb:indoor-fan") == [(0.0, "on")]


def test_an_electronic_control_keeps_the_compressor_off_after_a_stop() -> None:
    parts: Parts = {
        "xf": "control-transformer",
        "fb": "furnace-board-2-stage",
        "tc": {"kind": "thermostat-dual-fuel", "settings": {"equipment": "conventional"}},
        "ou": "condensing-unit",
    }
    wires = (
        "xf.R fb.XF",
        "xf.C fb.XC",
        "fb.R tc.RC",
        "fb.C tc.C",
        "tc.Y1 fb.Y1",
        "tc.G fb.G",
        "fb.Y1 ou.Y",
        "fb.C ou.C",
    )
    run = play_layout(sketch(parts, *wires), "0:tc=cool-1", "600:tc=idle", "610:tc=cool-1")
    assert times_of(run, "element:tc.y1") == [(0.0, "closed"), (600.0, "open"), (900.0, "closed")]
    assert times_of(run, "effect:ou:compressor") == [(0.0, "on"), (600.0, "off"), (900.0, "on")]
    assert times_of(run, "element:tc.g") == [(0.0, "closed"), (600.0, "open"), (610.0, "closed")]


def test_a_heat_pump_waits_out_its_minimum_off_time() -> None:
    run = heat_pump("0:tc=heat-1", "1000:tc=idle", "1100:tc=heat-1")
    assert times_of(run, "effect:ou:compressor") == [(0.0, "on"), (1000.0, "off"), (1300.0, "on")]


def test_a_heat_pump_waits_after_the_mains_have_failed() -> None:
    run = heat_pump("0:tc=heat-1", "1000:main=off", "1010:main=on")
    assert times_of(run, "effect:ou:compressor") == [(0.0, "on"), (1000.0, "off"), (1300.0, "on")]


def test_a_bouncing_pressure_switch_starts_no_guarded_compressor() -> None:
    run = heat_pump("0:tc=heat-1", "1000:ou.low_pressure=open", "1001:ou.low_pressure=closed")
    assert times_of(run, "effect:ou:compressor") == [(0.0, "on"), (1000.0, "off"), (1300.0, "on")]


DEFROST = (
    "effect:ou:defrost",
    "effect:ou:heat-pump-heating",
    "effect:ou:outdoor-fan",
    "effect:ou:compressor",
    "element:ou.reversing_valve",
    "effect:ah:electric-heat",
)


def test_defrost_turns_the_valve_stops_the_fan_and_tempers_until_the_coil_is_clear() -> None:
    run = heat_pump("0:tc=heat-1", "100:ou.coil_cold=closed", "5900:ou.coil_cold=open", defrost_after_s=5400)
    assert told(run, *DEFROST) == [
        (0.0, "effect:ou:compressor", "on"),
        (0.0, "effect:ou:heat-pump-heating", "on"),
        (0.0, "effect:ou:outdoor-fan", "on"),
        (5500.0, "element:ou.reversing_valve", "pulled-in"),
        (5500.0, "effect:ou:defrost", "on"),
        (5500.0, "effect:ou:heat-pump-heating", "off"),
        (5500.0, "effect:ou:outdoor-fan", "off"),
        (5520.0, "effect:ah:electric-heat", "on"),
        (5900.0, "element:ou.reversing_valve", "released"),
        (5900.0, "effect:ah:electric-heat", "off"),
        (5900.0, "effect:ou:defrost", "off"),
        (5900.0, "effect:ou:heat-pump-heating", "on"),
        (5900.0, "effect:ou:outdoor-fan", "on"),
    ]


def test_a_coil_that_does_not_clear_ends_its_defrost_by_time_and_comes_back_to_it() -> None:
    run = heat_pump("0:ou.coil_cold=closed", "0:tc=heat-1", defrost_after_s=1800)
    assert run.ends == "cycles"
    assert run.period_s == 1800 + 600
    assert times_of(run, "effect:ou:defrost")[:3] == [(1800.0, "on"), (2400.0, "off"), (4200.0, "on")]


def test_run_time_with_frost_adds_up_over_several_calls() -> None:
    calls = [f"{at}:tc={call}" for at, call in ((0, "heat-1"), (1000, "idle"), (2000, "heat-1"), (2500, "idle"))]
    run = heat_pump("0:ou.coil_cold=closed", *calls, "3000:tc=heat-1", defrost_after_s=1800)
    # 1000 s and 500 s have run; 300 s are left.
    assert times_of(run, "effect:ou:defrost")[0] == (3300.0, "on")


def test_no_defrost_while_it_cools() -> None:
    run = heat_pump("0:ou.coil_cold=closed", "0:tc=cool-1", defrost_after_s=1800)
    assert times_of(run, "effect:ou:defrost") == []
    assert run.ends == "settled"


def test_electric_heat_comes_late_and_its_fan_stays_longer() -> None:
    run = heat_pump("0:tc=emergency-heat", "300:tc=idle")
    assert times_of(run, "effect:ah:electric-heat") == [(20.0, "on"), (300.0, "off")]
    assert times_of(run, "effect:ah:indoor-fan") == [(0.0, "on"), (360.0, "off")]


def test_a_heat_motor_sequencer_takes_its_time_both_ways_and_never_lacks_its_fan() -> None:
    parts = {"xf": "control-transformer", "tc": "thermostat-heat-only", "sq": "heat-sequencer", "fr": "fan-relay"}
    wires = ("xf.R tc.R", "tc.W sq.W", "sq.C xf.C", "xf.R sq.F1", "sq.F2 fr.G", "fr.C xf.C")
    run = play_layout(sketch(parts, *wires), "0:tc=heat-1", "300:tc=idle")
    assert told(run, "effect:sq:electric-heat", "effect:fr:indoor-fan") == [
        (10.0, "effect:fr:indoor-fan", "on"),
        (30.0, "effect:sq:electric-heat", "on"),
        (345.0, "effect:sq:electric-heat", "off"),
        (390.0, "effect:fr:indoor-fan", "off"),
    ]


def test_a_heat_motor_valve_opens_in_minutes_then_its_end_switch_starts_the_boiler() -> None:
    parts: Parts = {
        "xf": "control-transformer",
        "tc": "thermostat-heat-only",
        "zv": {"kind": "zone-valve", "settings": {"opens_s": 180, "closes_s": 120}},
        "bo": "boiler-control",
    }
    wires = ("xf.R tc.R", "tc.W zv.M1", "zv.M2 xf.C", "zv.E1 bo.T1", "zv.E2 bo.T2")
    run = play_layout(sketch(parts, *wires), "0:tc=heat-1", "1000:tc=idle")
    assert told(run, "effect:zv:zone-open", "effect:bo:pump", "effect:bo:boiler-heat") == [
        (180.0, "effect:bo:pump", "on"),
        (180.0, "effect:zv:zone-open", "on"),
        (210.0, "effect:bo:boiler-heat", "on"),
        (1000.0, "effect:bo:boiler-heat", "off"),
        (1060.0, "effect:bo:pump", "off"),
        (1120.0, "effect:zv:zone-open", "off"),
    ]


def test_a_damper_takes_its_time_both_ways() -> None:
    parts = {"xf": "control-transformer", "tc": "thermostat-heat-only", "d": "zone-damper"}
    run = play_layout(sketch(parts, "xf.R tc.R", "tc.W d.O", "d.C xf.C"), "0:tc=heat-1", "100:tc=idle")
    assert times_of(run, "effect:d:zone-open") == [(30.0, "on"), (115.0, "off")]
