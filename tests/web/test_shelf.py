"""What was worked out is kept for the views that follow a change, and never for more jobs than the shelf has places."""

from __future__ import annotations

from flask import Flask

from app.catalogue.opening import Opened
from app.catalogue.structure import catalogue_for
from app.job.reading import job_from_document
from app.web.worked import Shelf, Worked
from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def some() -> Worked:
    job = job_from_document(gas_and_cooling())
    return Worked(Opened(job, catalogue_for(job)))


def test_a_revision_is_found_again_and_no_other() -> None:
    shelf, worked = Shelf(), some()
    shelf.keep("a", 3, worked)

    assert shelf.find("a", 3) is worked
    assert shelf.find("a", 2) is None
    assert shelf.find("b", 3) is None


def test_what_was_asked_for_least_lately_makes_room() -> None:
    shelf, worked = Shelf(places=2), some()
    shelf.keep("a", 1, worked)
    shelf.keep("b", 1, worked)
    shelf.find("a", 1)
    shelf.keep("c", 1, worked)

    assert shelf.find("a", 1) is worked
    assert shelf.find("b", 1) is None
    assert len(shelf) == 2


def test_one_busy_job_does_not_push_the_others_off() -> None:
    shelf, worked = Shelf(places=4), some()
    shelf.keep("quiet", 1, worked)
    for revision in range(1, 50):
        shelf.keep("busy", revision, worked)

    assert shelf.find("quiet", 1) is worked
    assert len(shelf) <= 3


def test_a_report_is_made_once() -> None:
    worked = some()

    assert worked.report("as-left") is worked.report("as-left")


def test_the_views_after_a_change_use_what_the_change_worked_out(app: Flask, api: Api, job: str) -> None:
    api.patch(job, [{"op": "replace", "path": "/title", "value": "Changed"}], 1)

    kept = app.extensions["rungwright"].shelf.find(job, 2)
    assert kept is not None
    assert kept.job.title == "Changed"
    assert app.extensions["rungwright"].worked(job) == (2, kept)


def test_many_jobs_leave_the_shelf_small(app: Flask, api: Api) -> None:
    for _ in range(12):
        api.get(f"/api/jobs/{api.create(gas_and_cooling())}/findings")

    assert len(app.extensions["rungwright"].shelf) == 8
