"""Jobs are kept under addresses that nobody can guess, read back as they were said, and gone when taken away."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from app.web.application import create_app
from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def test_a_new_job_has_an_address_and_revision_1(api: Api) -> None:
    reply = api.post("/api/jobs", gas_and_cooling())

    assert reply.status_code == 201
    assert reply.headers["ETag"] == '"1"'
    assert reply.headers["Location"] == f"/api/jobs/{reply.get_json()['id']}"
    assert re.fullmatch(r"[A-Za-z0-9_-]{22}", reply.get_json()["id"])  # 16 bytes, URL-safe


def test_a_job_reads_back_as_it_was_said(api: Api, job: str) -> None:
    reply = api.get(f"/api/jobs/{job}")

    assert reply.get_json() == gas_and_cooling()
    assert reply.headers["ETag"] == '"1"'


def test_a_client_that_has_the_revision_is_not_sent_it_again(api: Api, job: str) -> None:
    assert api.get(f"/api/jobs/{job}", headers={"If-None-Match": '"1"'}).status_code == 304
    assert api.get(f"/api/jobs/{job}", headers={"If-None-Match": '"2"'}).status_code == 200


def test_a_deleted_job_is_gone(api: Api, job: str) -> None:
    assert api.send("DELETE", f"/api/jobs/{job}").status_code == 204
    assert api.get(f"/api/jobs/{job}").status_code == 404
    assert api.send("DELETE", f"/api/jobs/{job}").status_code == 404


def test_jobs_are_listed_the_last_changed_first(api: Api) -> None:
    first, second = api.create(gas_and_cooling()), api.create(gas_and_cooling())
    api.patch(first, [{"op": "replace", "path": "/title", "value": "Changed last"}], 1)

    listed = api.get("/api/jobs").get_json()["jobs"]

    assert [(one["id"], one["revision"]) for one in listed] == [(first, 2), (second, 1)]
    assert listed[0]["title"] == "Changed last"


def test_a_server_that_others_can_reach_lists_no_jobs(tmp_path: Path, demo_dir: Path) -> None:
    app = create_app(tmp_path / "data", loopback=False, demo_dir=demo_dir)
    api = Api(app)
    job = api.create(gas_and_cooling())

    refused = api.get("/api/jobs")

    assert refused.status_code == 403
    assert job not in refused.text
    assert api.get(f"/api/jobs/{job}").status_code == 200
    app.extensions["rungwright"].close()


@pytest.mark.parametrize(
    ("said", "pointer"),
    [
        (b'{"format": "rungwright-job"', ""),
        (b"\xff\xfe", ""),
        (b'{"format": "rungwright-job", "version": 1, "title": "a", "title": "b"}', "/title"),
        (b'{"format": "rungwright-job", "version": 2, "title": "a"}', "/version"),
        (b'{"format": "rungwright-job", "version": 1, "title": "a", "colour": 1}', "/colour"),
        (
            b'{"format": "rungwright-job", "version": 1, "title": "a", "layouts": {"as-left": {"parts":'
            b' {"a": {"kind": "nothing-known"}}}}}',
            "/layouts/as-left/parts/a/kind",
        ),
        (b"[1]", ""),
    ],
    ids=["cut-off", "not-utf8", "repeated-key", "newer-version", "unknown-key", "unknown-kind", "list"],
)
def test_a_document_that_is_not_right_is_refused_with_its_place(api: Api, said: bytes, pointer: str) -> None:
    reply = api.send("POST", "/api/jobs", data=said, content_type="application/json")

    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == pointer
    assert reply.get_json()["would_be_right"]
    assert api.get("/api/jobs").get_json()["jobs"] == []


def test_a_document_over_2_mb_is_refused(api: Api) -> None:
    reply = api.post("/api/jobs", {**gas_and_cooling(), "notes": "x" * (2 * 1024 * 1024)})

    assert reply.status_code == 413
    assert reply.get_json()["pointer"] == ""


def test_a_job_is_sent_as_json(api: Api) -> None:
    reply = api.send("POST", "/api/jobs", data=b"{}", content_type="text/plain")

    assert reply.status_code == 415
    assert "application/json" in reply.get_json()["would_be_right"]


def test_a_demo_is_opened_as_a_copy_of_ones_own(api: Api) -> None:
    (demo,) = api.get("/api/demos").get_json()["demos"]
    first, second = api.send("POST", "/api/demos/gas-and-cooling"), api.send("POST", "/api/demos/gas-and-cooling")

    assert demo == {"name": "gas-and-cooling", "title": "Gas and cooling", "summary": "Four conductors, no common."}
    assert first.headers["Location"] != second.headers["Location"]
    assert api.get(first.headers["Location"]).get_json()["title"] == "Gas and cooling"


def test_a_demo_that_is_not_there_is_refused_with_those_that_are(api: Api) -> None:
    reply = api.send("POST", "/api/demos/nothing")

    assert reply.status_code == 404
    assert reply.get_json()["would_be_right"] == "one of gas-and-cooling"
