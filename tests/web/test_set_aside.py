"""Findings set aside over the web: one patch that is undone like any other, told alike by every answer."""

from __future__ import annotations

import copy
from typing import Any

from tests.web.api import Api
from tests.web.sample import gas_and_cooling, shorted

RULE = "conductor-end-unlanded"


def loose(*, with_records: bool = False) -> dict[str, Any]:
    """Return a sound job with a conductor of which one end is landed nowhere."""
    job = copy.deepcopy(gas_and_cooling())
    (layout,) = job["layouts"].values()
    layout["conductors"]["w20"] = {"ends": ["fb.G", None]}
    return {**job, "records": {}} if with_records else job


def row_of(api: Api, job: str, rule: str = RULE) -> dict[str, Any]:
    """Return the row of a rule as the bench has it."""
    rows = api.get(f"/jobs/{job}/shown").get_json()["words"]["findings"]
    (found,) = [row for row in rows if row["rule"] == rule]
    return dict(found)


def with_reason(operations: list[dict[str, Any]], reason: str) -> list[dict[str, Any]]:
    """Return the operations of a row as the bench sends them."""
    filled = copy.deepcopy(operations)
    for operation in filled:
        if operation["op"] == "add" and "reason" in operation["value"]:
            operation["value"]["reason"] = reason
    return filled


def aside(api: Api, job: str, rule: str = RULE, reason: str = "the owner knows") -> Any:
    """Set a finding aside and return the reply."""
    revision = int(api.get(f"/api/jobs/{job}").headers["ETag"].strip('"'))
    reply = api.patch(job, with_reason(row_of(api, job, rule)["set_aside"], reason), revision)
    assert reply.status_code == 200, reply.text
    return reply.get_json()


def test_it_is_one_patch_that_its_inverse_undoes(api: Api) -> None:
    for document in (loose(), loose(with_records=True)):
        job = api.create(document)
        before = api.document(job)
        reply = aside(api, job)
        record = api.document(job)["records"]["accepted"][0]
        assert (record["rule"], record["reason"]) == (RULE, "the owner knows")
        assert row_of(api, job)["aside"]
        assert api.patch(job, reply["inverse"], reply["revision"]).status_code == 200
        assert api.document(job) == before


def test_every_answer_says_the_same_of_it(api: Api) -> None:
    job = api.create(loose())
    aside(api, job)
    document = api.document(job)
    for answer in (
        api.get(f"/api/jobs/{job}/findings").get_json(),
        api.post("/api/check", document).get_json(),
    ):
        (layout,) = answer["layouts"].values()
        (accepted,) = layout["accepted"]
        assert (accepted["rule"], accepted["reason"]) == (RULE, "the owner knows")
        assert (accepted["rule"], accepted["subjects"]) in [
            (one["rule"], one["subjects"]) for one in layout["findings"]
        ]
        assert "back" not in layout
    words = api.get(f"/jobs/{job}/shown").get_json()["words"]
    assert "warning" not in words["counts"]


def test_a_job_without_records_is_answered_as_ever(api: Api) -> None:
    job = api.create(loose())
    (layout,) = api.get(f"/api/jobs/{job}/findings").get_json()["layouts"].values()
    assert set(layout) == {"findings", "coverage"}


def test_what_was_moved_is_back_with_the_old_reason_and_can_be_set_aside_anew(api: Api) -> None:
    job = api.create(loose())
    reply = aside(api, job)
    path = f"/layouts/{next(iter(api.document(job)['layouts']))}/conductors/w20/ends/0"
    moved = api.patch(job, [{"op": "replace", "path": path, "value": "fb.Y"}], reply["revision"])
    assert moved.status_code == 200
    (layout,) = api.get(f"/api/jobs/{job}/findings").get_json()["layouts"].values()
    assert [(one["why"], one["reason"]) for one in layout["back"]] == [("w20 was moved", "the owner knows")]
    assert "accepted" not in layout
    assert row_of(api, job)["back"] == "w20 was moved"
    aside(api, job, reason="still known")
    assert [one["reason"] for one in api.document(job)["records"]["accepted"]] == ["still known"]
    assert row_of(api, job)["aside"]


def test_it_is_taken_up_again_by_hand(api: Api) -> None:
    job = api.create(loose())
    reply = aside(api, job)
    row = row_of(api, job)
    taken = api.patch(job, row["take_up"], reply["revision"])
    assert taken.status_code == 200
    assert api.document(job)["records"]["accepted"] == []
    assert not row_of(api, job)["aside"]


def test_records_that_moved_meanwhile_are_not_taken_out_by_place(api: Api) -> None:
    job = api.create(loose())
    reply = aside(api, job)
    row = row_of(api, job)
    other = {"rule": "chatter", "subjects": ["part:fb"], "reason": "elsewhere"}
    first = api.patch(job, [{"op": "add", "path": "/records/accepted/0", "value": other}], reply["revision"])
    late = api.patch(job, row["take_up"], first.get_json()["revision"])
    assert late.status_code == 409
    assert len(api.document(job)["records"]["accepted"]) == 2


def test_a_danger_stays_open(api: Api) -> None:
    job = api.create(shorted())
    aside(api, job, "hot-to-common-short", "the breaker is locked")
    row = row_of(api, job, "hot-to-common-short")
    assert (row["aside"], row["reason"]) == (False, "the breaker is locked")
    (layout,) = api.get(f"/api/jobs/{job}/findings").get_json()["layouts"].values()
    assert [one["still_open"] for one in layout["accepted"]] == [True]
    assert "1 danger" in api.get(f"/jobs/{job}/shown").get_json()["words"]["counts"]
