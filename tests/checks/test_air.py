"""Air that stands still: told of a compressor as that, and of other heat as what it is."""

from __future__ import annotations

import pytest

from app.checks.registry import rule_named
from app.checks.rule import Bad
from app.checks.samples import gas_and_cooling
from tests.checks.asking import asked
from tests.checks.bench import found


@pytest.mark.parametrize("example", rule_named("electric-heat-without-fan").bad, ids=lambda example: example.name)
def test_electric_heat_without_a_fan_is_no_compressor_without_one(example: Bad) -> None:
    assert len(asked(rule_named("electric-heat-without-fan"), example.job())) == 1
    assert asked(rule_named("compressor-without-indoor-fan"), example.job()) == ()


def test_a_compressor_without_its_fan_is_told_once_however_much_it_runs_with_it() -> None:
    (stranded,) = found("compressor-without-indoor-fan", gas_and_cooling({"w6": None}))
    assert stranded.subjects == ("part:ou", "part:fb")
