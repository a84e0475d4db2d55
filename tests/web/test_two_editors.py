"""Two people on one job: nothing is lost, nothing is applied twice, nobody meets a locked database."""

from __future__ import annotations

import json
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor

import pytest
from flask import Flask

from tests.web.api import PATCH_JSON, Api


def edit(app: Flask, job: str, editor: str, count: int) -> int:
    """Set ``count`` findings aside, each on the newest revision known, and return how often that was late."""
    client, revision, late, added = app.test_client(), 1, 0, 0
    while added < count:
        value = {"rule": "chatter", "subjects": [f"part:{editor}-{added}"], "reason": "tried"}
        patch = [{"op": "add", "path": "/records/accepted/-", "value": value}]
        reply = client.patch(
            f"/api/jobs/{job}", data=json.dumps(patch), content_type=PATCH_JSON, headers={"If-Match": f'"{revision}"'}
        )
        if reply.status_code == 412:
            late += 1
            missed = reply.get_json()["missed"]
            assert [one["revision"] for one in missed] == list(range(revision + 1, revision + 1 + len(missed)))
            revision = reply.get_json()["revision"]
        else:
            assert reply.status_code == 200, reply.text
            assert reply.get_json()["revision"] == revision + 1
            revision, added = revision + 1, added + 1
    return late


def together(app: Flask, job: str, editors: Iterable[str], count: int) -> int:
    """Let editors work at the same time and return how often any was late."""
    with ThreadPoolExecutor() as pool:
        return sum(pool.map(lambda editor: edit(app, job, editor, count), editors))


def nothing_is_lost(app: Flask, count: int) -> None:
    api = Api(app)
    job = api.create({"format": "rungwright-job", "version": 1, "title": "Two", "records": {"accepted": []}})

    late = together(app, job, ("ada", "ben"), count)

    kept = [one["subjects"][0] for one in api.document(job)["records"]["accepted"]]
    assert sorted(kept) == sorted(f"part:{editor}-{number}" for editor in ("ada", "ben") for number in range(count))
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == f'"{2 * count + 1}"'
    assert late > 0
    assert app.extensions["rungwright"].store.integrity_check() == []


def test_two_editors_lose_nothing(app: Flask) -> None:
    nothing_is_lost(app, 20)


@pytest.mark.slow
def test_two_editors_of_four_hundred_patches_each_lose_nothing(app: Flask) -> None:
    nothing_is_lost(app, 400)


def test_one_change_sent_by_many_at_once_is_applied_once(app: Flask, api: Api, job: str) -> None:
    patch = json.dumps([{"op": "replace", "path": "/title", "value": "Once"}])

    def send(_: int) -> tuple[int, bytes]:
        reply = app.test_client().patch(
            f"/api/jobs/{job}",
            data=patch,
            content_type=PATCH_JSON,
            headers={"If-Match": '"1"', "Idempotency-Key": "once"},
        )
        return reply.status_code, reply.data

    with ThreadPoolExecutor(8) as pool:
        replies = set(pool.map(send, range(8)))

    assert len(replies) == 1
    assert replies.pop()[0] == 200
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"2"'


def test_a_change_that_was_kept_while_its_twin_was_being_read_is_answered_with_the_first_reply(
    app: Flask, api: Api, job: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One request has looked for the key and not found it; then the other one is kept whole."""
    store = app.extensions["rungwright"].store
    look, replies = store.reply_for, []

    def send() -> tuple[int, bytes]:
        reply = app.test_client().patch(
            f"/api/jobs/{job}",
            data=json.dumps([{"op": "replace", "path": "/title", "value": "Once"}]),
            content_type=PATCH_JSON,
            headers={"If-Match": '"1"', "Idempotency-Key": "once"},
        )
        return reply.status_code, reply.data

    def look_and_be_overtaken(job_id: str, key: str) -> object:
        found = look(job_id, key)
        monkeypatch.setattr(store, "reply_for", look)
        replies.append(send())
        return found

    monkeypatch.setattr(store, "reply_for", look_and_be_overtaken)
    replies.append(send())

    assert [status for status, _ in replies] == [200, 200]
    assert replies[0] == replies[1]
    assert api.get(f"/api/jobs/{job}").headers["ETag"] == '"2"'
