"""Paths as the bench follows them: what the drawing marks and what the list says is the same."""

from __future__ import annotations

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def without(job: dict[str, object], conductor: str) -> dict[str, object]:
    layouts = job["layouts"]
    assert isinstance(layouts, dict)
    (layout,) = layouts.values()
    del layout["conductors"][conductor]
    return job


def test_what_runs_is_followed_to_the_common_of_its_source(api: Api, job: str) -> None:
    found = api.get(f"/api/jobs/{job}/follow?subject=ou:compressor&call=tc=cool-1").get_json()
    assert found["verdict"] == "runs"
    assert (found["stop"], found["because"]) == (None, [])
    assert found["legs"][0]["from"] == "xf.R"
    assert found["legs"][-1]["to"] == "xf.C"
    wires = [leg["on"].removeprefix("conductor:") for leg in found["legs"] if leg["on"].startswith("conductor:")]
    assert [step.split(" ")[1] for step in found["steps"] if step.startswith("Along ")] == wires


def test_where_it_stops_is_said_last(api: Api) -> None:
    job = api.create(without(gas_and_cooling(), "w7"))
    found = api.get(f"/api/jobs/{job}/follow?subject=ou:compressor&call=tc=cool-1").get_json()
    assert found["verdict"] == "does-not-run"
    assert found["stop"] == {"place": "terminal:fb.Y", "words": "stops here: nothing leads on from Y"}
    assert found["steps"][-1] == "Stops here: nothing leads on from Y."
    assert found["because"][-1].startswith("No supply reaches Y of ")


@pytest.mark.parametrize("subject", ["ou:pump", "part:nobody", "conductor:w1"])
def test_what_is_not_there_is_refused_with_what_would_be_right(api: Api, job: str, subject: str) -> None:
    reply = api.get(f"/api/jobs/{job}/follow?subject={subject}")
    assert reply.status_code == 422
    assert "ou:compressor" in reply.get_json()["would_be_right"]


def test_what_a_call_waits_for_is_told_before_all_else_that_does_not_run(api: Api) -> None:
    job = api.create(without(gas_and_cooling(), "w7"))
    words = api.get(f"/jobs/{job}/shown?call=tc=cool-1").get_json()["words"]
    waited = [row["key"] for row in words["idle"] if row["waited"]]
    assert set(waited) == {"ou:compressor", "ou:cooling", "ou:outdoor-fan"}
    assert [row["key"] for row in words["idle"]][: len(waited)] == waited
    assert words["waiting"] == "Not running: compressor, cooling, outdoor fan."
    idle = api.get(f"/jobs/{job}/shown").get_json()["words"]
    assert idle["waiting"] == ""
    assert {row["key"] for row in idle["idle"]} >= {"fb:indoor-fan", "fb:furnace-heat", "ou:compressor"}
