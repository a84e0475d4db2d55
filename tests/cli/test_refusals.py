"""Bad input ends with 2 and says on stderr: the file, the place, what is wrong, what would be right."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Run
from tests.web.sample import gas_and_cooling

JOB_COMMANDS = {
    "check": [],
    "solve": [],
    "read": ["fb.R", "fb.C"],
    "draw": ["--out", "-"],
    "wires": [],
    "netlist": [],
}


def spoiled(tmp_path: Path) -> Path:
    document: dict[str, Any] = gas_and_cooling()
    document["layouts"]["as-left"]["conductors"]["w7"]["ends"][0] = "fb.Q"
    file = tmp_path / "spoiled.json"
    file.write_text(json.dumps(document))
    return file


@pytest.mark.parametrize("command", JOB_COMMANDS)
def test_a_job_that_is_not_right_is_refused_with_file_place_and_cure(run: Run, tmp_path: Path, command: str) -> None:
    file = spoiled(tmp_path)

    said = run(command, file, *JOB_COMMANDS[command])

    assert (said.code, said.out) == (2, "")
    assert str(file) in said.err
    assert "/layouts/as-left/conductors/w7/ends/0" in said.err
    assert "fb.Q" in said.err
    assert "would be right" in said.err


@pytest.mark.parametrize("command", JOB_COMMANDS)
def test_a_file_that_is_not_there_is_refused(run: Run, tmp_path: Path, command: str) -> None:
    said = run(command, tmp_path / "nothing.json", *JOB_COMMANDS[command])

    assert (said.code, said.out) == (2, "")
    assert "nothing.json" in said.err


@pytest.mark.parametrize("command", [one for one in JOB_COMMANDS if one != "netlist"])
def test_a_layout_that_is_not_there_is_refused_with_those_that_are(run: Run, sound: Path, command: str) -> None:
    said = run(command, sound, *JOB_COMMANDS[command], "--layout", "as-planned")

    assert said.code == 2
    assert "/layouts" in said.err
    assert "as-left" in said.err


@pytest.mark.parametrize(
    "options",
    [
        ("--call", "tc=dance"),
        ("--call", "tc"),
        ("--call", "nobody=fan"),
        ("--set", "fb.limit=ajar"),
        ("--set", "fb.nothing=open"),
        ("--fault", "rust:conductor:w1"),
        ("--fault", "conductor-open:conductor:w99"),
        ("--supply", "nan"),
        ("--supply", "900"),
        ("--outdoor", "-400"),
    ],
    ids=lambda options: "".join(options),
)
def test_a_situation_that_the_layout_does_not_have_is_refused(run: Run, sound: Path, options: tuple[str, str]) -> None:
    for command in ("solve", "netlist"):
        said = run(command, sound, *options)
        assert (said.code, said.out) == (2, "")
        assert "would be right" in said.err


@pytest.mark.parametrize(
    "words",
    [
        ["draw", "{}", "--out", "-", "--view", "photograph"],
        ["read", "{}", "fb.R", "fb.C", "--meter", "clamp"],
        ["wires", "{}", "--format", "xml"],
        ["solve", "{}", "--supply", "much"],
        ["solve", "{}", "--lay", "as-left"],
        ["simulate", "{}"],
        [],
    ],
    ids=["view", "meter", "format", "no-number", "shortened-option", "no-such-command", "nothing"],
)
def test_what_is_not_among_the_choices_is_refused(run: Run, sound: Path, words: list[str]) -> None:
    said = run(*[word.format(sound) for word in words])

    assert (said.code, said.out) == (2, "")
    assert "usage: rungwright" in said.err


@pytest.mark.parametrize("out", ["job.gif", "job", "no-such-folder/job.svg", "no-such-folder/job.pdf"])
def test_a_drawing_that_cannot_be_written_is_refused(run: Run, sound: Path, tmp_path: Path, out: str) -> None:
    said = run("draw", sound, "--out", tmp_path / out)

    assert said.code == 2
    assert out in said.err
    assert not (tmp_path / out).exists()


def test_a_probe_on_no_terminal_is_refused_with_those_that_are(run: Run, sound: Path) -> None:
    said = run("read", sound, "fb.R", "fb.Q")

    assert said.code == 2
    assert "fb.Q" in said.err
    assert "would be right" in said.err


@pytest.mark.parametrize(("command", "right"), [("rules", "hot-to-common-short"), ("kinds", "furnace-board")])
def test_a_name_that_is_not_registered_is_refused_with_those_that_are(run: Run, command: str, right: str) -> None:
    said = run(command, "nothing")

    assert said.code == 2
    assert right in said.err


def test_serve_refuses_a_folder_that_cannot_be_made(run: Run, sound: Path) -> None:
    said = run("serve", "--port", "0", "--data", sound / "inside")

    assert said.code == 2
    assert "--data" in said.err


def test_serve_refuses_a_port_that_is_none(run: Run, tmp_path: Path) -> None:
    for port in ("700000", "-1", "http"):
        assert run("serve", "--port", port, "--data", tmp_path).code == 2
