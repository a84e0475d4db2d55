"""``draw --insides``: what is in the parts, live where a situation is given, refused by views that do not show it."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Run


def test_insides_are_drawn_where_they_are_asked_for(run: Run, sound: Path) -> None:
    assert "data-element=" not in run("draw", sound, "--out", "-").out
    assert 'data-element="ou.contactor"' in run("draw", sound, "--insides", "--out", "-").out
    assert 'data-state="pulled-in"' not in run("draw", sound, "--insides", "--out", "-").out
    assert 'data-state="pulled-in"' in run("draw", sound, "--insides", "--call", "tc=cool-1", "--out", "-").out


def test_a_view_that_shows_no_insides_refuses_to(run: Run, sound: Path) -> None:
    said = run("draw", sound, "--view", "wires", "--insides", "--out", "-")
    assert (said.code, said.out) == (2, "")
    assert "shows nothing of what is inside a part" in said.err
