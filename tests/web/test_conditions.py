"""Weather and mains in a situation: what they do to the circuit, and how they are said."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def shown(api: Api, job: str, query: str) -> dict[str, Any]:
    """Return the words of the bench in a situation."""
    reply = api.get(f"/jobs/{job}/shown?{query}")
    assert reply.status_code == 200, reply.text
    return dict(reply.get_json()["words"])


@pytest.fixture
def two_supplies(api: Api) -> str:
    """A furnace with its transformer, and another transformer behind a disconnect of its own, which feeds nothing."""
    document = gas_and_cooling()
    outside = {"kind": "control-transformer", "label": "Shed", "settings": {"mains_supply": "second"}}
    document["layouts"]["as-left"]["parts"]["x2"] = outside
    return api.create(document)


def test_an_open_disconnect_kills_what_it_feeds_and_nothing_else(api: Api, two_supplies: str) -> None:
    both = api.get(f"/api/jobs/{two_supplies}/solution?call=tc=cool-1").get_json()
    one = api.get(f"/api/jobs/{two_supplies}/solution?call=tc=cool-1&mains=main=off").get_json()
    other = api.get(f"/api/jobs/{two_supplies}/solution?call=tc=cool-1&mains=second=off").get_json()
    assert {row["effect"] for row in both["effects"]} >= {"compressor", "indoor-fan"}
    assert one["effects"] == []
    assert one["elements"]["x2.secondary"]["volts"] == pytest.approx(both["elements"]["x2.secondary"]["volts"])
    assert other["effects"] == both["effects"]


def test_supplies_are_told_with_what_they_feed(api: Api, two_supplies: str) -> None:
    supplies = shown(api, two_supplies, "mains=second=off")["conditions"]["supplies"]
    assert [(row["name"], row["on"]) for row in supplies] == [("main", True), ("second", False)]
    assert [row["words"] for row in supplies] == ["Control transformer", "Shed"]


@pytest.mark.parametrize(("query", "said"), [
    ("outdoor=20&supply=100&mains=main=on", "idle"),
    ("outdoor=-5&supply=88", "23 °F outdoors, supply at 88 %"),
    ("supply=0&mains=main=off", "all power off"),
    ("call=tc=cool-1&mains=main=off", "cool 1, mains of control transformer off"),
])  # fmt: skip
def test_only_what_is_not_usual_is_said(api: Api, two_supplies: str, query: str, said: str) -> None:
    assert shown(api, two_supplies, query)["situation"] == said


def test_a_job_in_metres_is_told_celsius(api: Api) -> None:
    job = api.create(gas_and_cooling() | {"settings": {"units": "si"}})
    assert shown(api, job, "outdoor=-5")["situation"] == "-5 °C outdoors"


def test_a_disconnect_that_is_not_there_is_refused(api: Api, job: str) -> None:
    reply = api.get(f"/api/jobs/{job}/solution?mains=garage=off")
    assert reply.status_code == 422
    assert reply.get_json()["code"] == "bad-situation"
    assert "main" in reply.get_json()["would_be_right"]
