"""What the checks said is taken over from one revision to the next where only places differ, and from no other."""

from __future__ import annotations

from typing import Any

import pytest

from app.catalogue.opening import Opened
from app.catalogue.structure import catalogue_for
from app.checks.answers import report_document
from app.job.change import change_job
from app.job.model import Job
from app.web.worked import Worked
from tests.demo_jobs.demos import NAMES, demo

JOB = "bakery-flat-heat-pump"
LAYOUT = "/layouts/as-left"
RECORD = {"rule": "signal-lead", "subjects": ["conductor:w17", "conductor:w9", "terminal:ou.L"], "reason": "as drawn"}


def worked(job: Job) -> Worked:
    return Worked(Opened(job, catalogue_for(job)))


def changed(job: Job, *operations: dict[str, Any]) -> Job:
    return change_job(job, operations, catalogue_for).job


def add(path: str, value: object) -> dict[str, Any]:
    return {"op": "add", "path": path, "value": value}


def first_part(job: Job) -> str:
    return next(iter(job.layouts["as-left"].parts))


@pytest.mark.parametrize("name", NAMES)
def test_a_part_that_was_moved_leaves_what_the_checks_said(name: str) -> None:
    job = demo(name).job
    layout = job.default_layout()
    before = worked(job)
    said = before.report(layout)
    moved = changed(job, *(add(f"/layouts/{layout}/parts/{part}/at", [7, 7]) for part in job.layouts[layout].parts))
    after = worked(moved)
    after.take_over(before)
    assert after.report(layout).coverage is said.coverage
    assert report_document(after.report(layout)) == report_document(worked(moved).report(layout))
    assert after.circuit(layout).layout is after.job.layouts[layout]


CHANGES = {
    "an end": add(f"{LAYOUT}/conductors/CONDUCTOR/ends/1", None) | {"op": "replace"},
    "a length": add(f"{LAYOUT}/conductors/CONDUCTOR/length_m", 90.0),
    "a colour": add(f"{LAYOUT}/conductors/CONDUCTOR/insulation", "GNYE"),
    "a note": add(f"{LAYOUT}/conductors/CONDUCTOR/note", "said"),
    "a label": add(f"{LAYOUT}/parts/PART/label", "Called otherwise"),
    "a place": add(f"{LAYOUT}/parts/PART/place", "elsewhere"),
    "an air stream": add(f"{LAYOUT}/parts/PART/air", "upstairs"),
    "what was set aside": add("/records", {"accepted": [RECORD]}),
    "units": add("/settings", {"units": "si"}),
    "another layout": add("/layouts/as-found", {}),
}


@pytest.mark.parametrize("change", CHANGES)
def test_whatever_else_was_changed_is_checked_anew(change: str) -> None:
    job = demo(JOB).job
    operation = CHANGES[change]
    names = {"CONDUCTOR": next(iter(job.layouts["as-left"].conductors)), "PART": first_part(job)}
    path = operation["path"]
    for word, name in names.items():
        path = path.replace(word, name)
    before = worked(job)
    said = before.report("as-left")
    after = worked(changed(job, {**operation, "path": path}, add(f"{LAYOUT}/parts/{names['PART']}/at", [7, 7])))
    after.take_over(before)
    assert after.report("as-left").coverage is not said.coverage
    assert report_document(after.report("as-left")) == report_document(worked(after.job).report("as-left"))


def test_a_setting_that_python_holds_for_equal_is_another() -> None:
    job = demo(JOB).job
    part = first_part(job)
    one, true = (
        job.model_copy(
            update={
                "layouts": {
                    "as-left": job.layouts["as-left"].model_copy(
                        update={
                            "parts": {
                                **job.layouts["as-left"].parts,
                                part: job.layouts["as-left"].parts[part].model_copy(update={"settings": {"x": value}}),
                            }
                        }
                    )
                }
            }
        )
        for value in (1, True)
    )
    assert one == true
    before, after = (Worked(Opened(each, demo(JOB).catalogue)) for each in (one, true))
    said = before.report("as-left")
    after.take_over(before)
    assert after.report("as-left").coverage is not said.coverage
