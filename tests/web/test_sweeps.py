"""Whatever is sent: never a failure of the server, never half of a change, always a place in a refusal.

What is refused must be refused with a pointer; what is taken must also be checked, solved and drawn, since a strange
job that is legal is exactly what nobody tried by hand.
"""

from __future__ import annotations

import json
import random

import pytest

from tests.job.chance import mutated_bytes
from tests.web.api import PATCH_JSON, Api
from tests.web.mutations import mutated_document, random_patch, whole_document

REFUSED = {409, 413, 422}
SLICE = 150
WHOLE = 10_000


def send_documents(api: Api, chance: random.Random, count: int) -> int:
    """Send mutated documents, one in five mutated as bytes, and return how many were taken."""
    taken = 0
    for _ in range(count):
        data = json.dumps(mutated_document(chance)).encode()
        if chance.random() < 0.2:
            data = mutated_bytes(chance, data)
        reply = api.send("POST", "/api/jobs", data=data, content_type="application/json")
        if reply.status_code == 201:
            taken += 1
            look_at_all(api, reply.get_json()["id"])
        else:
            refused_with_a_place(reply.status_code, reply.get_json(), data)
    return taken


def look_at_all(api: Api, job: str) -> None:
    """Ask for everything that is worked out of a job, then take the job away."""
    for layout in api.document(job).get("layouts", {}):
        for view in ("findings", "solution", "drawing.svg", "wires.csv"):
            reply = api.get(f"/api/jobs/{job}/{view}?layout={layout}")
            assert reply.status_code == 200, (view, reply.text, api.document(job))
    api.send("DELETE", f"/api/jobs/{job}")


def refused_with_a_place(status: int, problem: dict[str, object], sent: object) -> None:
    assert status in REFUSED, (status, problem, sent)
    assert isinstance(problem.get("pointer"), str), (problem, sent)


def send_patches(api: Api, chance: random.Random, count: int) -> int:
    """Send random patches to jobs that they change as they go, and return how many were taken."""
    taken, job, revision = 0, "", 0
    for number in range(count):
        if number % 50 == 0:
            job, revision = api.create(whole_document()), 1
        before = api.document(job)
        patch = random_patch(chance, before)
        data = json.dumps(patch).encode()
        if chance.random() < 0.1:
            data = mutated_bytes(chance, data)
        reply = api.send(
            "PATCH", f"/api/jobs/{job}", data=data, content_type=PATCH_JSON, headers={"If-Match": f'"{revision}"'}
        )
        if reply.status_code == 200:
            taken, revision = taken + 1, revision + 1
            undo_and_redo(api, job, revision, before, reply.get_json()["inverse"])
            revision += 2
        else:
            refused_with_a_place(reply.status_code, reply.get_json(), data)
            assert api.document(job) == before, patch
    return taken


def undo_and_redo(api: Api, job: str, revision: int, before: object, inverse: object) -> None:
    """The inverse leads back to exactly what was there, and its own inverse forward again."""
    after = api.document(job)
    undone = api.patch(job, inverse, revision)
    assert undone.status_code == 200, (inverse, undone.text)
    assert api.document(job) == before
    assert api.patch(job, undone.get_json()["inverse"], revision + 1).status_code == 200
    assert api.document(job) == after


def test_mutated_documents_are_refused_with_a_place_or_wholly_understood(api: Api) -> None:
    assert 0 < send_documents(api, random.Random(1), SLICE) < SLICE


def test_random_patches_are_refused_with_a_place_or_can_be_undone(api: Api) -> None:
    assert 0 < send_patches(api, random.Random(2), SLICE) < SLICE


@pytest.mark.slow
def test_ten_thousand_mutated_documents(api: Api) -> None:
    assert 0 < send_documents(api, random.Random(3), WHOLE) < WHOLE


@pytest.mark.slow
def test_ten_thousand_random_patches(api: Api) -> None:
    assert 0 < send_patches(api, random.Random(4), WHOLE) < WHOLE
