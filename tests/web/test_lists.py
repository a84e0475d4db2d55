"""Lists of a kept job as CSV, and a job from a wire list that is sent along."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from tests.web.api import Api
from tests.web.sample import gas_and_cooling

LISTS = ("wires", "terminals", "parts", "cables")
WIRES = "conductor,from,to\nw1,furnace.R,tc.R\nw2,furnace.W,tc.W\n"


def rows_of(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


def test_the_wire_list_says_what_each_conductor_is_for(api: Api, job: str) -> None:
    rows = rows_of(api.get(f"/api/jobs/{job}/wires.csv").text)

    assert {row[0]: row[rows[0].index("role")] for row in rows}["w7"] == "call for the compressor"


def test_by_part_each_wire_stands_at_both_of_its_ends(api: Api, job: str) -> None:
    rows = rows_of(api.get(f"/api/jobs/{job}/wires.csv?by=part").text)

    assert sorted((row[1], row[2]) for row in rows if row[0] == "w7") == [("fb.Y", "ou.Y"), ("ou.Y", "fb.Y")]


def test_the_terminal_list_has_volts_where_they_are_asked_for(api: Api, job: str) -> None:
    plain = rows_of(api.get(f"/api/jobs/{job}/terminals.csv").text)
    live = rows_of(api.get(f"/api/jobs/{job}/terminals.csv?live=yes&call=tc=cool-1").text)

    assert plain == [row[:-1] for row in live]
    assert live[0][-1] == "volts"
    assert 24 < float({row[0]: row[-1] for row in live}["ou.Y"].split(" V ")[0]) < 26.5


@pytest.mark.parametrize("name", LISTS)
def test_a_list_has_the_revision_that_it_was_made_of(api: Api, job: str, name: str) -> None:
    reply = api.get(f"/api/jobs/{job}/{name}.csv")

    assert reply.mimetype == "text/csv"
    assert reply.headers["ETag"] == '"1"'
    assert api.get(f"/api/jobs/{job}/{name}.csv?layout=as-planned").status_code == 422
    assert api.get(f"/api/jobs/nothing/{name}.csv").status_code == 404


def test_a_job_goes_out_and_comes_back_as_one_that_can_be_kept(api: Api, job: str) -> None:
    tables = {name: api.get(f"/api/jobs/{job}/{name}.csv").text for name in ("wires", "parts", "cables")}
    back = api.post("/api/wires", {**tables, "title": "Back", "layout": "as-left"}).get_json()

    kept = api.create(back)
    assert {name: api.get(f"/api/jobs/{kept}/{name}.csv").text for name in tables} == tables


def test_kinds_are_asked_for_with_those_that_fit(api: Api) -> None:
    problem = api.post("/api/wires", {"wires": WIRES}).get_json()

    assert (problem["status"], problem["code"], problem["pointer"]) == (422, "kinds-asked", "/kinds")
    assert [each["part"] for each in problem["asked"]] == ["furnace", "tc"]
    first = problem["asked"][0]
    assert first["letters"] == ["R", "W"]
    assert first["suggestions"][0] == {"kind": "furnace-board", "title": "Furnace control board, one stage"}


def test_answers_make_the_job_and_what_is_not_answered_may_stay_unknown(api: Api) -> None:
    kinds = {"furnace": "furnace-board", "tc": "thermostat-heat-only"}
    told = api.post("/api/wires", {"wires": WIRES, "kinds": kinds})
    half = api.post("/api/wires", {"wires": WIRES, "kinds": {"tc": "thermostat-heat-only"}, "unanswered": "unknown"})

    assert kinds_in(told.get_json()) == kinds
    assert kinds_in(half.get_json()) == {**kinds, "furnace": "unknown"}


def kinds_in(document: dict[str, Any]) -> dict[str, str]:
    return {name: part["kind"] for name, part in document["layouts"]["as-found"]["parts"].items()}


@pytest.mark.parametrize(
    ("question", "pointer", "row", "column"),
    [
        ({"wires": WIRES.replace("tc.W", "")}, "/wires", 3, "to"),
        ({"wires": WIRES, "parts": "part,kind\nfurnace,\ntc,nothing\n"}, "/parts", 3, "kind"),
        ({"wires": WIRES, "cables": "cable,label\ncb1,x\ncb1,y\n"}, "/cables", 3, "cable"),
        ({"wires": "x" * 9}, "/wires", 1, None),
        ({"wires": WIRES, "kinds": {"xf": "splice"}}, "/kinds/xf", None, None),
        ({"wires": 3}, "/wires", None, None),
        ({}, "/wires", None, None),
        ({"wires": WIRES, "own_kinds": {"mine": {}}}, "/kinds/mine", None, None),
    ],
)
def test_what_is_wrong_is_told_by_row_and_column(
    api: Api, question: dict[str, Any], pointer: str, row: int | None, column: str | None
) -> None:
    reply = api.post("/api/wires", question)
    problem = reply.get_json()

    assert reply.status_code == 422
    assert (problem["pointer"], problem.get("row"), problem.get("column")) == (pointer, row, column)
    assert problem["would_be_right"]


def test_nothing_is_kept(api: Api) -> None:
    api.post("/api/wires", {"wires": WIRES, "unanswered": "unknown"})

    assert api.get("/api/jobs").get_json()["jobs"] == []


def test_the_sample_has_a_wire_in_a_list() -> None:
    assert "w7" in gas_and_cooling()["layouts"]["as-left"]["conductors"]
