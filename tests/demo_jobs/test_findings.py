"""What the check says of each demo: of the faulty ones the fault that was built in, of the others nothing grave."""

from __future__ import annotations

import json

import pytest

from app.catalogue.structure import catalogue_for
from app.checks.check import check_layout
from app.job.patch import apply_patch
from app.job.reading import job_from_document
from tests.demo_jobs.demos import BUILT_IN, SOUND, demo, grave, layouts, report, text_of


@pytest.mark.parametrize(("name", "layout"), [each for each in layouts() if each[0] in SOUND])
def test_a_sound_demo_has_no_danger_and_no_warning(name: str, layout: str) -> None:
    assert grave(report(name, layout)) == []


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_a_faulty_demo_has_exactly_the_fault_that_was_built_in(name: str) -> None:
    severity, rule, subject = BUILT_IN[name]
    assert list(demo(name).job.layouts) == ["as-left"]
    found = report(name, "as-left")
    assert grave(found) == [(severity, rule)]
    assert subject in found.findings[0].subjects


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_the_cure_leaves_a_sound_job(name: str) -> None:
    cure = report(name, "as-left").findings[0].fix
    assert cure is not None
    cured = job_from_document(apply_patch(json.loads(text_of(name)), cure).document)
    assert grave(check_layout(cured, "as-left", catalogue_for(cured))) == []


def test_one_of_the_built_in_faults_at_least_is_a_danger() -> None:
    assert "danger" in {severity for severity, _, _ in BUILT_IN.values()}
