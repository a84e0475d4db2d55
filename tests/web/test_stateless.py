"""Check, solve, read and draw a job that is sent along; nothing is kept."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling, shorted

CALLS = ("check", "solve", "draw")


@pytest.fixture(autouse=True)
def _nothing_is_kept(api: Api) -> Any:
    yield
    assert api.get("/api/jobs").get_json()["jobs"] == []


@pytest.mark.parametrize("call", CALLS)
def test_the_document_alone_is_the_whole_question(api: Api, call: str) -> None:
    alone = api.post(f"/api/{call}", gas_and_cooling())
    wrapped = api.post(f"/api/{call}", {"job": gas_and_cooling()})

    assert alone.status_code == 200
    assert alone.data == wrapped.data


def test_check_names_the_short(api: Api) -> None:
    said = api.post("/api/check", shorted()).get_json()

    assert "hot-to-common-short" in {one["rule"] for one in said["layouts"]["as-left"]["findings"]}


def test_solve_in_a_situation(api: Api) -> None:
    situation = {"calls": {"tc": ["cool-1"]}, "set": {"ou.low_pressure": "open"}}

    runs = api.post("/api/solve", {"job": gas_and_cooling(), "situation": {"calls": {"tc": ["cool-1"]}}}).get_json()
    held = api.post("/api/solve", {"job": gas_and_cooling(), "situation": situation}).get_json()

    assert {"part": "ou", "effect": "compressor"} in runs["effects"]
    assert {"part": "ou", "effect": "compressor"} not in held["effects"]


def test_read_between_two_terminals(api: Api) -> None:
    said = api.post("/api/read", {"job": gas_and_cooling(), "a": "fb.R", "b": "fb.C"}).get_json()

    assert 24.0 < said["volts"] < 26.5  # 24 V rated, at most 10 % above it with nothing drawn


def test_read_says_floating_where_no_source_reaches(api: Api) -> None:
    document = gas_and_cooling()
    document["layouts"]["as-left"]["parts"]["lone"] = {"kind": "float-switch"}

    assert api.post("/api/read", {"job": document, "a": "lone.A", "b": "fb.C"}).get_json() == {"floating": True}


def test_draw_is_live_where_a_situation_is_given(api: Api) -> None:
    plain = api.post("/api/draw", {"job": gas_and_cooling(), "dated": "2031-05-06"}).text
    live = api.post("/api/draw", {"job": gas_and_cooling(), "situation": {"calls": {"tc": ["cool-1"]}}}).text

    assert "2031-05-06" in plain
    assert 'data-live="carrying"' not in plain
    assert 'data-live="carrying"' in live


@pytest.mark.parametrize("call", [*CALLS, "read"])
@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        ({"job": {"format": "rungwright-job", "version": 1}}, "/job"),
        ({"job": {**gas_and_cooling(), "version": 9}}, "/job/version"),
        ({"layout": "as-planned"}, "/job/layouts"),
        ({"situation": {"calls": {"nobody": ["fan"]}}}, "/situation"),
        ({"situation": {"calls": {"tc": ["dance"]}}}, "/situation/calls/tc/0"),
        ({"situation": {"supply_percent": 900}}, "/situation/supply_percent"),
        ({"colour": "red"}, "/colour"),
    ],
    ids=["no-title", "version", "layout", "control", "call", "supply", "unknown-key"],
)
def test_what_is_not_right_is_refused_with_its_place(
    api: Api, call: str, members: dict[str, Any], pointer: str
) -> None:
    probes = {"a": "fb.R", "b": "fb.C"} if call == "read" else {}
    reply = api.post(f"/api/{call}", {"job": gas_and_cooling(), **probes, **members})

    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == pointer


def test_a_probe_on_no_terminal_is_refused(api: Api) -> None:
    reply = api.post("/api/read", {"job": gas_and_cooling(), "a": "fb.R", "b": "fb.Q"})

    assert reply.status_code == 422
    assert "fb.Q" in reply.get_json()["detail"]
    assert reply.get_json()["pointer"] == "/b"


def test_a_view_that_nobody_draws_is_refused(api: Api) -> None:
    refused = api.post("/api/draw", {"job": gas_and_cooling(), "view": "cloud"})
    assert refused.status_code == 422
    assert "ladder" in refused.get_json()["detail"]
    assert "Ladder diagram" in api.post("/api/draw", {"job": gas_and_cooling(), "view": "ladder"}).text
