"""``explain``, and ``read`` with meters of every sort."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Run


def test_explain_says_why_it_runs(run: Run, sound: Path) -> None:
    said = run("explain", sound, "ou:compressor", "--call", "tc=cool-1", "--format", "json").json()

    (found,) = said["explanations"]
    assert (found["verdict"], found["stops_at"], found["root"]) == ("runs", None, None)
    assert [step["subject"] for step in found["steps"]].count("element:ou.contactor") == 1
    assert said["words"] == found["words"]


def test_explain_says_where_it_stops(run: Run, sound: Path) -> None:
    said = run("explain", sound, "ou:compressor", "--call", "tc=cool-1", "--set", "ou.high_pressure=open")

    assert said.code == 0
    assert "stops at high-pressure switch" in said.out


def test_explain_says_what_a_conductor_is_for(run: Run, sound: Path) -> None:
    roles = {
        name: run("explain", sound, f"conductor:{name}", "--format", "json").json()["purpose"]["role"]
        for name in ("w1", "w3")
    }

    assert set(roles.values()) & {"supply", "common", "furnace-heat", "compressor", "indoor-fan"}
    assert "Without it" in run("explain", sound, "conductor:w1").out


def test_explain_refuses_what_is_not_there(run: Run, sound: Path) -> None:
    said = run("explain", sound, "ou:pump")

    assert (said.code, said.out) == (2, "")
    assert "would be right" in said.err
    assert "ou:compressor" in said.err


@pytest.mark.parametrize("meter", ["ideal", "high", "low"])
def test_every_voltmeter_shows_the_volts_of_the_source(run: Run, sound: Path, meter: str) -> None:
    said = run("read", sound, "fb.R", "fb.C", "--meter", meter, "--format", "json").json()

    assert 24.0 < said["volts"] < 26.5  # 24 V rated, at most 10 % above it with nothing drawn


def test_ohms_want_the_power_off(run: Run, sound: Path) -> None:
    live = run("read", sound, "fb.R", "fb.C", "--meter", "ohms")
    dead = run("read", sound, "fb.R", "fb.C", "--meter", "ohms", "--supply", "0")

    assert (live.code, live.out) == (2, "")
    assert "power off" in live.err
    assert dead.code == 0
    assert "Ω" in dead.out
