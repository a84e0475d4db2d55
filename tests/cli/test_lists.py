"""The lists of a layout, and the way back from a wire list to a job."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Run
from tests.web.sample import gas_and_cooling


def rows_of(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.fixture
def tables(run: Run, sound: Path, tmp_path: Path) -> dict[str, Path]:
    """The three tables of a sound job as files."""
    files = {name: tmp_path / f"{name}.csv" for name in ("wires", "parts", "cables")}
    for name, file in files.items():
        file.write_text(run("wires", sound, "--of", name, "--format", "csv").out, newline="")
    return files


def test_the_wire_list_says_what_each_conductor_is_for(run: Run, sound: Path) -> None:
    rows = {row["conductor"]: row for row in run("wires", sound, "--format", "json").json()["wires"]}

    assert rows["w7"]["role"] == "call for the compressor"
    assert "call for the compressor" in run("wires", sound).out


def test_by_part_and_by_cable_the_list_has_groups(run: Run, sound: Path) -> None:
    by_part = run("wires", sound, "--by", "part", "--format", "json").json()["groups"]
    by_cable = run("wires", sound, "--by", "cable").out

    assert {group["part"] for group in by_part} == set(gas_and_cooling()["layouts"]["as-left"]["parts"])
    for group in by_part:
        assert {row["from"].split(".")[0] for row in group["wires"]} == {group["part"]}
    assert "\ncable cb1\n" in by_cable or "\nin no cable\n" in by_cable


def test_the_terminal_list_has_volts_where_a_call_is_given(run: Run, sound: Path) -> None:
    plain = rows_of(run("wires", sound, "--of", "terminals", "--format", "csv").out)
    calling = rows_of(run("wires", sound, "--of", "terminals", "--call", "tc=cool-1", "--format", "csv").out)
    volts = {row[0]: row[-1] for row in calling}

    assert "volts" not in plain[0]
    assert 24 < float(volts["ou.Y"].split(" V ")[0]) < 26.5
    assert "nothing landed" in run("wires", sound, "--of", "terminals").out


@pytest.mark.parametrize(
    "options", [("--of", "parts", "--by", "cable"), ("--call", "tc=cool-1")], ids=["order-of-parts", "volts-of-wires"]
)
def test_what_a_list_does_not_have_is_refused(run: Run, sound: Path, options: tuple[str, ...]) -> None:
    said = run("wires", sound, *options)

    assert (said.code, said.out) == (2, "")
    assert "would be right" in said.err


def test_a_job_goes_out_and_comes_back(run: Run, sound: Path, tables: dict[str, Path], tmp_path: Path) -> None:
    out = tmp_path / "back.json"
    tables_said = ("--parts", tables["parts"], "--cables", tables["cables"])
    said = run("take-in", tables["wires"], *tables_said, "--title", "Back", "--layout", "as-left", "--out", out)

    assert (said.code, said.out, said.err) == (0, "", "")
    assert json.loads(out.read_text())["title"] == "Back"
    for name, file in tables.items():
        assert run("wires", out, "--of", name, "--format", "csv").out == file.read_bytes().decode()


def test_kinds_that_nobody_says_are_asked_for_and_unknown(run: Run, tables: dict[str, Path]) -> None:
    kinds = {name: part["kind"] for name, part in gas_and_cooling()["layouts"]["as-left"]["parts"].items()}
    told = [f"--kind={name}={kind}" for name, kind in kinds.items() if name != "fb"]
    said = run("take-in", tables["wires"], *told, "--out", "-")

    parts: dict[str, Any] = said.json()["layouts"]["as-found"]["parts"]
    assert {name: part["kind"] for name, part in parts.items()} == {**kinds, "fb": "unknown"}
    assert said.err.startswith("fb is of unknown kind; landed on: ")
    assert kinds["fb"] in said.err


def test_what_is_wrong_in_a_table_is_told_of_its_file_by_row(run: Run, tables: dict[str, Path], tmp_path: Path) -> None:
    spoiled = tmp_path / "spoiled.csv"
    spoiled.write_text(tables["wires"].read_text().replace("fb.R", "fb.Q"))
    said = run("take-in", spoiled, "--parts", tables["parts"], "--out", tmp_path / "job.json")

    assert said.code == 2
    assert said.err.startswith(f"{spoiled}: Row ")
    assert "would be right: " in said.err
    assert not (tmp_path / "job.json").exists()


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--kind", "fb"), "--kind fb"),
        (("--kind", "fb=furnace"), "There is no kind furnace"),
        (("--kind", "fb=splice", "--kind", "fb=splice"), "has a kind already"),
        (("--kinds-of", "nothing.json"), "nothing.json"),
        (("--parts", "nothing.csv"), "nothing.csv"),
        (("--layout", "As Found"), "cannot be"),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, tuple) else None,
)
def test_options_that_are_not_right(run: Run, tables: dict[str, Path], options: tuple[str, ...], words: str) -> None:
    said = run("take-in", tables["wires"], *options, "--out", "-")

    assert (said.code, said.out) == (2, "")
    assert words in said.err


def test_the_lists_are_drawn_and_those_that_show_no_situation_refuse_one(run: Run, sound: Path) -> None:
    for view in ("wires", "terminals", "flags"):
        assert run("draw", sound, "--view", view, "--out", "-").out.startswith("<svg")
    assert "Shown: " in run("draw", sound, "--view", "terminals", "--call", "tc=cool-1", "--out", "-").out
    for view in ("wires", "flags"):
        said = run("draw", sound, "--view", view, "--call", "tc=cool-1", "--out", "-")
        assert (said.code, said.out) == (2, "")
        assert "shows no situation" in said.err
