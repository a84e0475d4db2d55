"""Figures of the rules about volts and amps, against figures worked out by hand and against the engine."""

from __future__ import annotations

import re

import pytest

from app.checks.facts.fed import fed_coils, weakest
from app.checks.facts.runs import most_run_ohms, pull_in_of, run_of
from app.checks.facts.secondary import most_amps, most_va
from app.checks.registry import rule_named
from app.checks.samples import Parts, boiler_zone, dual_fuel, gas_and_cooling, heat_pump, with_wires
from app.job.model import Layout
from app.job.sketch import sketch
from tests.checks.bench import COIL, LAMP, changed, context, found


def coil_on_a_run(sealed_va: float) -> Layout:
    """A coil of 40 VA inrush on 40 VA and 10 % regulation, a hundred feet of 18 AWG away."""
    parts: Parts = {"xf": "control-transformer", "k": {"kind": "coil", "settings": {"sealed": sealed_va}}}
    return with_wires(sketch(parts, "xf.R k.A", "k.B xf.C"), "w1 w2", length_m=30.48, size_awg=18)


@pytest.mark.parametrize("sealed_va", [40.0, 20.0, 5.0])
def test_an_inrush_of_forty_va_over_a_hundred_feet_leaves_the_published_volts(sealed_va: float) -> None:
    # Calculated twice in the handbook: 24.18 V at the source and 22.21 V at the coil, whatever it takes once sealed.
    asking = context(coil_on_a_run(sealed_va), coil=COIL)
    (fed,) = asking.once(weakest).values()
    run = run_of(asking, fed)
    assert run is not None
    assert run.ohms() == pytest.approx(1.277, rel=0.005)
    pull_in = pull_in_of(asking, fed, run.ohms(), 20.4)
    assert pull_in.volts == pytest.approx(22.21, abs=0.01)
    assert pull_in.source_volts == pytest.approx(24.18, abs=0.01)


def test_the_ohms_that_would_do_just_do() -> None:
    asking = context(coil_on_a_run(20.0), coil=COIL)
    (fed,) = asking.once(weakest).values()
    run = run_of(asking, fed)
    assert run is not None
    # 26.4 V behind 1.44 ohm: 14.4 ohm is left 20.4 V with 2.795 ohm in the run.
    assert pull_in_of(asking, fed, run.ohms(), 20.4).ohms_for == pytest.approx(
        26.4 * 14.4 / 20.4 - 14.4 - 1.44, abs=0.01
    )


@pytest.mark.parametrize("beside_va", [0.1, 10.0, 30.0])
def test_the_volts_to_pull_in_are_those_of_the_engine_to_two_hundredths_and_never_more(beside_va: float) -> None:
    # A coil that takes its inrush for good stands for the moment of pulling in, and a lamp beside it for all the rest.
    def volts(sealed_va: float, sealed_factor: float) -> tuple[float, float]:
        coil = {"kind": "coil", "settings": {"sealed": sealed_va, "sealed_factor": sealed_factor}}
        parts: Parts = {"xf": "control-transformer", "k": coil, "la": {"kind": "lamp", "settings": {"va": beside_va}}}
        layout = sketch(parts, "xf.R k.A", "k.B xf.C", "k.A la.A", "k.B la.B")
        kinds = {"coil": changed(COIL, va_inrush=30.0, power_factor_inrush=0.7), "lamp": LAMP}
        asking = context(with_wires(layout, "w1 w2", length_m=30.0, size_awg=18), **kinds)
        (fed,) = asking.once(weakest).values()
        run = run_of(asking, fed)
        assert run is not None
        return fed.volts, pull_in_of(asking, fed, run.ohms(), 20.4).volts

    told, exact = volts(7.0, 0.5)[1], volts(30.0, 0.7)[0]
    assert 0.98 * exact <= told <= exact + 1e-9


def test_no_run_has_more_ohms_than_its_loss_allows() -> None:
    for layout in (dual_fuel(), heat_pump(), boiler_zone()):
        asking = context(with_wires(layout, " ".join(layout.conductors), length_m=25.0, size_awg=20))
        for fed in asking.once(fed_coils):
            run, source = run_of(asking, fed), fed.point.elements[fed.winding.name].volts
            assert run is not None
            assert source is not None
            assert run.ohms() <= 1.02 * most_run_ohms(asking, fed, source)


@pytest.mark.parametrize(
    ("wires", "length_m", "size_awg"), [("w7 w8", 60.0, 22), ("w7 w8", 130.0, 24), ("w5 w7 w8", 90.0, 20)]
)
def test_the_gauge_that_is_said_to_do_does(wires: str, length_m: float, size_awg: int) -> None:
    (weak,) = found("coil-volts-low", with_wires(gas_and_cooling(), wires, length_m=length_m, size_awg=size_awg))
    gauge = re.search(r"or (\d+) AWG", weak.message)
    assert gauge, weak.message
    cured = with_wires(gas_and_cooling(), wires, length_m=length_m, size_awg=int(gauge[1]))
    assert found("coil-volts-low", cured) == ()


def test_the_length_that_is_said_to_do_does() -> None:
    (weak,) = found("coil-volts-low", with_wires(gas_and_cooling(), "w7 w8", length_m=60.0, size_awg=22))
    feet = re.search(r"(\d+) ft of it would do", weak.message)
    assert feet, weak.message
    for length_m, told in ((int(feet[1]) * 0.3048, 0), ((int(feet[1]) + 3) * 0.3048, 1)):
        layout = with_wires(gas_and_cooling(), "w7 w8", length_m=length_m, size_awg=22)
        assert len(found("coil-volts-low", layout)) == told


def test_a_coil_that_the_wrong_tap_starves_is_told_of_the_tap() -> None:
    on_the_wrong_tap: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"line_volts": 120, "primary_tap": 240}}
    }
    layout = with_wires(gas_and_cooling(parts=on_the_wrong_tap), "w7 w8", length_m=60.0, size_awg=22)
    assert found("coil-volts-low", layout) == ()
    assert found("call-without-effect", layout) == ()
    assert len(found("primary-tap-wrong", layout)) == 1


@pytest.mark.parametrize(
    ("line", "tap", "loaded", "bare"), [(208, 240, 20.8, 22.9), (240, 208, 27.7, 30.5)], ids=["low", "high"]
)
def test_the_volts_of_a_wrong_tap_are_those_of_the_handbook(line: int, tap: int, loaded: float, bare: float) -> None:
    layout = gas_and_cooling(
        parts={"xf": {"kind": "control-transformer", "settings": {"line_volts": line, "primary_tap": tap}}}
    )
    (wrong,) = found("primary-tap-wrong", layout)
    assert wrong.evidence.more["secondary_volts_rated"] == pytest.approx(loaded, abs=0.05)
    assert wrong.evidence.more["secondary_volts_open"] == pytest.approx(bare, abs=0.05)
    above = ", above the 30 V of Class 2" if bare > 30 else ""
    assert wrong.message.endswith(f"{loaded} V instead of 24 V, and {bare} V with nothing on it{above}.")


@pytest.mark.parametrize(
    ("volts", "amps"), [(24.0, 4.17), (25.2, 3.97), (26.4, 3.79), (28.0, 3.57), (30.0, 3.33), (20.0, 5.0), (12.0, 5.0)]
)
def test_the_largest_fuse_is_that_of_the_table(volts: float, amps: float) -> None:
    assert most_amps(volts) == pytest.approx(amps, abs=0.005)


def test_a_fuse_of_exactly_the_most_amps_is_let_pass() -> None:
    # On the tap for twice the line a secondary of 24 V gives 13.2 V with nothing on it; up to 20 V the table has 5 A.
    half: Parts = {
        "xf": {
            "kind": "control-transformer",
            "settings": {"limiting": "device", "line_volts": 120, "primary_tap": 240},
        },
        "fb": {"kind": "furnace-board", "settings": {"fuse_amps": 5}},
    }
    assert found("overcurrent-protection", gas_and_cooling(parts=half)) == ()


def test_of_what_hangs_on_a_source_without_a_fuse_two_are_named() -> None:
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"limiting": "device"}},
        **{name: {"kind": "thermostat-heat-only", "label": name.upper()} for name in ("tc", "td", "te")},
    }
    (bare,) = found("overcurrent-protection", boiler_zone({"w6": "tc.R td.R", "w7": "td.R te.R"}, parts))
    assert bare.subjects == ("element:xf.secondary", "terminal:tc.R", "terminal:td.R", "terminal:te.R")
    assert "feeds R of TC and R of TD without a fuse" in bare.message


@pytest.mark.parametrize(("relays", "said"), [(1, "So has one other."), (2, "So have 2 others.")])
def test_coils_beside_the_one_with_the_most_volts_are_counted(relays: int, said: str) -> None:
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"va": 75, "regulation": 0.15}},
        **{f"k{number}": "isolation-relay" for number in range(relays)},
    }
    wires = {f"a{number}": f"tc.W k{number}.A1" for number in range(relays)}
    wires |= {f"c{number}": f"k{number}.A2 xf.C" for number in range(relays)}
    (high,) = found("coil-volts-high", boiler_zone(wires, parts))
    assert high.message.endswith(said)


def test_the_coil_that_is_named_has_the_most_volts_for_what_it_is_made_for() -> None:
    # Both have the same volts, and the one that is made for 20 V suffers more than the one for 21 V.
    small = {"va_sealed": 2.0, "va_inrush": 2.0}
    kinds = {name: changed(COIL, **small, volts=volts) for name, volts in (("a", 21), ("b", 20))}
    parts: Parts = {"xf": "control-transformer", "a": "a", "b": "b"}
    (high,) = found("coil-volts-high", sketch(parts, "xf.R a.A", "a.B xf.C", "xf.R b.A", "b.B xf.C"), **kinds)
    assert high.subjects == ("element:xf.secondary", "element:a.coil", "element:b.coil")
    assert high.evidence.more["volts_rated"] == 20


def test_a_contact_that_carries_too_much_is_shown_at_its_output() -> None:
    (valves,) = [each for each in rule_named("contact-overloaded").bad if each.name == "four-valves-on-one-output"]
    (loaded,) = found("contact-overloaded", valves.layout)
    assert loaded.evidence.probe is not None
    assert loaded.evidence.probe[0] == "tc.W"
    assert loaded.evidence.volts is not None
    assert loaded.evidence.volts > 20


def test_the_most_volt_amperes_are_those_of_the_table() -> None:
    assert (most_va(12.0), most_va(20.0), most_va(24.0), most_va(30.0)) == (60.0, 100.0, 100.0, 100.0)


def test_a_fuse_that_carries_more_than_its_rating_and_holds_is_told() -> None:
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"va": 75}},
        "fu": "inline-fuse",
        "la": {"kind": "lamp", "settings": {"va": 74.0}},
    }
    (held,) = found("overcurrent-protection", sketch(parts, "xf.R fu.A", "fu.B la.A", "la.B xf.C"), lamp=LAMP)
    assert held.subjects == ("element:fu.fuse",)
    assert 3.0 < held.evidence.more["amps"] < 1.35 * 3.0
    within = {**parts, "la": {"kind": "lamp", "settings": {"va": 71.0}}}
    assert found("overcurrent-protection", sketch(within, "xf.R fu.A", "fu.B la.A", "la.B xf.C"), lamp=LAMP) == ()


def test_a_source_that_is_overloaded_is_told_and_not_its_fuse() -> None:
    parts: Parts = {
        "xf": {"kind": "control-transformer", "settings": {"va": 50}},
        "fu": "inline-fuse",
        "la": {"kind": "lamp", "settings": {"va": 80.0}},
    }
    wires = ("xf.R fu.A", "fu.B la.A", "la.B xf.C")
    assert len(found("transformer-overloaded", sketch(parts, *wires), lamp=LAMP)) == 1
    assert found("overcurrent-protection", sketch(parts, *wires), lamp=LAMP) == ()
