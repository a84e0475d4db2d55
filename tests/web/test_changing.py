"""A kept job changes by a JSON Patch on the revision that it names, whole or not at all."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.api import PATCH_JSON, Api
from tests.web.sample import gas_and_cooling, shorted

COMPRESSOR_LEAD = "/layouts/as-left/conductors/w7/ends/0"
FURNACE = "/layouts/as-left/parts/fb"
TAKE_OFF = [{"op": "replace", "path": COMPRESSOR_LEAD, "value": None}]
SHORT = [{"op": "add", "path": "/layouts/as-left/conductors/w-short", "value": {"ends": ["fb.R", "fb.C"]}}]


def rename(title: str) -> list[dict[str, Any]]:
    return [{"op": "replace", "path": "/title", "value": title}]


def test_a_change_is_kept_and_makes_the_next_revision(api: Api, job: str) -> None:
    reply = api.patch(job, TAKE_OFF, 1)

    assert reply.status_code == 200
    assert reply.headers["ETag"] == '"2"'
    assert reply.get_json()["revision"] == 2
    assert api.document(job)["layouts"]["as-left"]["conductors"]["w7"]["ends"] == [None, "ou.Y"]


def test_the_reply_says_what_the_change_does(api: Api, job: str) -> None:
    whole = api.get(f"/api/jobs/{job}/solution?call=tc=cool-1").get_json()
    reply = api.patch(job, TAKE_OFF, 1, query="?call=tc=cool-1").get_json()

    assert {"part": "ou", "effect": "compressor"} in whole["effects"]
    assert {"part": "ou", "effect": "compressor"} not in reply["solution"]["effects"]
    assert 'data-conductor="w7"' in reply["drawing"]
    assert any("w7" in subject for finding in reply["findings"] for subject in finding["subjects"])


def test_the_reply_is_what_the_views_say_afterwards(api: Api, job: str) -> None:
    reply = api.patch(job, SHORT, 1, query="?layout=as-left&call=tc=heat-1").get_json()

    findings = api.get(f"/api/jobs/{job}/findings").get_json()["layouts"]["as-left"]["findings"]
    assert reply["findings"] == findings
    assert "hot-to-common-short" in {finding["rule"] for finding in findings}
    assert reply["solution"] == api.get(f"/api/jobs/{job}/solution?call=tc=heat-1").get_json()
    assert reply["drawing"] == api.get(f"/api/jobs/{job}/drawing.svg?call=tc=heat-1").text


def test_the_inverse_undoes_and_its_inverse_does_again(api: Api, job: str) -> None:
    before = api.document(job)
    done = api.patch(job, [*SHORT, *TAKE_OFF], 1).get_json()
    after = api.document(job)

    undone = api.patch(job, done["inverse"], 2).get_json()
    assert api.document(job) == before
    api.patch(job, undone["inverse"], 3)
    assert api.document(job) == after


def test_an_undo_after_someone_elses_change_is_refused_and_said(api: Api, job: str) -> None:
    inverse = api.patch(job, rename("Mine"), 1).get_json()["inverse"]
    api.patch(job, rename("Theirs"), 2)

    reply = api.patch(job, inverse, 3)

    assert reply.status_code == 409
    assert reply.get_json()["pointer"] == "/title"
    assert "Theirs" in reply.get_json()["detail"]
    assert api.document(job)["title"] == "Theirs"


def test_a_change_must_name_its_revision(api: Api, job: str) -> None:
    reply = api.patch(job, TAKE_OFF)

    assert reply.status_code == 428
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"1"'


@pytest.mark.parametrize("said", ["7", 'W/"1"', '"one"', '"1", "2"'], ids=["bare", "weak", "word", "two"])
def test_a_revision_that_cannot_be_read_is_refused(api: Api, job: str, said: str) -> None:
    assert api.patch(job, TAKE_OFF, headers={"If-Match": said}).status_code == 400


def test_a_stale_change_is_refused_with_what_it_missed(api: Api, job: str) -> None:
    api.patch(job, rename("First"), 1)
    api.patch(job, rename("Second"), 2)

    reply = api.patch(job, TAKE_OFF, 1)

    assert reply.status_code == 412
    assert reply.headers["ETag"] == '"3"'
    missed = reply.get_json()["missed"]
    assert missed == [{"revision": 2, "patch": rename("First")}, {"revision": 3, "patch": rename("Second")}]
    assert api.document(job)["layouts"] == gas_and_cooling()["layouts"]


def test_a_repeated_key_returns_the_first_reply_and_changes_nothing(api: Api, job: str) -> None:
    first = api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"})
    again = api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"})

    assert (again.status_code, again.data, again.headers["ETag"]) == (200, first.data, first.headers["ETag"])
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"2"'
    assert len(api.get(f"/api/jobs/{job}/history").get_json()["changes"]) == 1


def test_a_repeated_key_is_answered_also_after_later_changes(api: Api, job: str) -> None:
    first = api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"})
    api.patch(job, rename("Later"), 2, headers={"Idempotency-Key": "k-2"})

    assert api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"}).data == first.data


def test_a_key_names_one_change_only(api: Api, job: str) -> None:
    api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"})

    reply = api.patch(job, TAKE_OFF, 2, headers={"Idempotency-Key": "k-1"})

    assert reply.status_code == 422
    assert reply.get_json()["code"] == "idempotency-key-reused"


def test_a_key_belongs_to_one_job(api: Api, job: str) -> None:
    other = api.create(gas_and_cooling())
    api.patch(job, SHORT, 1, headers={"Idempotency-Key": "k-1"})

    assert api.patch(other, TAKE_OFF, 1, headers={"Idempotency-Key": "k-1"}).status_code == 200


@pytest.mark.parametrize(
    ("operations", "status", "pointer"),
    [
        ([{"op": "add", "path": FURNACE, "value": {"kind": "splice"}}], 409, FURNACE),
        ([{"op": "test", "path": "/title", "value": "Other"}], 409, "/title"),
        ([{"op": "remove", "path": "/layouts/as-left/parts/ou"}], 409, "/layouts/as-left/parts/ou"),
        ([{"op": "replace", "path": COMPRESSOR_LEAD, "value": "fb.Q"}], 422, COMPRESSOR_LEAD),
        ([{"op": "replace", "path": "/nothing/here", "value": 1}], 422, "/nothing"),
        ([{"op": "turn", "path": "/title"}], 422, "/0/op"),
        ([{"op": "add", "path": "title", "value": 1}], 422, "/0/path"),
        ({"op": "remove", "path": "/title"}, 422, ""),
        ([{"op": "test", "path": "/title", "value": "Sketch"}] * 501, 413, ""),
        ([{"op": "replace", "path": "/notes", "value": "x" * 257 * 1024}], 413, ""),
        ([{"op": "remove", "path": "/title"}], 422, ""),
    ],
    ids=[
        "id-taken", "test-failed", "part-still-landed", "no-such-terminal", "no-such-place", "no-such-operation",
        "bad-pointer", "no-list", "too-many-operations", "too-large", "title-missing",
    ],
)  # fmt: skip
def test_a_change_that_is_not_right_is_refused_whole(
    api: Api, job: str, operations: object, status: int, pointer: str
) -> None:
    with_a_good_start = [*rename("Half applied"), *operations] if isinstance(operations, list) else operations
    for sent in (operations, with_a_good_start):
        reply = api.patch(job, sent, 1)
        assert reply.status_code == status
        assert api.document(job) == gas_and_cooling()
    assert api.patch(job, operations, 1).get_json()["pointer"] == pointer
    assert api.get(f"/api/jobs/{job}/history").get_json()["changes"] == []


def test_a_patch_is_sent_as_a_patch(api: Api, job: str) -> None:
    reply = api.send(
        "PATCH", f"/api/jobs/{job}", data=b"[]", content_type="application/json", headers={"If-Match": '"1"'}
    )

    assert reply.status_code == 415
    assert PATCH_JSON in reply.get_json()["would_be_right"]


def test_a_job_that_is_not_there_cannot_change(api: Api) -> None:
    assert api.patch("nothing", TAKE_OFF, 1).status_code == 404


@pytest.mark.parametrize(
    "query",
    [
        "?layout=as-planned",
        "?call=tc=dance",
        "?call=nobody=cool-1",
        "?set=fb.limit=ajar",
        "?view=cloud",
        "?colour=red",
    ],
    ids=["layout", "call", "control", "position", "view", "parameter"],
)
def test_a_change_whose_view_is_nonsense_is_refused_and_not_kept(api: Api, job: str, query: str) -> None:
    reply = api.patch(job, TAKE_OFF, 1, query=query)

    assert reply.status_code == 422
    assert {"pointer", "parameter"} & set(reply.get_json())
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"1"'


def test_taking_away_the_part_that_calls_is_shown_without_its_call(api: Api) -> None:
    job = api.create(shorted())
    landed = [name for name, wire in shorted()["layouts"]["as-left"]["conductors"].items() if "tc." in str(wire)]
    remove = [{"op": "remove", "path": f"/layouts/as-left/conductors/{name}"} for name in landed]
    remove.append({"op": "remove", "path": "/layouts/as-left/parts/tc"})

    reply = api.patch(job, remove, 1, query="?call=tc=cool-1")

    assert reply.status_code == 200
    assert "tc.R" not in reply.get_json()["solution"]["terminals"]


def test_taking_away_the_layout_that_is_shown_is_kept(api: Api, job: str) -> None:
    reply = api.patch(job, [{"op": "remove", "path": "/layouts/as-left"}], 1, query="?layout=as-left")

    assert reply.status_code == 200
    assert (reply.get_json()["solution"], reply.get_json()["drawing"], reply.get_json()["findings"]) == (None, None, [])


def test_the_log_says_who_did_what(api: Api, job: str) -> None:
    headers = {
        "Rungwright-Editor": "e-7kq2x",
        "Rungwright-Step": "take%20w7%20off%20%E2%80%93%20Y",
        "Rungwright-Gesture": "g-1",
        "Rungwright-Does": "redo",
    }
    inverse = api.patch(job, TAKE_OFF, 1, headers=headers).get_json()["inverse"]

    said = api.get(f"/api/jobs/{job}/history").get_json()

    (change,) = said["changes"]
    assert said["revision"] == 2
    assert change.pop("at").endswith("Z")
    assert change == {
        "revision": 2,
        "patch": TAKE_OFF,
        "inverse": inverse,
        "editor": "e-7kq2x",
        "step": "take w7 off – Y",
        "gesture": "g-1",
        "does": "redo",
    }


def test_the_log_starts_after_a_revision(api: Api, job: str) -> None:
    for number in range(1, 4):
        api.patch(job, rename(f"Title {number}"), number)

    said = api.get(f"/api/jobs/{job}/history?after=2").get_json()

    assert [change["revision"] for change in said["changes"]] == [3, 4]
    assert api.get(f"/api/jobs/{job}/history?after=-1").status_code == 422


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Idempotency-Key", "k" * 201),
        ("Rungwright-Editor", "two words"),
        ("Rungwright-Gesture", "g" * 65),
        ("Rungwright-Step", "%FF%FE"),
        ("Rungwright-Step", "x" * 401),
        ("Rungwright-Does", "undid"),
    ],
    ids=["key-long", "editor-words", "gesture-long", "step-not-utf8", "step-long", "does"],
)
def test_a_header_that_cannot_be_read_is_refused(api: Api, job: str, name: str, said: str) -> None:
    reply = api.patch(job, TAKE_OFF, 1, headers={name: said})

    assert reply.status_code == 400
    assert name in reply.get_json()["detail"]
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"1"'
