"""The page of every kind has a sound wiring, in which nothing is found, and one in which its finding stands."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.structure import catalogue_for
from app.checks.check import LayoutReport, check_layout
from app.checks.registry import all_rules
from app.checks.shown.kinds import Wiring, bad_for, faulty_wirings, good_for, silent_wirings
from app.checks.shown.sample import Sample
from app.checks.shown.samples import SAMPLES
from app.job.sketch import sketch_job

KINDS = sorted(builtin_catalogue())
SHOWN_GOOD = {wiring.name: wiring for wiring in map(good_for, KINDS) if wiring is not None}
SHOWN_BAD = {(w.rule, w.name): w for w in map(bad_for, KINDS) if w is not None}


def report(wiring: Wiring) -> LayoutReport:
    job = sketch_job(wiring.layout)
    return check_layout(job, "as-left", catalogue_for(job))


@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_is_shown_well_and_badly_wired(kind: str) -> None:
    good, bad = good_for(kind), bad_for(kind)
    assert good is not None
    assert kind in {part.kind for part in good.layout.parts.values()}
    assert bad is not None
    assert kind in {part.kind for part in bad.layout.parts.values()}


@pytest.mark.parametrize("name", sorted(SHOWN_GOOD))
def test_nothing_grave_is_found_in_what_is_shown_as_sound(name: str) -> None:
    found = report(SHOWN_GOOD[name]).findings
    assert [(each.severity, each.rule) for each in found if each.severity != "note"] == []


@pytest.mark.parametrize(("rule", "name"), sorted(SHOWN_BAD))
def test_the_finding_that_is_named_stands_in_what_is_shown_as_bad(rule: str, name: str) -> None:
    assert rule in {each.rule for each in report(SHOWN_BAD[rule, name]).findings}


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.name)
def test_every_sample_is_sound_until_its_one_change(sample: Sample) -> None:
    good = Wiring(sample.name, sample.good(), frozenset())
    assert [each.rule for each in report(good).findings if each.severity != "note"] == []
    bad = Wiring(sample.fault, sample.bad(), frozenset())
    assert sample.rule in {each.rule for each in report(bad).findings}


def test_the_smallest_comes_first() -> None:
    sizes = [len(wiring.layout.parts) for wiring in faulty_wirings()]
    assert sizes == sorted(sizes)


def test_what_is_shown_as_sound_is_the_usual_way_and_no_near_miss() -> None:
    near_misses = {(rule.name, good.name) for rule in all_rules() for good in rule.good if good.near_miss}
    from_rules = {(wiring.source, wiring.name) for wiring in silent_wirings() if wiring.source}
    assert ("overcurrent-protection", "fuse-in-the-lead") in from_rules
    assert from_rules & near_misses == set()


def test_no_kind_is_shown_that_only_an_example_has() -> None:
    for wiring in (*silent_wirings(), *faulty_wirings()):
        assert {part.kind for part in wiring.layout.parts.values()} - {"unknown"} <= set(KINDS), wiring.name
