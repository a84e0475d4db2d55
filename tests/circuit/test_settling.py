"""Named circuits of which everybody can say what they must do: race, chatter, fuses, floating, thresholds."""

from __future__ import annotations

import pytest

from app.catalogue.kind import Kind
from app.circuit.meter import read
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.job.sketch import Parts
from tests.circuit.bench import CATALOGUE, asking, sketch, solved, terminals

INTERLOCKED = ("xf.R ka.COM", "xf.R kb.COM", "ka.NC kb.A", "kb.NC ka.A", "ka.B xf.C", "kb.B xf.C")
INTERLOCK = sketch({"xf": "supply", "ka": "relay", "kb": "relay"}, *INTERLOCKED)
BUZZER = sketch({"xf": "supply", "k": "relay"}, "xf.R k.COM", "k.NC k.A", "k.B xf.C")


def test_interlocked_pair_is_a_race() -> None:
    point = solved(INTERLOCK)
    assert not point.settled
    assert point.unsettled is not None
    assert point.unsettled.why == "race"
    assert point.unsettled.outcomes == {"ka.coil": ("ka.coil",), "kb.coil": ("kb.coil",)}
    assert point.unsettled.period == 2


def test_self_interrupting_relay_chatters() -> None:
    point = solved(BUZZER)
    assert point.unsettled is not None
    assert (point.unsettled.why, point.unsettled.elements, point.unsettled.period) == ("chatter", ("k.coil",), 2)
    assert not point.unsettled.outcomes
    assert point.elements["xf.secondary"].state == "on", "its volts go to and fro, but it stays live"


def test_a_long_register_that_never_repeats_in_time_is_undecided() -> None:
    # Five relays that hand their state on, the first fed when the third and the fifth agree: 31 states, and 28 passes.
    relays = {f"k{n}": "four-pole-relay" for n in range(1, 6)}
    shift = [wire for n in range(1, 5) for wire in (f"xf.R k{n}.1A", f"k{n}.1B k{n + 1}.A")]
    agree = ["xf.R k3.2A", "k3.2B k5.2A", "k5.2B k1.A", "xf.R k3.3A", "k3.3B k5.3A", "k5.3B k1.A"]
    commons = [f"k{n}.B xf.C" for n in range(1, 6)]
    point = solved(sketch({"xf": {"kind": "supply", "settings": {"va": 75}}, **relays}, *shift, *agree, *commons))
    assert point.unsettled is not None
    assert point.unsettled.why == "undecided"
    assert point.unsettled.elements == tuple(f"k{n}.coil" for n in range(1, 6))


def test_only_what_is_equal_in_all_states_of_a_cycle_is_given() -> None:
    layout = sketch(
        {"xf": "supply", "k": "relay", "xb": "supply", "la": "lamp"},
        *("xf.R k.COM", "k.NC k.A", "k.B xf.C", "xb.R la.A", "xb.C la.B", "xf.C xb.C"),
    )
    point = solved(layout)
    assert point.unsettled is not None
    assert point.terminals["k.A"].unknown
    assert "does not settle" in point.terminals["k.A"].why
    assert read(point, "la.A", "la.B").volts == pytest.approx(26.4 * 57.6 / (57.6 + 1.44))
    assert point.elements["k.coil"].state == "unknown"
    assert point.elements["la.load"].amps == pytest.approx(26.4 / (57.6 + 1.44))


def test_a_contact_that_chatters_between_equal_potentials_is_not_told_as_it_stands_at_first() -> None:
    # It has 0 V and 0 A either way; whether it is open or closed changes all the same.
    wires = ("xf.R k.3A", "k.3B k.A", "k.B xf.C", "xf.C k.1A", "xf.C k.1B")
    point = solved(sketch({"xf": "supply", "k": "four-pole-relay"}, *wires))
    assert not point.settled
    assert point.elements["k.c1"].state == "unknown"


def test_two_networks_that_race_are_one_race() -> None:
    pairs = [wire.replace("xf", "xb").replace("ka", "kc").replace("kb", "kd") for wire in INTERLOCKED]
    relays = dict.fromkeys(("ka", "kb", "kc", "kd"), "relay")
    point = solved(sketch({"xf": "supply", "xb": "supply", **relays}, *INTERLOCKED, *pairs))
    assert point.unsettled is not None
    assert point.unsettled.why == "race"
    assert point.unsettled.elements == ("ka.coil", "kb.coil", "kc.coil", "kd.coil")


def test_a_race_beside_a_chatter_is_told_as_chatter() -> None:
    # Two relays in a ring: on, on, off, off.
    ring = ("xb.R kc.COM", "kc.NC kd.A", "kd.B xb.C", "xb.R kd.COM", "kd.NO kc.A", "kc.B xb.C")
    parts = {"xf": "supply", "ka": "relay", "kb": "relay", "xb": "supply", "kc": "relay", "kd": "relay"}
    unsettled = solved(sketch(parts, *INTERLOCKED, *ring)).unsettled
    assert unsettled is not None
    assert (unsettled.why, unsettled.period) == ("chatter", 4)
    assert unsettled.elements == ("ka.coil", "kb.coil", "kc.coil", "kd.coil")


def test_a_chattering_network_leaves_others_alone() -> None:
    layout = sketch(
        {"xf": "supply", "k": "relay", "xb": "supply", "kb": "relay"},
        *("xf.R k.COM", "k.NC k.A", "k.B xf.C", "xb.R kb.A", "xb.C kb.B"),
    )
    point = solved(layout)
    assert not point.settled
    assert point.runs("pump") == ["kb"]


def test_fuse_opens_before_chatter_is_declared() -> None:
    # While the relay is released it feeds a heavy load through the fuse; the buzzing would go on for ever without it.
    layout = sketch(
        {
            "xf": {"kind": "fused-supply", "settings": {"fuse_amps": 0.3}},
            "k": "relay",
            "la": {"kind": "lamp", "settings": {"va": 20}},
        },
        *("xf.R k.COM", "k.NC k.A", "k.NC la.A", "la.B xf.C", "k.B xf.C"),
    )
    point = solved(layout)
    assert point.settled
    assert point.elements["xf.fuse"].state == "open"
    assert point.blown["xf.fuse"] > 1.35 * 0.3
    assert point.elements["k.coil"].state == "released"


def test_inrush_opens_no_fuse() -> None:
    # 60 VA of inrush would be 1.9 A through a fuse of 1 A; sealed it takes 7 VA.
    layout = sketch(
        {
            "xf": {"kind": "fused-supply", "settings": {"fuse_amps": 1.0}},
            "ou": {"kind": "contactor", "settings": {"va_inrush": 60}},
        },
        *("xf.R ou.A", "xf.C ou.B"),
    )
    point = solved(layout)
    assert point.runs("compressor") == ["ou"]
    assert not point.blown


def on_a_fuse_of_one_amp(amps: float) -> OperatingPoint:
    """Return what a resistance comes to that lets so many amps through winding and fuse."""
    ohms = 26.4 / amps - 1.44 - 0.03
    layout = sketch(
        {
            "xf": {"kind": "fused-supply", "settings": {"fuse_amps": 1.0}},
            "r": {"kind": "resistor", "settings": {"ohms": ohms}},
        },
        *("xf.R r.A", "xf.C r.B"),
    )
    return solved(layout)


def test_fuse_holds_exactly_1_35_of_its_rating() -> None:
    point = on_a_fuse_of_one_amp(1.35)
    assert point.elements["xf.fuse"].state == "whole"
    assert point.elements["xf.fuse"].amps == pytest.approx(1.35)


@pytest.mark.parametrize(("amps", "holds"), [(1.345, True), (1.355, False)], ids=["up to 1.35", "above 1.35"])
def test_fuse_holds_up_to_1_35_of_its_rating(amps: float, holds: bool) -> None:
    point = on_a_fuse_of_one_amp(amps)
    assert (point.elements["xf.fuse"].state == "whole") == holds
    assert point.blown == ({} if holds else {"xf.fuse": pytest.approx(amps)})


def test_of_two_fuses_only_the_one_with_the_greater_overload_opens() -> None:
    layout = sketch(
        {
            "xa": {"kind": "fused-supply", "settings": {"fuse_amps": 3.0}},
            "xb": {"kind": "fused-supply", "settings": {"fuse_amps": 2.0}},
        },
        # Both in one loop with 52.8 V behind 2.94 ohms: 18 A through each.
        *("xa.R xb.C", "xb.R xa.C"),
    )
    point = solved(layout)
    assert set(point.blown) == {"xb.fuse"}
    assert point.elements["xa.fuse"].state == "whole"


def test_a_coil_keeps_what_would_not_have_pulled_it_in() -> None:
    # Between 12 V (let go) and 18 V (pull in) the state is kept: released from rest.
    assert (
        solved(sketch({"xf": "supply", "k": "relay"}, "xf.R k.A", "xf.C k.B"), Situation(supply_percent=65)).effects
        == ()
    )


def test_what_keeps_itself_is_off_at_rest() -> None:
    keeping = Kind.model_validate(
        {
            "title": "Board that keeps a call for ever",
            "summary": "",
            "terminals": terminals(C="common", W="call"),
            "elements": {"call": {"is": "input", "between": ["W", "C"], "ohms": 3000}},
            "states": {"kept": "call or after(kept, 1 s)"},
            "effects": {"pump": "kept"},
        }
    )
    catalogue = CATALOGUE.with_kinds({"keeping": keeping})
    for wires, running in ((("xf.C fb.C",), []), (("xf.C fb.C", "xf.R fb.W"), ["fb"])):
        layout = sketch({"xf": "supply", "fb": "keeping"}, *wires)
        assert solved(layout, catalogue=catalogue).runs("pump") == running


def test_what_is_on_holds_through_the_sag_that_it_causes() -> None:
    # The load that it switches pulls 26.4 V down to 17.6 V: less than pulls a coil in (18 V), more than lets it go.
    load = {"kind": "lamp", "settings": {"va": 100}}
    relay = ("xf.R k.A", "xf.C k.B", "xf.R k.COM", "k.NO la.A", "la.B xf.C", "k.NO lb.A", "lb.B xf.C")
    point = solved(sketch({"xf": "supply", "k": "relay", "la": load, "lb": load}, *relay))
    assert point.settled
    assert point.elements["k.coil"].state == "pulled-in"
    assert read(point, "k.A", "k.B").volts == pytest.approx(17.6, abs=0.1)
    # An input of 20 V is off below 16 V.
    board = {"kind": "board", "settings": {"threshold": 20.0}}
    wires = ("xf.R fb.R", "xf.C fb.C", "xf.R fb.W", "fb.OUT la.A", "la.B xf.C", "fb.OUT lb.A", "lb.B xf.C")
    point = solved(sketch({"xf": "supply", "fb": board, "la": load, "lb": load}, *wires))
    assert point.settled
    assert point.elements["fb.call"].state == "on"
    assert read(point, "fb.W", "fb.C").volts == pytest.approx(17.6, abs=0.1)


def test_pull_in_at_its_very_threshold() -> None:
    # The supply percent that gives 18 V at the released coil of 6 VA: a knife edge, on by the slack.
    layout = sketch({"xf": "supply", "r": "lamp", "fb": {"kind": "board", "settings": {"threshold": 20.0}}},
                    *("xf.R fb.W", "xf.C fb.C"))  # fmt: skip
    at_20_volts = 100 * 20 * (1.44 + 3000) / 3000 / 26.4
    assert solved(layout, Situation(supply_percent=at_20_volts)).effects == (
        ("fb", "furnace-heat"),
        ("fb", "indoor-fan"),
    )
    assert solved(layout, Situation(supply_percent=at_20_volts * (1 - 1e-7))).effects == ()


def test_floating_is_not_zero_volts() -> None:
    point = solved(sketch({"xf": "supply", "tc": "control", "la": "lamp"}, "xf.R tc.R", "la.A tc.Y"))
    assert point.terminals["tc.Y"].floating
    assert read(point, "xf.R", "tc.Y").floating
    assert read(point, "xf.R", "xf.C").volts == pytest.approx(26.4)
    assert read(point, "la.A", "la.B").volts == 0.0


def test_without_mains_everything_floats() -> None:
    layout = sketch({"xf": "supply", "k": "relay"}, "xf.R k.A", "xf.C k.B")
    point = solved(layout, Situation(mains={"main": "off"}))
    assert all(state.floating for state in point.terminals.values())
    assert point.elements["xf.secondary"].state == "off"
    assert read(point, "k.A", "k.B").volts == 0.0


def test_an_unpowered_control_closes_nothing() -> None:
    wires = ("xf.R tc.R", "tc.Y ou.A", "ou.B xf.C")
    without_common = sketch({"xf": "supply", "tc": "electronic-control", "ou": "contactor"}, *wires)
    powered = sketch({"xf": "supply", "tc": "electronic-control", "ou": "contactor"}, *wires, "tc.C xf.C")
    battery = {"kind": "electronic-control", "settings": {"battery": True}}
    on_battery = sketch({"xf": "supply", "tc": battery, "ou": "contactor"}, *wires)
    call = asking(tc="cool-1")
    assert solved(without_common, call).runs("compressor") == []
    assert solved(powered, call).runs("compressor") == ["ou"]
    assert solved(on_battery, call).runs("compressor") == ["ou"]


def test_a_call_that_the_set_up_does_not_have_closes_nothing() -> None:
    layout = sketch({"xf": "supply", "tc": "control", "ou": "contactor"}, "xf.R tc.R", "tc.Y ou.A", "ou.B xf.C")
    off = Situation(calls={"tc": ("cool-1",)}, set={"tc.mode": "off"})
    assert solved(layout, asking(tc="cool-1")).runs("compressor") == ["ou"]
    assert solved(layout, off).runs("compressor") == []


def test_reference_is_ground_then_the_common_of_the_largest_source() -> None:
    parts: Parts = {"xa": {"kind": "supply", "settings": {"va": 20}}, "xb": "supply", "ch": "chassis"}
    joined = ("xa.C xb.R",)
    assert solved(sketch(parts, *joined)).terminals["xa.R"].reference == "xb.C"
    assert solved(sketch(parts, *joined, "xa.R ch.G")).terminals["xb.C"].reference == "ch.G"


def test_grounded_systems_have_readings_between_them() -> None:
    parts = {"xa": "supply", "ca": "chassis", "xb": "supply", "cb": "chassis", "la": "lamp"}
    point = solved(sketch(parts, "xa.C ca.G", "xb.C cb.G", "xa.R la.A", "xa.C la.B"))
    assert read(point, "xb.R", "ca.G").volts == pytest.approx(26.4)
    assert read(point, "xb.C", "xa.C").volts == pytest.approx(0.0, abs=1e-12)
    apart = solved(
        sketch({name: kind for name, kind in parts.items() if name not in ("ca", "cb")}, "xa.R la.A", "xa.C la.B")
    )
    assert read(apart, "xb.R", "xa.C").floating


def test_unknown_phase_between_two_sources_is_told_not_guessed() -> None:
    parts: Parts = {"xa": "supply", "xb": {"kind": "supply", "settings": {"phase_deg": "unknown"}}}
    met = solved(sketch(parts, "xa.C xb.C"))
    assert read(met, "xa.R", "xa.C").volts == pytest.approx(26.4)
    assert read(met, "xa.R", "xb.R").unknown
    assert "phase" in met.terminals["xb.R"].why
    apart = solved(sketch(parts))
    assert read(apart, "xb.R", "xb.C").volts == pytest.approx(26.4)


def test_a_source_of_unknown_phase_that_meets_no_other_reads_as_any() -> None:
    # The relay couples the two, so that both phases are tried; what the second feeds is by itself all the same.
    parts: Parts = {"xa": "supply", "xb": {"kind": "supply", "settings": {"phase_deg": "unknown"}}, "k": "relay"}
    point = solved(sketch(parts, "xa.R k.A", "xa.C k.B", "xb.R k.COM"))
    assert not point.terminals["xb.R"].unknown
    assert point.terminals["xb.R"].volts == pytest.approx(26.4)
    assert point.elements["xb.secondary"].state == "on"


def test_direction_is_from_source_to_load_and_back() -> None:
    layout = sketch({"xf": "supply", "j": "joint", "la": "lamp"}, "xf.R j.A", "la.A j.D", "xf.C la.B", "xf.R -")
    point = solved(layout)
    assert [point.conductors[name].toward for name in ("w1", "w2", "w3", "w4")] == [1, 0, 0, None]
    amps = 26.4 / (1.44 + 57.6)
    assert [point.conductors[name].amps for name in ("w1", "w2", "w3", "w4")] == pytest.approx([amps, amps, amps, 0])
    assert point.elements["j.ab"].amps == pytest.approx(amps)


@pytest.mark.parametrize(("ohms", "toward"), [(20_000.0, 1), (30_000.0, None)], ids=["1.3 mA", "0.9 mA"])
def test_no_direction_under_a_milliampere(ohms: float, toward: int | None) -> None:
    parts: Parts = {"xf": "supply", "r": {"kind": "resistor", "settings": {"ohms": ohms}}}
    assert solved(sketch(parts, "xf.R r.A", "xf.C r.B")).conductors["w1"].toward == toward


def test_ideal_conductors_in_parallel_share_as_equal_resistances() -> None:
    layout = sketch({"xf": "supply", "j": "joint", "la": "lamp"}, "xf.R la.A", "xf.R j.A", "j.D la.A", "xf.C la.B")
    amps = 26.4 / (1.44 + 57.6)
    point = solved(layout)
    # One join against four in a row: the conductors to and from the joint, and its two traces.
    assert point.conductors["w1"].amps == pytest.approx(amps * 4 / 5)
    assert point.conductors["w2"].amps == pytest.approx(amps / 5)


def test_source_shorted_by_an_ideal_conductor() -> None:
    point = solved(sketch({"xf": "supply"}, "xf.R xf.C"))
    assert point.sources["xf.secondary"].amps == pytest.approx(26.4 / 1.44)
    assert point.conductors["w1"].amps == pytest.approx(26.4 / 1.44)
    assert read(point, "xf.R", "xf.C").volts == pytest.approx(0, abs=1e-9)
