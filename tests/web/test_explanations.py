"""Explanations and readings over the web: of a job that is sent along, and of one that is kept."""

from __future__ import annotations

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling

COOLING = {"calls": {"tc": ["cool-1"]}}


def test_why_it_runs(api: Api) -> None:
    question = {"job": gas_and_cooling(), "situation": COOLING, "subject": "ou:compressor"}
    reply = api.post("/api/explain", question)

    assert reply.status_code == 200
    (found,) = reply.get_json()["explanations"]
    assert found["verdict"] == "runs"
    assert found["steps"][0]["to_common"] > 24


def test_a_kept_job_is_explained_alike(api: Api, job: str) -> None:
    question = {"job": gas_and_cooling(), "situation": COOLING, "subject": "ou:compressor"}
    kept = api.get(f"/api/jobs/{job}/explain?subject=ou:compressor&call=tc=cool-1")

    assert kept.headers["ETag"] == '"1"'
    assert kept.get_json() == api.post("/api/explain", question).get_json()


def test_what_a_conductor_is_for(api: Api, job: str) -> None:
    said = api.get(f"/api/jobs/{job}/explain?subject=conductor:w1").get_json()

    assert said["explanations"] == []
    assert said["purpose"]["role"]
    assert said["words"][0].startswith("Conductor w1")


@pytest.mark.parametrize("subject", ["ou:pump", "part:nobody", "conductor:w99"])
def test_what_is_not_there_is_refused_with_a_pointer(api: Api, subject: str) -> None:
    reply = api.post("/api/explain", {"job": gas_and_cooling(), "subject": subject})

    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == "/subject"
    assert "ou:compressor" in reply.get_json()["would_be_right"]


def test_a_kept_job_refuses_alike(api: Api, job: str) -> None:
    assert api.get(f"/api/jobs/{job}/explain?subject=ou:pump").status_code == 422
    assert api.get(f"/api/jobs/{job}/explain").status_code == 422


def test_ohms_are_refused_while_the_power_is_on(api: Api) -> None:
    question = {"job": gas_and_cooling(), "a": "fb.R", "b": "fb.C", "meter": "ohms"}
    live = api.post("/api/read", question)
    dead = api.post("/api/read", {**question, "situation": {"supply_percent": 0}})

    assert live.status_code == 422
    assert "mains off" in live.get_json()["would_be_right"]
    assert dead.get_json()["between_ohms"][0] < 1.5
