"""A whole check: one order, one finding a fault, no rule that hides another, and what was looked at."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.check import RULE_ERROR, Coverage, check_layout, context_of, coverage_of, findings_of
from app.checks.finding import SEVERITIES
from app.checks.registry import all_rules, rule_named
from app.checks.samples import boiler_zone, dual_fuel, gas_and_cooling, heat_pump, two_transformers
from app.job.model import Layout
from app.job.sketch import sketch, sketch_job

MANY_FAULTS = gas_and_cooling({"w8": None, "w9": "fb.C -", "w10": "tc.G fb.L1", "w11": "tc.G -"})


def check_of(layout: Layout) -> list[str]:
    """Return the rules that speak of a layout, in order."""
    return [finding.rule for finding in check_layout(sketch_job(layout), "as-left", builtin_catalogue()).findings]


def test_findings_come_worst_first_and_then_by_rule_and_subject() -> None:
    findings = check_layout(sketch_job(MANY_FAULTS), "as-left", builtin_catalogue()).findings
    order = [(SEVERITIES.index(each.severity), each.rule, each.subjects) for each in findings]
    assert order == sorted(order)
    assert len({each.severity for each in findings}) > 1


def test_a_rule_that_fails_does_not_hide_the_others() -> None:
    def fails(context: object) -> list[object]:
        raise ZeroDivisionError("no reason")

    context = context_of(sketch_job(MANY_FAULTS), "as-left", builtin_catalogue())
    broken = replace(rule_named("chatter"), check=fails)  # type: ignore[arg-type]
    rules = [broken if rule.name == "chatter" else rule for rule in all_rules()]
    findings = findings_of(context, rules)
    assert [each.subjects for each in findings if each.rule == RULE_ERROR] == [("rule:chatter",)]
    assert {each.rule for each in findings} > {RULE_ERROR, "foreign-terminal-joined", "common-path-missing"}


def test_the_same_fault_in_several_calls_is_one_finding() -> None:
    assert check_of(gas_and_cooling({"w9": "fb.R fb.C"})) == ["hot-to-common-short"]


def test_coverage_tells_groups_and_situations() -> None:
    two_houses = sketch(
        {"xf": "control-transformer", "tc": "thermostat-heat-only", "zv": "zone-valve", "hu": "humidifier"},
        "xf.R tc.R",
        "tc.W zv.M1",
        "zv.M2 xf.C",
    )
    coverage = check_layout(sketch_job(two_houses), "as-left", builtin_catalogue()).coverage
    # One air. Idle and heat at three supplies; with the mode off idle alone, with the mode at heat idle and heat.
    assert coverage == Coverage(groups=1, situations_made=6 + 1 + 2, situations_possible=6 + 1 + 2)


def test_coverage_tells_how_much_was_left_out() -> None:
    thermostats = {f"t{at}": "thermostat-heat-pump" for at in range(9)}
    crowd = sketch({"xf": "control-transformer", **thermostats}, *(f"xf.R {each}.R" for each in thermostats))
    coverage = coverage_of(context_of(sketch_job(crowd), "as-left", builtin_catalogue()))
    assert coverage.situations_made == 2000
    assert coverage.situations_possible > 4000


def test_parts_without_a_conductor_say_nothing() -> None:
    for sound in (gas_and_cooling(), heat_pump(), dual_fuel()):
        assert check_of(Layout(parts=sound.parts)) == []


def test_an_empty_layout_has_nothing_to_say() -> None:
    assert check_of(Layout()) == []


def test_taking_away_any_one_conductor_of_a_sound_system_is_told() -> None:
    quiet = []
    for sound in (gas_and_cooling(), heat_pump(), dual_fuel(), two_transformers(), boiler_zone()):
        assert check_of(sound) == []
        for name in sound.conductors:
            left = {each: conductor for each, conductor in sound.conductors.items() if each != name}
            if not check_of(sound.model_copy(update={"conductors": left})):
                quiet.append(sound.conductors[name].ends)
    assert quiet == []


def test_one_finding_for_each_missing_conductor_of_a_dual_fuel_system() -> None:
    sound = dual_fuel()
    for name in sound.conductors:
        left = {each: conductor for each, conductor in sound.conductors.items() if each != name}
        assert len(check_of(sound.model_copy(update={"conductors": left}))) == 1, sound.conductors[name].ends


def test_an_unknown_part_is_not_blamed() -> None:
    layout = gas_and_cooling({"w7": "fb.Y q.1", "w8": "fb.C q.2"}, {"q": "unknown"})
    assert check_of(layout) == ["part-unidentified"]


def test_a_short_is_told_although_something_unseen_hides_its_volts() -> None:
    layout = dual_fuel({"w11": "fb.R fb.C", "w12": "fb.C ?"})
    assert "hot-to-common-short" in check_of(layout)


def next_to_a_short(there: Layout) -> Layout:
    """Return two houses: a furnace with a short, and another system."""
    short, next_door = (layout.model_dump(by_alias=True) for layout in (gas_and_cooling({"w9": "fb.R fb.C"}), there))
    parts = {f"n{name}": {**part, "air": "next door"} for name, part in next_door["parts"].items()}
    conductors = {
        f"n{name}": {**conductor, "ends": [f"n{end}" for end in conductor["ends"]]}
        for name, conductor in next_door["conductors"].items()
    }
    return Layout.model_validate(
        {"parts": {**short["parts"], **parts}, "conductors": {**short["conductors"], **conductors}}
    )


@pytest.mark.parametrize(
    ("there", "told"),
    [
        (gas_and_cooling({"w5": None}), "call-without-effect"),
        (heat_pump({"w11": None}), "defrost-without-tempering"),
    ],
    ids=["cooling", "defrost"],
)
def test_a_short_in_one_house_does_not_hide_what_is_wrong_in_the_next(there: Layout, told: str) -> None:
    assert check_of(next_to_a_short(there)) == ["hot-to-common-short", told]


def two_zones_on_a_boiler(*wires: str) -> Layout:
    return sketch(
        {
            "xf": "control-transformer",
            "bc": "boiler-control",
            "za": "zone-valve",
            "zb": "zone-valve",
            "ta": "thermostat-heat-only",
            "tb": "thermostat-heat-only",
        },
        *("xf.R ta.R", "xf.R tb.R", "ta.W za.M1", "tb.W zb.M1", "za.M2 xf.C", "zb.M2 xf.C"),
        *("za.E1 zb.E1", "za.E2 zb.E2"),
        *wires,
    )


def test_two_thermostats_behind_one_missing_wire_are_one_finding() -> None:
    sound = two_zones_on_a_boiler("za.E1 bc.T1", "za.E2 bc.T2")
    assert check_of(sound) == []
    report = check_layout(sketch_job(two_zones_on_a_boiler("za.E1 bc.T1")), "as-left", builtin_catalogue())
    (finding,) = report.findings
    assert finding.rule == "call-without-effect"
    assert "heat 1 at Thermostat, heat only (ta) or Thermostat, heat only (tb)" in finding.message
    assert {subject for subject in finding.subjects if subject.startswith("terminal:")} <= {
        "terminal:za.E1",
        "terminal:zb.E1",
        "terminal:za.E2",
        "terminal:zb.E2",
    }


def test_a_relay_whose_contact_leads_nowhere_is_told_at_the_relay() -> None:
    layout = gas_and_cooling({"w7": "fb.Y ir.A1", "w9": "ir.A2 fb.C", "w10": "fb.R ir.COM"}, {"ir": "isolation-relay"})
    (finding,) = check_layout(sketch_job(layout), "as-left", builtin_catalogue()).findings
    assert finding.subjects == ("part:ir", "terminal:ir.NO")


def test_what_a_fan_call_starts_instead_is_told_once() -> None:
    crossed = gas_and_cooling({"w5": "fb.Y tc.G", "w6": "fb.G tc.Y"})
    # Besides what runs, a note on the two letters: it names the leads that are crossed.
    assert check_of(crossed) == ["load-without-call", "letter-differs"]


def test_a_thermostat_on_a_call_for_common_is_told_beside_the_short() -> None:
    crossed = heat_pump({"w4": "ah.C tc.W", "w8": "tc.C ah.W1"})
    assert check_of(crossed) == ["hot-to-common-short", "thermostat-without-common"]
