"""Moments of a run: what is drawn and said at a time is what the run comes to at that time."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.api import Api

RUN = "call=tc=heat-1&begin=rest&for=900&at=600:tc=idle"


def moment(api: Api, job: str, time: float) -> dict[str, Any]:
    """Return the moment of the run at a time."""
    reply = api.get(f"/api/jobs/{job}/moment?{RUN}&time={time}")
    assert reply.status_code == 200, reply.text
    return dict(reply.get_json())


def running(found: dict[str, Any]) -> set[str]:
    return {row["key"] for row in found["words"]["effects"]}


def test_effects_at_a_time_are_those_of_the_events_until_then(api: Api, job: str) -> None:
    events = api.get(f"/api/jobs/{job}/sequence?call=&for=900&at=0:tc=heat-1&at=600:tc=idle".replace("call=&", ""))
    run = events.get_json()["events"]
    for time in sorted({0.0, 10.0, 599.0, 600.0, 899.0, *(event["at_s"] for event in run)}):
        wanted: set[str] = set()
        for event in run:
            if event["at_s"] <= time and event["what"].startswith("effect:"):
                key = event["what"].removeprefix("effect:")
                wanted = wanted | {key} if event["now"] == "on" else wanted - {key}
        assert running(moment(api, job, time)) == wanted, time


def test_all_that_happens_is_told_in_order_with_its_cause(api: Api, job: str) -> None:
    found = moment(api, job, 0)
    times = [event["at_s"] for event in found["events"]]
    words = [event["words"] for event in found["events"]]
    assert times == sorted(times)
    assert words[0].endswith(" calls heat 1.")
    assert any(line.startswith("10:00 ") and line.endswith(" idle.") for line in words)
    assert any("its time is up" in line for line in words)
    assert not any("tc" in line.split() or "(fb)" in line for line in words)
    assert found["ends"].startswith("Ends settled")


def test_the_strip_keeps_the_call_that_the_run_is_about(api: Api, job: str) -> None:
    (control,) = moment(api, job, 800)["words"]["calls"]
    assert [call["call"] for call in control["calls"] if call["asked"]] == ["heat-1"]


def test_a_moment_never_stands_for_how_things_stand(api: Api, job: str) -> None:
    before = api.get(f"/jobs/{job}/shown?call=tc=heat-1").get_json()
    moment(api, job, 1)
    assert api.get(f"/jobs/{job}/shown?call=tc=heat-1").get_json() == before


def test_meter_and_path_follow_the_moment(api: Api, job: str) -> None:
    early = f"/api/jobs/{job}/follow?subject=fb:furnace-heat&{RUN}&time=1"
    assert api.get(early).get_json()["verdict"] == "does-not-run"
    assert api.get(early.replace("time=1", "time=500")).get_json()["verdict"] == "runs"
    read = f"/api/jobs/{job}/read?a=fb.W&b=fb.C&{RUN}&time="
    assert api.get(f"{read}500").get_json()["reading"]["volts"] > 20
    assert api.get(f"{read}700").get_json()["words"] == "0.0 V should read."


@pytest.mark.parametrize("wrong", ["time=-1", "time=soon", "view=timing", "at=5:tc=dance"])
def test_what_is_no_moment_is_refused(api: Api, job: str, wrong: str) -> None:
    assert api.get(f"/api/jobs/{job}/moment?{wrong}").status_code == 422
