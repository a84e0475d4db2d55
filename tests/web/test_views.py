"""What is worked out of a kept job is what the commands say of it."""

from __future__ import annotations

import copy
import csv
import io
import xml.etree.ElementTree as ET

import pytest

from app.drawing.views import VIEWS
from tests.web.api import Api
from tests.web.sample import gas_and_cooling, shorted

SVG = "http://www.w3.org/2000/svg"


@pytest.fixture
def two_layouts(api: Api) -> str:
    """A kept job that can be drawn in every view: without a wire as found, with it as left."""
    document = gas_and_cooling()
    found = copy.deepcopy(document["layouts"]["as-left"])
    del found["conductors"]["w7"]
    document["layouts"]["as-found"] = found
    return api.create(document)


def test_findings_name_the_short(api: Api) -> None:
    job = api.create(shorted())

    said = api.get(f"/api/jobs/{job}/findings").get_json()["layouts"]

    assert list(said) == ["as-left"]
    dangers = [one["rule"] for one in said["as-left"]["findings"] if one["severity"] == "danger"]
    assert "hot-to-common-short" in dangers
    assert said["as-left"]["coverage"]["situations_made"] > 1


def test_findings_can_be_asked_of_one_layout(api: Api) -> None:
    document = gas_and_cooling()
    document["layouts"]["as-found"] = {}
    job = api.create(document)

    assert list(api.get(f"/api/jobs/{job}/findings").get_json()["layouts"]) == ["as-found", "as-left"]
    assert list(api.get(f"/api/jobs/{job}/findings?layout=as-found").get_json()["layouts"]) == ["as-found"]


def test_a_call_starts_what_it_starts(api: Api, job: str) -> None:
    idle = api.get(f"/api/jobs/{job}/solution").get_json()
    cooling = api.get(f"/api/jobs/{job}/solution?call=tc=cool-1").get_json()

    assert idle["effects"] == []
    assert {"part": "ou", "effect": "compressor"} in cooling["effects"]
    assert cooling["elements"]["ou.contactor"]["state"] == "pulled-in"


def test_a_position_is_set(api: Api, job: str) -> None:
    held = api.get(f"/api/jobs/{job}/solution?call=tc=cool-1&set=ou.high_pressure=open").get_json()

    assert {"part": "ou", "effect": "compressor"} not in held["effects"]


def test_the_drawing_shows_what_is_live_unless_that_is_not_wanted(api: Api, job: str) -> None:
    live = api.get(f"/api/jobs/{job}/drawing.svg?call=tc=cool-1")
    plain = api.get(f"/api/jobs/{job}/drawing.svg?live=no")

    assert live.mimetype == "image/svg+xml"
    assert 'data-live="carrying"' in live.text
    assert 'data-live="carrying"' not in plain.text
    assert plain.data == api.get(f"/api/jobs/{job}/drawing.svg?live=no").data


def test_the_drawing_shows_insides_only_where_they_are_wanted(api: Api, job: str) -> None:
    inside = api.get(f"/api/jobs/{job}/drawing.svg?insides=yes&call=tc=cool-1").text
    assert 'data-element="ou.contactor"' in inside
    assert 'data-state="pulled-in"' in inside
    assert "data-element=" not in api.get(f"/api/jobs/{job}/drawing.svg?insides=no").text
    assert api.get(f"/api/jobs/{job}/drawing.svg?insides=some").status_code == 422


def test_the_wire_list_has_every_conductor(api: Api, job: str) -> None:
    reply = api.get(f"/api/jobs/{job}/wires.csv")

    rows = list(csv.reader(io.StringIO(reply.text)))
    assert {row[0] for row in rows[1:]} == set(gas_and_cooling()["layouts"]["as-left"]["conductors"])


@pytest.mark.parametrize("view", ["findings", "solution", "drawing.svg", "wires.csv"])
def test_a_layout_that_is_not_there_is_refused_with_those_that_are(api: Api, job: str, view: str) -> None:
    problem = api.get(f"/api/jobs/{job}/{view}?layout=as-planned").get_json()

    assert problem["status"] == 422
    assert problem["pointer"] == "/layouts"
    assert "as-left" in problem["would_be_right"]


@pytest.mark.parametrize(
    ("query", "word"),
    [
        ("?colour=red", "colour"),
        ("?layout=as-left&layout=as-found", "layout"),
        ("?supply=much", "supply"),
        ("?supply=nan", "supply"),
        ("?outdoor=400", "outdoor"),
    ],
    ids=["unknown", "twice", "no-number", "nan", "too-warm"],
)
def test_a_query_that_cannot_be_read_is_refused_by_name(api: Api, job: str, query: str, word: str) -> None:
    problem = api.get(f"/api/jobs/{job}/solution{query}").get_json()

    assert problem["status"] == 422
    assert problem["parameter"] == word


@pytest.mark.parametrize(
    "query",
    ["call=tc=dance", "call=tc", "call=nobody=fan", "set=fb.limit=ajar", "set=limit", "fault=rust:conductor:w1"],
)
def test_a_situation_that_the_layout_does_not_have_is_refused(api: Api, job: str, query: str) -> None:
    problem = api.get(f"/api/jobs/{job}/solution?{query}").get_json()

    assert problem["status"] == 422
    assert problem["would_be_right"]


def test_a_job_without_a_layout_says_so(api: Api) -> None:
    job = api.create({"format": "rungwright-job", "version": 1, "title": "Empty"})

    assert api.get(f"/api/jobs/{job}/findings").get_json() == {"layouts": {}}
    assert api.get(f"/api/jobs/{job}/solution").get_json()["code"] == "layout-not-meant"


def test_every_view_can_be_asked_for_and_says_what_it_is(api: Api, two_layouts: str) -> None:
    job = two_layouts
    drawings = {name: api.get(f"/api/jobs/{job}/drawing.svg?view={name}").text for name in VIEWS}
    titles = [ET.fromstring(drawing).findtext(f"{{{SVG}}}title") for drawing in drawings.values()]
    assert len(set(titles)) == len(VIEWS)
    refused = api.get(f"/api/jobs/{job}/drawing.svg?view=cloud")
    assert refused.status_code == 422
    assert all(name in refused.get_json()["detail"] for name in VIEWS)


def test_a_timing_chart_from_rest_asks_for_the_calls_at_the_beginning(api: Api, job: str) -> None:
    asked = f"/api/jobs/{job}/drawing.svg?view=timing&call=tc=heat-1&at=300:tc=idle&for=900"
    from_rest = api.get(f"{asked}&begin=rest").text
    assert from_rest == api.get(f"/api/jobs/{job}/timing.svg?at=0:tc=heat-1&at=300:tc=idle&for=900").text
    assert api.get(asked).text == api.get(f"/api/jobs/{job}/timing.svg?call=tc=heat-1&at=300:tc=idle&for=900").text


def test_only_a_timing_chart_takes_what_happens(api: Api, job: str) -> None:
    refused = api.get(f"/api/jobs/{job}/drawing.svg?view=ladder&at=0:tc=heat-1")
    assert refused.status_code == 422
    assert refused.get_json()["would_be_right"] == "one of timing"


def test_changes_are_drawn_from_the_layout_that_is_named(api: Api, two_layouts: str) -> None:
    drawing = api.get(f"/api/jobs/{two_layouts}/drawing.svg?view=changes").text
    assert "w7. New: " in drawing
    assert drawing == api.get(f"/api/jobs/{two_layouts}/drawing.svg?view=changes&before=as-found").text
    same = api.get(f"/api/jobs/{two_layouts}/drawing.svg?view=changes&before=as-left").text
    assert "Nothing is different." in same


def test_changes_of_a_job_with_one_layout_are_refused_in_words(api: Api, job: str) -> None:
    refused = api.get(f"/api/jobs/{job}/drawing.svg?view=changes")
    assert refused.status_code == 422
    assert refused.get_json()["would_be_right"] == "a job with two layouts, such as as-found and as-left"


def test_a_change_may_take_away_the_layout_that_is_compared(api: Api, two_layouts: str) -> None:
    patch = [{"op": "remove", "path": "/layouts/as-found"}]
    reply = api.patch(two_layouts, patch, 1, query="?view=changes")
    assert (reply.status_code, reply.get_json()["drawing"]) == (200, None)


@pytest.mark.parametrize("view", VIEWS)
def test_a_change_brings_the_view_that_is_looked_at(api: Api, two_layouts: str, view: str) -> None:
    job = two_layouts
    patch = [{"op": "remove", "path": "/layouts/as-left/conductors/w7"}]
    query = f"view={view}&call=tc=cool-1"
    reply = api.patch(job, patch, 1, query=f"?{query}").get_json()
    assert reply["view"] == view
    assert reply["drawing"] == api.get(f"/api/jobs/{job}/drawing.svg?{query}").text


def test_a_chart_of_what_a_change_took_away_shows_that_nothing_happens(api: Api, job: str) -> None:
    query = "view=timing&at=60:ou.high_pressure=open"
    gone = [
        {"op": "remove", "path": f"/layouts/as-left/conductors/{name}"}
        for name, wire in api.get(f"/api/jobs/{job}").get_json()["layouts"]["as-left"]["conductors"].items()
        if any(end and end.startswith("ou.") for end in wire["ends"])
    ]
    reply = api.patch(job, [*gone, {"op": "remove", "path": "/layouts/as-left/parts/ou"}], 1, query=f"?{query}")
    assert reply.status_code == 200
    assert "nothing done until" in reply.get_json()["drawing"]
