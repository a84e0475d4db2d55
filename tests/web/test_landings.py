"""Landing advice: a verdict for every terminal, in one batch; it never forbids."""

from __future__ import annotations

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def test_moving_the_supply_to_common_would_be_a_danger(api: Api, job: str) -> None:
    # w3 is the supply to the room: its end at the thermostat, landed on the furnace's common, would short the source.
    advice = api.post(f"/api/jobs/{job}/landings", {"layout": "as-left", "conductor": "w3", "end": 1}).get_json()

    assert advice["fb.C"]["verdict"] == "danger"
    assert advice["fb.C"]["why"]
    assert advice["tc.R"]["verdict"] == "fine"


def test_every_terminal_has_a_verdict(api: Api, job: str) -> None:
    known = set(api.get(f"/api/jobs/{job}/solution").get_json()["terminals"])

    advice = api.post(f"/api/jobs/{job}/landings", {"start": "fb.R"}).get_json()

    assert known - {"fb.R"} <= set(advice) <= known
    assert advice["fb.C"]["verdict"] == "danger"


@pytest.mark.parametrize(
    ("question", "pointer"),
    [
        ({"conductor": "w99", "end": 0}, "/conductor"),
        ({"conductor": "w3", "end": 2}, "/end"),
        ({"conductor": "w3"}, ""),
        ({"start": "fb.Q"}, "/start"),
        ({"start": "fb.R", "layout": "as-planned"}, "/layouts"),
        ({"start": "fb.R", "colour": "red"}, "/colour"),
        ({}, ""),
        ({"start": "fb.R", "conductor": "w3", "end": 0}, ""),
        ([], ""),
    ],
    ids=["conductor", "end", "no-end", "start", "layout", "unknown-key", "nothing", "both", "list"],
)
def test_a_question_that_makes_no_sense_is_refused(api: Api, job: str, question: object, pointer: str) -> None:
    reply = api.post(f"/api/jobs/{job}/landings", question)

    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == pointer


def test_asking_changes_nothing(api: Api, job: str) -> None:
    api.post(f"/api/jobs/{job}/landings", {"start": "fb.R"})

    assert api.document(job) == gas_and_cooling()
