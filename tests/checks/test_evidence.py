"""Where a finding has the meter put: on the screws that tell it from everything else."""

from __future__ import annotations

import pytest

from app.checks.registry import rule_named
from app.checks.rule import Bad
from app.checks.samples import heat_pump
from tests.checks.asking import asked
from tests.checks.bench import found


def bad(rule: str, name: str) -> Bad:
    (example,) = [each for each in rule_named(rule).bad if each.name == name]
    return example


def test_between_two_supplies_that_are_joined_a_meter_reads_next_to_nothing() -> None:
    # However many wires, splices and fuses lie between the two: from transformer to transformer.
    for name in ("supply-to-supply", "both-on-one-screw"):
        (joined,) = asked(rule_named("sources-joined"), bad("sources-joined", name).job())
        assert joined.evidence.probe == ("xf.R", "xf2.R")
        assert joined.evidence.volts == pytest.approx(0, abs=0.1)


def test_a_call_for_heat_is_shown_where_the_call_for_the_fan_does_not_come() -> None:
    # The thermostat calls for the fan with heat, so that G is hot as well; but so it is for the fan alone.
    furnace = heat_pump({"w8": "tc.W ah.W", "w11": "ou.W ah.W"}, {"ah": "furnace-board"})
    (together,) = found("heat-pump-with-furnace", furnace)
    assert together.evidence.probe == ("ah.W", "ah.C")
    assert together.evidence.volts == pytest.approx(25.2, abs=1.2)
