"""What no single call at 20 °C shows is found all the same: other weather, two calls at once, switches and safeties."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import check_layout, context_of
from app.checks.finding import Finding
from app.checks.samples import dual_fuel, gas_and_cooling, heat_pump
from app.job.model import Layout
from app.job.sketch import Parts, sketch_job

TWO_STAGES: Parts = {
    "fb": "furnace-board-2-stage",
    "tc": {"kind": "thermostat-dual-fuel", "settings": {"heat_stages": 2}},
}
STRAIGHT = {"w-defrost": "ou.W fb.W1", "w8": "tc.W1 fb.W1", "w12": "tc.W2 fb.W2"}
CROSSED = {"w-defrost": "ou.W fb.W1", "w8": "tc.W1 fb.W2", "w12": "tc.W2 fb.W1"}


def found(layout: Layout, rule: str) -> list[Finding]:
    findings = check_layout(sketch_job(layout), "as-left", builtin_catalogue()).findings
    return [finding for finding in findings if finding.rule == rule]


def test_stages_of_heat_that_are_crossed_are_seen_below_the_switch_over_temperature() -> None:
    assert check_layout(sketch_job(dual_fuel(STRAIGHT, TWO_STAGES)), "as-left", builtin_catalogue()).findings == ()
    (finding,) = found(dual_fuel(CROSSED, TWO_STAGES), "call-without-effect")
    assert finding.situation is not None
    assert finding.situation.outdoor_c < -1
    assert "°F outdoors" in finding.message, "the job measures in feet"
    assert finding.evidence.more["outdoor_c"] == finding.situation.outdoor_c


def test_a_short_that_only_two_calls_at_once_make_is_seen() -> None:
    # The relay of one thermostat leads the other one's call for cooling to common.
    relay = {"ir": "isolation-relay", "t2": "thermostat-heat-only"}
    wires = {"w9": "fb.R t2.R", "w10": "t2.W ir.A1", "w11": "ir.A2 fb.C", "w12": "fb.Y ir.COM", "w13": "ir.NO fb.C"}
    (finding,) = found(gas_and_cooling(wires, relay), "hot-to-common-short")
    assert finding.situation is not None
    assert {control for control, calls in finding.situation.calls.items() if calls} == {"tc", "t2"}
    assert "cool" in finding.message
    assert "heat" in finding.message
    assert finding.evidence.more["calls"] == {"tc": ["cool-1"], "t2": ["heat-1"]}


def test_a_short_that_only_defrost_makes_is_seen() -> None:
    # The output for tempering heat is landed on common: it gets hot only once the outdoor coil has frosted.
    (finding,) = found(heat_pump({"w11": "ou.W ou.C"}), "hot-to-common-short")
    assert finding.subjects == ("conductor:w11",)
    assert finding.evidence.more["with"] == {"ou.coil_cold": "closed"}


def test_a_relay_that_chatters_only_while_two_thermostats_call_is_seen() -> None:
    relay = {"ir": "isolation-relay", "ir2": "isolation-relay", "t2": "thermostat-heat-only"}
    wires = {
        "w9": "fb.R t2.R",
        "w10": "t2.W ir.A1",
        "w11": "ir.A2 fb.C",
        # The second relay opens its own coil, which both thermostats have to feed.
        "w12": "fb.Y ir.COM",
        "w13": "ir.NO ir2.COM",
        "w14": "ir2.NC ir2.A1",
        "w15": "ir2.A2 fb.C",
    }
    (finding,) = found(gas_and_cooling(wires, relay), "chatter")
    assert finding.subjects == ("element:ir2.coil",)
    assert finding.evidence.more["unsettled"] == "chatter"
    assert finding.situation is not None
    assert len(finding.situation.calls) == 2


def test_two_relays_that_lock_each_other_out_are_a_race_and_told_as_one() -> None:
    relays = {"ir": "isolation-relay", "ir2": "isolation-relay"}
    wires = {
        "w9": "fb.Y ir.COM",
        "w10": "fb.Y ir2.COM",
        "w11": "ir.NC ir2.A1",
        "w12": "ir2.NC ir.A1",
        "w13": "ir.A2 fb.C",
        "w14": "ir2.A2 fb.C",
    }
    (finding,) = found(gas_and_cooling(wires, relays), "chatter")
    assert finding.subjects == ("element:ir.coil", "element:ir2.coil")
    assert finding.evidence.more["unsettled"] == "race"
    assert "moves first" in finding.message


def test_outcomes_are_those_of_their_group_and_begin_with_the_plain_ones() -> None:
    context = context_of(sketch_job(dual_fuel()), "as-left", builtin_catalogue())
    first = [outcome.situations[0] for outcome in context.outcomes]
    assert first[0] == context.idle.situation
    assert sum(len(outcome.situations) for outcome in context.outcomes) == context.groups[0].made
    assert len({id(outcome.point) for outcome in context.outcomes}) == len(context.outcomes)
    assert context.outcomes_of("ou") == context.outcomes
    assert [point.situation.supply_percent for point in context.at_supply(88)] == [88.0] * len(context.points)


@pytest.mark.parametrize("rail", ["fb.C", "fb.R", "ou.C"])
def test_one_end_that_was_not_seen_on_a_rail_hides_no_finding(rail: str) -> None:
    unseen = {"w99": f"{rail} ?"}
    sound = check_layout(sketch_job(gas_and_cooling(unseen)), "as-left", builtin_catalogue()).findings
    assert [(each.severity, each.rule) for each in sound] == [("note", "conductor-end-unlanded")]
    for fault in ({"w5": None}, {"w6": None}, {"w8": None}, {"w9": "tc.R tc.W"}, {"w9": "fb.R fb.C"}):
        plain = check_layout(sketch_job(gas_and_cooling(fault)), "as-left", builtin_catalogue()).findings
        veiled = check_layout(sketch_job(gas_and_cooling({**fault, **unseen})), "as-left", builtin_catalogue()).findings
        assert plain
        assert [each.rule for each in veiled if each.severity != "note"] == [each.rule for each in plain]


def test_an_end_that_was_not_seen_on_a_call_silences_that_call_alone() -> None:
    # Neither heat nor cooling gets anywhere; what lies behind the lead of the call for heat nobody knows.
    layout = gas_and_cooling({"w4": "tc.W ?", "w5": None})
    (finding,) = found(layout, "call-without-effect")
    assert finding.subjects == ("part:tc", "terminal:tc.Y")
