"""A furnace in time, in the order in which the trade tells it: what comes when, and what is never done.

Expected times are sums of the settings of the board: draft 5 s, pre-purge 15 s, warm-up 20 s, trial 5 s, flame seen
2 s after gas, blower 30 s after flame and 90 s after its end, post-purge 15 s, draft gone 3 s after the inducer, the
pressure switch looked at for 1 s.
"""

from __future__ import annotations

import pytest

from app.job.sketch import Parts
from app.sequence.run import Run
from tests.circuit.bench import CATALOGUE, sketch
from tests.sequence.playing import play_layout, times_of, told

WIRES = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "tc.W fb.W")
STEPS = (
    "element:tc.w",
    "element:fb.heat_call",
    "state:fb.inducer",
    "element:fb.inducer_relay",
    "element:fb.pressure_seen",
    "state:fb.purged",
    "state:fb.igniter",
    "element:fb.gas_valve",
    "state:fb.flame_proved",
    "effect:fb:furnace-heat",
    "effect:fb:indoor-fan",
)


def furnace(*changes: str, for_s: float = 7200.0, **settings: object) -> Run:
    """Run a furnace with a thermostat of contacts."""
    parts: Parts = {
        "xf": "control-transformer",
        "fb": {"kind": "furnace-board", "settings": settings},
        "tc": "thermostat-heat-only",
    }
    return play_layout(sketch(parts, *WIRES), *changes, catalogue=CATALOGUE, for_s=for_s)


def test_a_call_goes_from_draft_to_flame_to_blower() -> None:
    run = furnace("0:tc=heat-1")
    assert told(run, *STEPS) == [
        (0.0, "element:tc.w", "closed"),
        (0.0, "element:fb.heat_call", "on"),
        (0.0, "state:fb.inducer", "on"),
        (0.0, "element:fb.inducer_relay", "pulled-in"),
        (5.0, "element:fb.pressure_seen", "on"),
        (20.0, "state:fb.purged", "on"),
        (20.0, "state:fb.igniter", "on"),
        (40.0, "element:fb.gas_valve", "pulled-in"),
        (42.0, "state:fb.flame_proved", "on"),
        (42.0, "state:fb.igniter", "off"),
        (42.0, "effect:fb:furnace-heat", "on"),
        (72.0, "effect:fb:indoor-fan", "on"),
    ]
    assert run.ends == "settled"


def test_the_end_of_a_call_closes_gas_then_purges_then_blows_the_heat_out() -> None:
    run = furnace("0:tc=heat-1", "600:tc=idle")
    assert [each for each in told(run, *STEPS) if each[0] >= 600] == [
        (600.0, "element:tc.w", "open"),
        (600.0, "element:fb.heat_call", "off"),
        (600.0, "state:fb.purged", "off"),
        (600.0, "element:fb.gas_valve", "released"),
        (600.0, "state:fb.flame_proved", "off"),
        (600.0, "effect:fb:furnace-heat", "off"),
        (615.0, "state:fb.inducer", "off"),
        (615.0, "element:fb.inducer_relay", "released"),
        (618.0, "element:fb.pressure_seen", "off"),
        (690.0, "effect:fb:indoor-fan", "off"),
    ]


def test_the_delays_are_those_that_are_set() -> None:
    # 60 Fed. Reg. 53354 (13 Oct 1995): burner on to blower on 1.5 min is the specified value of the test.
    run = furnace("0:tc=heat-1", "600:tc=idle", blower_on_s=90, blower_off_s=180, warm_up_s=45, pre_purge_s=30)
    assert times_of(run, "effect:fb:furnace-heat") == [(82.0, "on"), (600.0, "off")]
    assert times_of(run, "effect:fb:indoor-fan") == [(82.0 + 90, "on"), (600.0 + 180, "off")]


def test_a_pressure_switch_that_is_closed_too_soon_keeps_everything_off() -> None:
    run = furnace("0:fault=contact-welded:fb.pressure_c", "10:tc=heat-1")
    assert times_of(run, "state:fb.asked") == [(10.0, "on")]
    assert times_of(run, "state:fb.inducer") == []
    assert times_of(run, "element:fb.gas_valve") == []
    assert run.ends == "settled"


def test_a_call_during_the_post_purge_waits_until_the_switch_is_seen_open() -> None:
    run = furnace("0:tc=heat-1", "600:tc=idle", "610:tc=heat-1")
    # Inducer off at 615, draft gone at 618, seen for a second: only then a new start, and the whole purge again.
    assert [at for at, now in times_of(run, "state:fb.started") if now == "on"] == [0.0, 619.0]
    assert (619.0 + 5 + 15 + 20, "pulled-in") in times_of(run, "element:fb.gas_valve")


def test_no_draft_no_ignition() -> None:
    run = furnace("0:fb.pressure=open", "10:tc=heat-1", "300:fb.pressure=closed")
    assert (10.0, "on") in times_of(run, "state:fb.inducer")
    assert times_of(run, "element:fb.gas_valve") == [(300.0 + 15 + 20, "pulled-in")]


def test_draft_lost_closes_gas_at_once() -> None:
    run = furnace("0:tc=heat-1", "300:fb.pressure=open", "400:fb.pressure=closed")
    assert (300.0, "released") in times_of(run, "element:fb.gas_valve")
    # It waits one pause between tries from the loss of its flame, then for draft, and begins again with the purge.
    assert times_of(run, "element:fb.gas_valve")[-1] == (400.0 + 15 + 20, "pulled-in")


@pytest.mark.parametrize("tries", [1, 3, 6], ids=["one", "three", "six"])
def test_failed_ignition_is_tried_again_and_then_locked_out(tries: int) -> None:
    run = furnace("0:fb.flame=open", "10:tc=heat-1", for_s=3000, tries=tries)
    opened = [at for at, now in times_of(run, "element:fb.gas_valve") if now == "pulled-in"]
    closed = [at for at, now in times_of(run, "element:fb.gas_valve") if now == "released"]
    # Trial of 5 s, pause of 60 s, purge and warm-up again: every 100 s.
    assert opened == [50.0 + 100 * number for number in range(tries)]
    assert closed == [at + 5 for at in opened]
    assert times_of(run, "state:fb.locked_out") == [(closed[-1], "on")]
    assert "effect:fb:furnace-heat" not in {event.what for event in run.events}
    assert "effect:fb:indoor-fan" not in {event.what for event in run.events}


RESETS = {
    "the call taken away": (("600:tc=idle", "610:tc=heat-1"), 610.0),
    "the power taken away": (("600:main=off", "610:main=on"), 611.0),
    "an hour": ((), 255.0 + 3600),
}


@pytest.mark.parametrize(("changes", "start"), RESETS.values(), ids=RESETS.keys())
def test_a_lockout_ends_with(changes: tuple[str, ...], start: float) -> None:
    run = furnace("0:fb.flame=open", "10:tc=heat-1", "500:fb.flame=closed", *changes)
    assert times_of(run, "state:fb.locked_out")[0] == (255.0, "on")
    assert (start + 5 + 15 + 20 + 2, "on") in times_of(run, "effect:fb:furnace-heat")


def test_a_flame_that_goes_out_is_lit_again() -> None:
    run = furnace("0:tc=heat-1", "300:fb.flame=open", "310:fb.flame=closed")
    assert times_of(run, "effect:fb:furnace-heat") == [(42.0, "on"), (300.0, "off"), (300.0 + 60 + 15 + 20 + 2, "on")]
    # The blower runs on through so short a break: 97 s without flame, of which 90 s are its delay.
    assert times_of(run, "effect:fb:indoor-fan")[1] == (390.0, "off")


def test_an_open_limit_stops_the_burner_and_runs_blower_and_inducer() -> None:
    run = furnace("0:tc=heat-1", "60:fb.limit=open", "300:fb.limit=closed")
    assert (60.0, "released") in times_of(run, "element:fb.gas_valve")
    assert times_of(run, "effect:fb:indoor-fan") == [
        (60.0, "on"),
        (300.0, "off"),
        (304.0 + 5 + 15 + 20 + 2 + 30, "on"),
    ]
    assert not [at for at, now in times_of(run, "element:fb.inducer_relay") if now == "released" and at < 300]
    # Before the next start the pressure switch has to be seen open.
    assert [at for at, now in times_of(run, "state:fb.started") if now == "on"] == [0.0, 304.0]


def test_the_mains_drop_out_and_come_back() -> None:
    run = furnace("0:tc=heat-1", "300:main=off", "320:main=on")
    assert (300.0, "released") in times_of(run, "element:fb.gas_valve")
    assert times_of(run, "effect:fb:indoor-fan")[1] == (300.0, "off")
    # Nothing is remembered: purge, igniter and blower delay begin anew.
    assert times_of(run, "effect:fb:furnace-heat")[-1] == (321.0 + 5 + 15 + 20 + 2, "on")
    assert times_of(run, "effect:fb:indoor-fan")[-1] == (321.0 + 42 + 30, "on")


def test_so_short_a_drop_out_that_the_switch_has_not_opened_waits_for_it() -> None:
    run = furnace("0:tc=heat-1", "300:main=off", "301:main=on")
    assert [at for at, now in times_of(run, "state:fb.started") if now == "on"] == [0.0, 304.0]


def test_a_locked_out_board_runs_its_fan_when_it_is_called() -> None:
    parts = {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool"}
    layout = sketch(parts, *WIRES, "tc.G fb.G", "tc.Y fb.Y")
    run = play_layout(layout, "0:fb.flame=open", "10:tc=heat-1", "400:tc=heat-1+fan", for_s=1000)
    assert times_of(run, "effect:fb:indoor-fan") == [(400.0, "on")]


def test_two_stages_light_low_and_go_high() -> None:
    parts: Parts = {
        "xf": "control-transformer",
        "fb": "furnace-board-2-stage",
        "tc": {"kind": "thermostat-dual-fuel", "settings": {"equipment": "conventional", "heat_stages": 2}},
    }
    wires = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.RH", "fb.C tc.C", "tc.W1 fb.W1", "tc.W2 fb.W2")
    run = play_layout(sketch(parts, *wires), "0:tc=heat-1", "200:tc=heat-2", "300:fb.pressure_high=open")
    assert times_of(run, "effect:fb:furnace-heat") == [(42.0, "on")]
    assert times_of(run, "effect:fb:furnace-heat-2") == [(200.0, "on"), (300.0, "off")]
