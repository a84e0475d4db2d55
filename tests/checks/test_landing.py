"""Dangers that one more conductor would bring about, each held against what the check then finds."""

from __future__ import annotations

from app.checks.facts.landing import Landing, dangers_of
from app.checks.samples import gas_and_cooling, two_transformers
from app.job.model import Conductor, Layout
from tests.checks.bench import context, found

HELD_BY_A_FLOAT = gas_and_cooling(
    {"k1": "fb.R fl.A", "k2": "fl.B ir.A1", "k3": "ir.A2 fb.C", "k4": "fb.R ir.NO", "k5": "fb.C ir.NC"},
    {"fl": "float-switch", "ir": "isolation-relay"},
)
"""A float holds a relay in; when it opens, the common point of the relay leads to C instead of R."""


def dangers(layout: Layout, near: str, far: str) -> list[str]:
    return list(dangers_of(context(layout), Landing(near, far)))


def landed(layout: Layout, near: str, far: str) -> Layout:
    return layout.model_copy(update={"conductors": {**layout.conductors, "new": Conductor(ends=(near, far))}})


def test_the_common_of_one_source_on_the_supply_of_another_ties_the_two() -> None:
    apart = two_transformers()
    assert found("sources-joined", apart) == ()
    assert len(found("sources-joined", landed(apart, "fb.C", "tc.RC"))) == 1
    for near, far in (("fb.C", "tc.RC"), ("tc.RC", "fb.C")):
        assert any("Ties two transformers together" in said for said in dangers(apart, near, far))


def test_the_commons_of_two_sources_may_meet() -> None:
    assert dangers(two_transformers(), "fb.C", "ou.C") == []


def test_a_short_that_only_an_open_float_makes_is_told_where_a_relay_never_joins_both_sides() -> None:
    # Were both contacts of the relay closed at once, R and C would be one already, but they never are.
    assert found("hot-to-common-short", HELD_BY_A_FLOAT) == ()
    assert len(found("hot-to-common-short", landed(HELD_BY_A_FLOAT, "ir.COM", "xf.R"))) == 1
    said = dangers(HELD_BY_A_FLOAT, "ir.COM", "xf.R")
    assert any(each.startswith("Hot to common") and "float of Float switch open" in each for each in said)


def test_a_short_that_an_open_float_makes_already_is_not_told_of_another_landing() -> None:
    assert dangers(landed(HELD_BY_A_FLOAT, "ir.COM", "xf.R"), "fb.R", "tc.R") == []
