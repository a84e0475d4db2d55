"""What the commands answer, as JSON and as text."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.registry import all_rules
from tests.cli.conftest import Run
from tests.web.sample import gas_and_cooling


def test_check_names_the_danger_and_ends_with_1(run: Run, short: Path) -> None:
    said = run("check", short, "--format", "json")

    findings = said.json()["layouts"]["as-left"]["findings"]
    assert said.code == 1
    assert "hot-to-common-short" in {one["rule"] for one in findings if one["severity"] == "danger"}
    assert set(said.json()["layouts"]["as-left"]["coverage"]) == {"groups", "situations_made", "situations_possible"}


def test_check_of_a_sound_job_ends_with_0(run: Run, sound: Path) -> None:
    said = run("check", sound, "--format", "json")

    assert said.code == 0
    assert not [one for one in said.json()["layouts"]["as-left"]["findings"] if one["severity"] == "danger"]


def test_check_in_words_says_what_where_and_why(run: Run, short: Path) -> None:
    said = run("check", short)

    assert said.code == 1
    assert "DANGER  hot-to-common-short" in said.out
    assert "w9" in said.out
    assert said.err == ""


def test_check_tells_what_is_set_aside_apart_and_never_a_danger(run: Run, tmp_path: Path, short: Path) -> None:
    document = json.loads(short.read_text())
    document["layouts"]["as-left"]["conductors"]["w20"] = {"ends": ["fb.G", None]}
    file = tmp_path / "job.json"
    file.write_text(json.dumps(document))
    before = run("check", file, "--format", "json").json()["layouts"]["as-left"]
    wanted = {"hot-to-common-short": "breaker locked", "conductor-end-unlanded": "for the fan"}
    records = [
        {"rule": one["rule"], "subjects": one["subjects"], "reason": wanted[one["rule"]]}
        for one in before["findings"]
        if one["rule"] in wanted
    ]
    file.write_text(json.dumps({**document, "records": {"accepted": records}}))
    after = run("check", file, "--format", "json")
    said = run("check", file)

    assert (after.code, said.code) == (1, 1)
    assert after.json()["layouts"]["as-left"]["findings"] == before["findings"]
    assert {one["rule"]: one.get("still_open", False) for one in after.json()["layouts"]["as-left"]["accepted"]} == {
        "hot-to-common-short": True,
        "conductor-end-unlanded": False,
    }
    assert "known   still open: breaker locked" in said.out
    assert "SET ASIDE  conductor-end-unlanded" in said.out
    assert "reason  for the fan" in said.out
    assert "1 set aside" in said.out


def test_check_looks_at_every_layout_unless_one_is_named(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "two.json"
    file.write_text(json.dumps({**gas_and_cooling(), "layouts": {"as-found": {}, "as-left": {}}}))

    assert set(run("check", file, "--format", "json").json()["layouts"]) == {"as-found", "as-left"}
    assert set(run("check", file, "--layout", "as-found", "--format", "json").json()["layouts"]) == {"as-found"}


def test_a_danger_in_a_layout_that_was_not_asked_for_does_not_count(run: Run, tmp_path: Path, short: Path) -> None:
    document = json.loads(short.read_text())
    document["layouts"] = {"as-found": document["layouts"]["as-left"], "as-left": {}}
    file = tmp_path / "two.json"
    file.write_text(json.dumps(document))

    assert run("check", file).code == 1
    assert run("check", file, "--layout", "as-left").code == 0


def test_solve_starts_what_the_call_starts(run: Run, sound: Path) -> None:
    idle = run("solve", sound, "--format", "json").json()
    cooling = run("solve", sound, "--call", "tc=cool-1", "--format", "json").json()

    assert set(idle) >= {"settled", "unsettled", "terminals", "elements", "sources", "conductors", "effects"}
    assert idle["effects"] == []
    assert {"part": "ou", "effect": "compressor"} in cooling["effects"]
    assert cooling["terminals"]["fb.C"]["volts"] < 1 < cooling["terminals"]["fb.R"]["volts"]


def test_solve_in_words_says_what_runs(run: Run, sound: Path) -> None:
    assert "Runs: nothing" in run("solve", sound).out
    assert "ou compressor" in run("solve", sound, "--call", "tc=cool-1").out


@pytest.mark.parametrize(
    "options",
    [
        ("--set", "ou.high_pressure=open"),
        ("--fault", "conductor-open:conductor:w7"),
        ("--fault", "coil-open:element:ou.contactor"),
        ("--supply", "20"),
    ],
    ids=["set", "fault-conductor", "fault-coil", "supply"],
)
def test_every_option_of_a_situation_counts(run: Run, sound: Path, options: tuple[str, str]) -> None:
    held = run("solve", sound, "--call", "tc=cool-1", *options, "--format", "json").json()

    assert {"part": "ou", "effect": "compressor"} not in held["effects"]


def test_read_shows_the_volts_of_the_source(run: Run, sound: Path) -> None:
    said = run("read", sound, "fb.R", "fb.C", "--format", "json")

    assert 24.0 < said.json()["volts"] < 26.5  # 24 V rated, at most 10 % above it with nothing drawn
    assert run("read", sound, "fb.R", "fb.C").out.endswith(" V\n")


def test_read_between_what_nothing_joins_is_floating(run: Run, tmp_path: Path) -> None:
    document: dict[str, Any] = gas_and_cooling()
    document["layouts"]["as-left"]["parts"]["lone"] = {"kind": "float-switch"}
    file = tmp_path / "floating.json"
    file.write_text(json.dumps(document))

    assert run("read", file, "lone.A", "fb.C", "--format", "json").json() == {"floating": True}
    assert "floating" in run("read", file, "lone.A", "fb.C").out


def test_draw_writes_the_file_or_stdout(run: Run, sound: Path, tmp_path: Path) -> None:
    out = tmp_path / "job.svg"

    to_file = run("draw", sound, "--view", "connection", "--out", out)
    to_stdout = run("draw", sound, "--view", "connection", "--out", "-")

    assert (to_file.code, to_file.out) == (0, "")
    assert out.read_text().startswith("<svg") or out.read_text().startswith("<?xml")
    assert to_stdout.out.strip() == out.read_text().strip()
    assert 'data-conductor="w7"' in out.read_text()


def test_draw_is_live_where_a_situation_is_given(run: Run, sound: Path) -> None:
    assert 'data-live="carrying"' not in run("draw", sound, "--out", "-").out
    assert 'data-live="carrying"' in run("draw", sound, "--out", "-", "--call", "tc=cool-1").out
    assert 'data-live="hot"' in run("draw", sound, "--out", "-", "--live").out


def test_draw_carries_the_date_that_it_is_given_and_no_other(run: Run, sound: Path) -> None:
    assert "2031-05-06" in run("draw", sound, "--out", "-", "--dated", "2031-05-06").out
    assert run("draw", sound, "--out", "-").out == run("draw", sound, "--out", "-").out


def test_wires_lists_every_conductor(run: Run, sound: Path) -> None:
    conductors = set(gas_and_cooling()["layouts"]["as-left"]["conductors"])

    as_json = run("wires", sound, "--format", "json").json()["wires"]
    as_csv = list(csv.reader(io.StringIO(run("wires", sound, "--format", "csv").out)))

    assert {row["conductor"] for row in as_json} == conductors
    assert {row[0] for row in as_csv[1:]} == conductors
    assert next(row for row in as_json if row["conductor"] == "w7")["from"] == "fb.Y"
    assert "ou.Y" in run("wires", sound).out


def test_netlist_maps_every_node_to_its_terminals(run: Run, sound: Path) -> None:
    deck = run("netlist", sound, "--call", "tc=cool-1").out.lower()

    assert "* map" in deck
    assert ".ac lin 1 60 60" in deck


def test_rules_are_the_registry(run: Run) -> None:
    said = run("rules", "--format", "json").json()["rules"]

    assert [one["name"] for one in said] == [rule.name for rule in all_rules()]
    assert "hot-to-common-short" in run("rules").out
    page = run("rules", "hot-to-common-short").out
    assert "Why it matters" in page
    assert "What to do" in page


def test_kinds_are_the_catalogue(run: Run) -> None:
    said = run("kinds", "--format", "json").json()["kinds"]

    assert list(said) == sorted(builtin_catalogue())
    assert "furnace-board" in run("kinds").out
    assert "fuse_amps" in run("kinds", "furnace-board").out


def test_a_kind_as_printed_can_stand_in_a_job(run: Run, tmp_path: Path) -> None:
    kind = run("kinds", "condensing-unit", "--format", "json").json()["kinds"]["condensing-unit"]
    document: dict[str, Any] = gas_and_cooling()
    document["kinds"] = {"my-unit": kind}
    document["layouts"]["as-left"]["parts"]["ou"]["kind"] = "my-unit"
    file = tmp_path / "own.json"
    file.write_text(json.dumps(document))

    effects = run("solve", file, "--call", "tc=cool-1", "--format", "json").json()["effects"]
    assert {"part": "ou", "effect": "compressor"} in effects


def test_the_layout_is_as_left_unless_one_is_named(run: Run, tmp_path: Path) -> None:
    document: dict[str, Any] = gas_and_cooling()
    document["layouts"]["as-found"] = {"parts": {"tc": {"kind": "thermostat-heat-only"}}}
    file = tmp_path / "two.json"
    file.write_text(json.dumps(document))

    assert run("wires", file, "--format", "json").json()["layout"] == "as-left"
    assert run("wires", file, "--layout", "as-found", "--format", "json").json() == {"layout": "as-found", "wires": []}
