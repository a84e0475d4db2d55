"""What the page says is worked out on the server: names, rows, sentences."""

from __future__ import annotations

from app.catalogue.structure import catalogue_for
from app.checks.check import check_layout
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Job, Layout
from app.job.sketch import sketch, sketch_job
from app.web.wording.fixes import fix_words
from app.web.wording.naming import Naming
from app.web.words import words_of
from tests.bench.layouts import HEATING

WIRES = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "fb.W tc.W", "fb.G -")


def said(layout: Layout, situation: Situation | None = None) -> dict:  # type: ignore[type-arg]
    job: Job = sketch_job(layout)
    catalogue = catalogue_for(job)
    report = check_layout(job, "as-left", catalogue)
    point = solve(report.circuit, situation or Situation())
    return words_of(job, "as-left", catalogue, report, point)


def test_a_conductor_names_both_its_ends() -> None:
    words = said(sketch(HEATING, *WIRES, "fb.Y ?"))
    assert words["conductors"]["w4"]["between"] == "W, furnace board, to W, thermostat"
    assert words["conductors"]["w5"]["ends"][1]["aria"] == "w5, end 2, not landed. Other end on G, furnace board."
    assert words["conductors"]["w6"]["ends"][1]["words"] == "not known where (not seen)"


def test_a_screw_tells_who_is_landed_and_what_stands_there() -> None:
    words = said(sketch(HEATING, *WIRES), Situation(calls={"tc": ("heat-1",)}))
    screws = {row["terminal"]: row for row in words["parts"]["fb"]["terminals"]}
    assert "1 conductor: w4 to W, thermostat." in screws["fb.W"]["aria"]
    assert screws["fb.W"]["volts"].endswith(" V")
    assert screws["fb.L1"]["volts"] in ("floating", "")
    assert "0.0 V" not in screws["fb.L1"]["aria"]


def test_a_hot_conductor_says_where_its_power_goes() -> None:
    words = said(sketch(HEATING, *WIRES), Situation(calls={"tc": ("heat-1",)}))
    assert words["conductors"]["w4"]["live"].startswith("Hot, ")
    assert words["conductors"]["w4"]["live"].endswith("toward furnace board.")
    assert words["runs"].startswith("Runs: ")
    assert "furnace heat" in words["runs"]


def test_an_opened_fuse_is_the_reason_why_nothing_runs() -> None:
    words = said(sketch(HEATING, *WIRES, "fb.R fb.C"), Situation(calls={"tc": ("heat-1",)}))
    assert words["runs"] == "Nothing runs."
    assert words["opened"] == "The fuse of furnace board has opened."
    assert said(sketch(HEATING, *WIRES))["opened"] == ""


def test_two_parts_of_one_label_are_told_apart() -> None:
    words = said(sketch({"a": "float-switch", "b": "float-switch"}))
    assert [words["parts"][name]["label"] for name in ("a", "b")] == [
        f"{words['parts']['a']['kind_title']} (a)",
        f"{words['parts']['b']['kind_title']} (b)",
    ]


def test_a_part_that_nothing_is_landed_on_is_still_to_wire() -> None:
    words = said(sketch({**HEATING, "fs": "float-switch"}, *WIRES))
    assert words["to_wire"]["parts"] == ["fs"]
    assert words["to_wire"]["words"] == "Still to wire: 1 part"


def test_danger_is_never_folded_and_comes_first() -> None:
    words = said(sketch(HEATING, *WIRES, "fb.R fb.C"))
    rows = words["findings"]
    assert rows[0]["severity"] == "danger"
    assert not any(row["folded"] for row in rows if row["severity"] == "danger")
    assert words["counts"].startswith("1 danger")


def test_calls_begin_with_idle_and_mark_what_is_asked() -> None:
    (control,) = said(sketch(HEATING, *WIRES), Situation(calls={"tc": ("heat-1",)}))["calls"]
    assert [row["value"] for row in control["calls"]][:1] == ["tc="]
    assert [row["value"] for row in control["calls"] if row["asked"]] == ["tc=heat-1"]


def test_every_kind_can_be_added_from_one_group() -> None:
    words = said(Layout())
    kinds = [row["kind"] for group in words["kinds"] for row in group["kinds"]]
    assert len(kinds) == len(set(kinds)) == len(catalogue_for(sketch_job(Layout())).kinds)
    room = next(group for group in words["kinds"] if group["group"] == "room")
    assert all("thermostat" in row["kind"] or "control" in row["kind"] for row in room["kinds"])
    assert all(kind in kinds for system in words["systems"] for kind in system["kinds"])


def test_a_fix_is_said_in_the_words_of_the_hand() -> None:
    naming = Naming(sketch(HEATING, *WIRES), catalogue_for(sketch_job(Layout())), "us")
    path = "/layouts/as-left/conductors/w4"
    assert fix_words([{"op": "replace", "path": f"{path}/ends/1", "value": None}], naming) == "Take w4 off."
    assert fix_words([{"op": "test", "path": path}, {"op": "remove", "path": path}], naming) == "Remove w4."
    land = [{"op": "replace", "path": f"{path}/ends/1", "value": "tc.Y"}]
    assert fix_words(land, naming) == "Land w4 on Y, thermostat."
    pull = [{"op": "add", "path": "/layouts/as-left/conductors/w9", "value": {"ends": ["fb.C", "tc.Y"]}}]
    assert fix_words(pull, naming) == "Run a new conductor from C, furnace board to Y, thermostat."
