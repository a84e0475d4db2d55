"""Readings of a kept job: the figure and the words agree, and what cannot be read is refused or said."""

from __future__ import annotations

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling


@pytest.mark.parametrize("meter", ["ideal", "high", "low"])
def test_what_should_be_read_is_what_the_job_read_by_itself_gives(api: Api, job: str, meter: str) -> None:
    kept = api.get(f"/api/jobs/{job}/read?a=fb.R&b=fb.C&meter={meter}")
    alone = api.post("/api/read", {"job": gas_and_cooling(), "a": "fb.R", "b": "fb.C", "meter": meter})
    assert kept.headers["ETag"] == '"1"'
    assert kept.get_json()["reading"] == alone.get_json()
    assert kept.get_json()["words"] == f"{alone.get_json()['volts']:.1f} V should read."


def test_a_call_moves_what_should_be_read(api: Api, job: str) -> None:
    idle = api.get(f"/api/jobs/{job}/read?a=ou.Y&b=ou.C").get_json()
    called = api.get(f"/api/jobs/{job}/read?a=ou.Y&b=ou.C&call=tc=cool-1").get_json()
    assert idle["words"] == "0.0 V should read."
    assert called["reading"]["volts"] > 24


def test_what_nothing_joins_floats_and_is_never_0_v(api: Api) -> None:
    job = api.create(gas_and_cooling())
    said = api.get(f"/api/jobs/{job}/read?a=fb.R&b=ou.L1").get_json()
    assert said["reading"] == {"floating": True}
    assert said["words"].startswith("Floating: nothing joins the two")


def test_ohms_want_the_power_off(api: Api, job: str) -> None:
    live = api.get(f"/api/jobs/{job}/read?a=fb.R&b=fb.C&meter=ohms")
    dead = api.get(f"/api/jobs/{job}/read?a=fb.R&b=tc.R&meter=ohms&supply=0")
    assert (live.status_code, live.get_json()["code"]) == (422, "power-on")
    assert dead.get_json()["words"] == "0.0 Ω should read."
    shown = api.get(f"/jobs/{job}/shown?supply=0&call=tc=cool-1").get_json()["words"]
    assert shown["situation"] == "cool 1, all power off"


@pytest.mark.parametrize("question", ["a=fb.R&b=fb.Q", "a=fb.R", "a=fb.R&b=fb.C&meter=loud"])
def test_what_cannot_be_asked_is_refused(api: Api, job: str, question: str) -> None:
    assert api.get(f"/api/jobs/{job}/read?{question}").status_code == 422
