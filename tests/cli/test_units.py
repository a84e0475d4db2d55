"""What is drawn and said is told in the unit of the job."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.drawing.views import VIEWS
from app.job.temperatures import Units
from tests.cli.conftest import Run
from tests.drawing.units import CHANGES, SAID, job_in, missing


@pytest.mark.parametrize("units", SAID)
@pytest.mark.parametrize("view", VIEWS)
def test_a_drawing_tells_temperatures_and_lengths_in_the_unit_of_the_job(
    view: str, units: Units, run: Run, tmp_path: Path
) -> None:
    job, out = tmp_path / "job.json", tmp_path / "out.svg"
    job.write_text(json.dumps(job_in(units)))
    asked = ["--layout", "as-left", "--view", view, "--out", out]
    if VIEWS[view].needs_run:
        asked += [word for change in CHANGES for word in ("--at", change)]
    elif VIEWS[view].shows_situation:
        asked += ["--outdoor", "-8"]
    assert run("draw", job, *asked).code == 0
    assert missing(out.read_text(), view, units) == []


@pytest.mark.parametrize(("units", "cold", "set_to"), [("us", "17.6 °F", "41 °F"), ("si", "-8 °C", "5 °C")])
def test_a_sequence_tells_temperatures_in_the_unit_of_the_job(
    units: Units, cold: str, set_to: str, run: Run, tmp_path: Path
) -> None:
    job = tmp_path / "job.json"
    job.write_text(json.dumps(job_in(units)))
    said = run("sequence", job, "--layout", "as-left", "--at", "1:outdoor=-8", "--at", "2:tc.switch_over_c=5")
    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert f"0:01 outdoors {cold}" in lines
    assert f"0:02 tc switch over {set_to}" in lines


@pytest.mark.parametrize(("units", "cold"), [("us", "17.6 °F"), ("si", "-8 °C")])
@pytest.mark.parametrize("command", [("solve",), ("read", "fb.R", "fb.C"), ("explain", "fb:indoor-fan")])
def test_a_situation_is_said_in_the_unit_of_the_job(
    command: tuple[str, ...], units: Units, cold: str, run: Run, tmp_path: Path
) -> None:
    job = tmp_path / "job.json"
    job.write_text(json.dumps(job_in(units)))
    name, *rest = command
    assert f"outdoor {cold}" in run(name, job, *rest, "--layout", "as-left", "--outdoor", "-8").out


@pytest.mark.parametrize(("units", "warm"), [("us", "50 °F"), ("si", "10 °C")])
def test_an_explanation_tells_the_weather_in_the_unit_of_the_job(
    units: Units, warm: str, run: Run, tmp_path: Path
) -> None:
    job = tmp_path / "job.json"
    job.write_text(json.dumps(job_in(units)))
    said = run("explain", job, "fb:furnace-heat", "--layout", "as-left", "--call", "tc=heat-1", "--outdoor", "10")
    assert f"while it is {warm} outdoors" in said.out
