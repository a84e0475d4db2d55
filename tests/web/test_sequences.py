"""A sequence over the web is that of the command; what is too long or does not fit is refused with its place."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest

from tests.cli.conftest import Run, run  # noqa: F401 - a fixture
from tests.web.api import Api
from tests.web.sample import gas_and_cooling

HEATING = ["0:tc=heat-1", "300.05:fb.limit=open", "600:tc=idle"]


def query(changes: list[str], **more: object) -> str:
    return "?" + urlencode([*(("at", change) for change in changes), *more.items()])


def test_all_three_say_what_the_command_says(api: Api, job: str, run: Run, tmp_path: Path) -> None:  # noqa: F811
    file = tmp_path / "job.json"
    file.write_text(json.dumps(gas_and_cooling()))
    options = [word for change in HEATING for word in ("--at", change)]
    command = run("sequence", file, *options, "--for", "1200", "--format", "json").json()

    sent = api.post("/api/sequence", {"job": gas_and_cooling(), "changes": HEATING, "for_s": 1200}).get_json()
    kept = api.get(f"/api/jobs/{job}/sequence{query(HEATING, **{'for': 1200})}").get_json()

    assert sent == kept == command
    assert len(command["events"]) > 30


def test_the_chart_is_the_one_that_the_command_draws(api: Api, job: str, run: Run, tmp_path: Path) -> None:  # noqa: F811
    file = tmp_path / "job.json"
    file.write_text(json.dumps(gas_and_cooling()))
    options = [word for change in HEATING for word in ("--at", change)]

    reply = api.get(f"/api/jobs/{job}/timing.svg{query(HEATING)}")
    dated = reply.text.split("Date: ")[1].split("<")[0]
    drawn = run("draw", file, "--view", "timing", *options, "--dated", dated, "--out", "-")

    assert reply.mimetype == "image/svg+xml"
    assert reply.text == drawn.out
    everything = api.get(f"/api/jobs/{job}/timing.svg{query(HEATING, all='yes')}").text
    assert everything.count("data-row") > reply.text.count("data-row")


def test_the_document_alone_is_a_sequence_in_which_nothing_is_done(api: Api) -> None:
    said = api.post("/api/sequence", gas_and_cooling()).get_json()
    assert (said["events"], said["ends"]) == ([], "settled")


def test_it_begins_in_the_situation_in_which_it_has_long_stood(api: Api, job: str) -> None:
    calling = {"calls": {"tc": ["heat-1"]}}
    sent = api.post(
        "/api/sequence", {"job": gas_and_cooling(), "situation": calling, "changes": ["0:tc=idle"]}
    ).get_json()
    kept = api.get(f"/api/jobs/{job}/sequence?call=tc=heat-1&at=0:tc=idle").get_json()

    fan = [(event["at_s"], event["now"]) for event in sent["events"] if event["what"] == "effect:fb:indoor-fan"]
    assert fan == [(90.0, "off")]
    assert sent == kept


@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        ({"changes": ["0:tc=heat-1", "soon:tc=idle"]}, "/changes/1"),
        ({"changes": ["0:tc=heat-1", "5:nobody=fan", "soon:tc=idle"]}, "/changes/1"),
        ({"changes": ["0:tc=heat-1", "9:tc=idle"], "for_s": 5}, "/changes/1"),
        ({"changes": ["0:fault=rust:conductor:w1"]}, "/changes/0"),
        ({"changes": ["0:tc=heat-1", "1:fb.limit=ajar", "2:tc=idle"]}, "/changes/1"),
        ({"changes": "0:tc=heat-1"}, "/changes"),
        ({"changes": ["0:tc=fan"] * 201}, "/changes"),
        ({"changes": ["0:tc=" + "fan+" * 60]}, "/changes/0"),
        ({"for_s": 86_401}, "/for_s"),
        ({"for_s": -1}, "/for_s"),
        ({"situation": {"calls": {"tc": ["dance"]}}}, "/situation/calls/tc/0"),
        ({"layout": "as-planned"}, "/job/layouts"),
        ({"colour": "red"}, "/colour"),
    ],
    ids=[
        *("no-time", "no-such-control", "after-the-end", "fault", "position", "no-list", "too-many", "too-wordy"),
        *("too-long", "backwards", "situation", "layout", "unknown-key"),
    ],
)
def test_what_is_not_right_is_refused_with_its_place(api: Api, members: dict[str, Any], pointer: str) -> None:
    reply = api.post("/api/sequence", {"job": gas_and_cooling(), **members})

    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == pointer


@pytest.mark.parametrize("view", ["sequence", "timing.svg"])
@pytest.mark.parametrize(
    ("asked", "member", "said"),
    [
        ("for=86401", "parameter", "for"),
        ("for=much", "parameter", "for"),
        ("for=nan", "parameter", "for"),
        ("for=1&for=2", "parameter", "for"),
        ("for_s=5", "parameter", "for_s"),
        ("&".join(["at=0:tc=fan"] * 201), "parameter", "at"),
        ("at=soon", "code", "bad-change"),
        ("at=9:tc=fan&for=5", "code", "bad-change"),
    ],
    ids=["too-long", "no-number", "nan", "twice", "unknown", "too-many", "no-change", "after-the-end"],
)
def test_a_query_that_cannot_be_played_is_refused(
    api: Api, job: str, view: str, asked: str, member: str, said: str
) -> None:
    reply = api.get(f"/api/jobs/{job}/{view}?{asked}")

    assert reply.status_code == 422
    assert reply.get_json()[member] == said


def test_there_is_no_sequence_of_a_job_that_is_not_there(api: Api) -> None:
    assert api.get("/api/jobs/none/sequence").status_code == 404
    assert api.get("/api/jobs/none/timing.svg").status_code == 404


def test_the_description_has_the_parameters_by_the_names_that_are_read(api: Api) -> None:
    described = api.described["paths"]["/api/jobs/{job_id}/timing.svg"]["get"]["parameters"]
    assert {"at", "for", "all", "layout", "call"} <= {parameter["name"] for parameter in described}
