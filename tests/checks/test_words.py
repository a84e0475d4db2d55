"""What a finding says besides naming what is wrong: figures, names and cures, in the words of the person who reads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from app.checks.finding import Finding
from app.checks.registry import rule_named
from app.checks.rule import EXAMPLE_LAYOUT
from app.checks.samples import boiler_zone
from app.job.model import Job
from tests.checks.asking import asked, asked_all

TWO_SECONDARIES: Mapping[str, Any] = {
    "title": "Transformer with two secondaries",
    "summary": "Invented for the test.",
    "terminals": {
        "R": {"function": "supply", "use": "24 V supply"},
        "S": {"function": "supply", "use": "24 V supply of the other secondary"},
        "C": {"function": "common", "use": "common"},
        "D": {"function": "common", "use": "common of the other secondary"},
    },
    "elements": {
        "first": {"is": "source", "between": ["R", "C"], "va": 40, "basis": "invented for the demo"},
        "second": {"is": "source", "between": ["S", "D"], "va": 40, "basis": "invented for the demo"},
        "link": {"is": "trace", "between": ["R", "S"]},
    },
}


def told(rule: str, example: str) -> Finding:
    """Return the one finding of a bad example."""
    (bad,) = [each for each in rule_named(rule).bad if each.name == example]
    (finding,) = asked(rule_named(rule), bad.job())
    return finding


@pytest.mark.parametrize(
    ("rule", "example", "words"),
    [
        # The letters of a float switch are A and B: what it is for says which safety it is.
        ("safety-bypassed", "jumper-across-the-float", "Float switch (the float) has a way around it"),
        ("call-without-effect", "cooling-lead-missing", "Nothing is landed on Y of Thermostat"),
        # Of two timers the longer one is all that the compressor has.
        ("short-cycle-unguarded", "half-a-minute-is-too-short", "may start again 30 s after it has stopped"),
        # A part may have several coils; what its kind calls this one is what stands on the chart and the ladder.
        ("coil-volts-high", "a-valve-and-a-relay-on-a-large-transformer", "The relay coil of Isolation relay has"),
        ("short-cycle-unguarded", "no-timer-anywhere", "may start again at once after it has stopped"),
    ],
)
def test_a_finding_says_what_a_person_asks_next(rule: str, example: str, words: str) -> None:
    assert words in told(rule, example).message


def test_a_setting_is_called_what_its_kind_calls_it() -> None:
    finding = told("reversing-valve-inverted", "unit-energised-in-heating")
    assert "To put it right, set the mode in which the equipment's reversing valve is energised to" in finding.message


def test_each_part_on_the_way_that_keeps_no_time_is_said_to_keep_none() -> None:
    finding = told("short-cycle-unguarded", "a-relay-that-keeps-no-time")
    assert [words.partition(" keeps")[0] for words in finding.assumes] == [
        "Isolation relay",
        "Thermostat, heating and cooling, contacts only",
    ]


@pytest.mark.parametrize("second", [["S", "D"], ["R", "D"]], ids=["joined-by-a-trace", "on-one-terminal"])
def test_secondaries_that_are_joined_inside_their_part_are_told_by_name(second: list[str]) -> None:
    elements = {**TWO_SECONDARIES["elements"], "second": {**TWO_SECONDARIES["elements"]["second"], "between": second}}
    layout = boiler_zone({"w6": "q.R t2.R"}, {"q": "two", "t2": "thermostat-heat-only"})
    kinds = {"two": {**TWO_SECONDARIES, "elements": elements}}
    job = Job.model_validate({"title": "Trial", "layouts": {EXAMPLE_LAYOUT: layout}, "kinds": kinds})
    (finding,) = [each for each in asked_all(job) if each.rule in ("sources-joined", "rule-error")]
    assert finding.subjects == ("element:q.first", "element:q.second")
    assert finding.fix is None
