"""A strip over the web: the change that it comes to, kept by nobody; each wrong item told."""

from __future__ import annotations

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling


def cabled() -> dict:  # type: ignore[type-arg]
    job = gas_and_cooling()
    layout = job["layouts"]["as-left"]
    layout["cables"] = {"cb9": {"label": "4-conductor, spare run"}}
    for number, code in enumerate(("RD", "WH", "GN", "YE"), start=91):
        layout["conductors"][f"w{number}"] = {"ends": [None, None], "cable": "cb9", "insulation": code}
    return job


def test_a_strip_is_worked_out_and_then_kept_as_one_change(api: Api) -> None:
    job = api.create(cabled())
    question = {"layout": "as-left", "cable": "cb9", "side": 1, "part": "tc", "text": "R=RD W=WH"}
    found = api.post(f"/api/jobs/{job}/strips", question).get_json()
    assert found["spoken"] == "Landed RD on R, WH on W."
    assert api.document(job)["layouts"]["as-left"]["conductors"]["w91"]["ends"] == [None, None]

    reply = api.patch(job, found["operations"], 1).get_json()

    assert reply["revision"] == 2
    assert api.document(job)["layouts"]["as-left"]["conductors"]["w91"]["ends"] == [None, "tc.R"]
    (cable,) = reply["words"]["cables"].values()
    assert cable["summary"] == "4 conductors: 2 landed at one end, 2 spare."
    assert api.post(f"/api/jobs/{job}/strips", question).get_json()["operations"] == []


def test_each_wrong_item_is_told(api: Api) -> None:
    job = api.create(cabled())
    question = {"cable": "cb9", "side": 0, "part": "fb", "text": "R=RD Q=WH R=BU"}
    reply = api.post(f"/api/jobs/{job}/strips", question)
    assert reply.status_code == 422
    problem = reply.get_json()
    assert problem["detail"] == "2 of the items cannot be taken. Nothing was changed."
    assert [item["item"] for item in problem["items"]] == ["Q=WH", "R=BU"]
    assert all(item["wrong"] and item["would_be_right"] for item in problem["items"])


@pytest.mark.parametrize(
    ("change", "pointer"),
    [({"cable": "cb7"}, "/cable"), ({"part": "zz"}, "/part"), ({"side": 2}, "/side"), ({"text": 5}, "/text")],
)
def test_what_cannot_be_meant_is_refused(api: Api, change: dict[str, object], pointer: str) -> None:
    job = api.create(cabled())
    question = {"cable": "cb9", "side": 0, "part": "fb", "text": "R=RD"} | change
    reply = api.post(f"/api/jobs/{job}/strips", question)
    assert reply.status_code == 422
    assert reply.get_json()["pointer"] == pointer
