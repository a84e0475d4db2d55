"""``draw --view changes``: which layouts are compared, and what is refused in words."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Run
from tests.demo_jobs.demos import FOLDER

DUAL_FUEL = FOLDER / "post-office-dual-fuel.json"


def test_as_found_is_the_layout_before_where_none_is_named(run: Run) -> None:
    said = run("draw", DUAL_FUEL, "--view", "changes", "--out", "-")
    assert said.code == 0
    assert "what changed since “As found" in said.out
    named = run("draw", DUAL_FUEL, "--view", "changes", "--before", "as-found", "--layout", "as-left", "--out", "-")
    assert named.out == said.out


def test_the_way_back_can_be_drawn_too(run: Run) -> None:
    said = run("draw", DUAL_FUEL, "--view", "changes", "--layout", "as-found", "--out", "-")
    assert said.code == 0
    assert "what changed since “As left" in said.out


def test_one_layout_alone_is_refused_in_words(run: Run, sound: Path) -> None:
    said = run("draw", sound, "--view", "changes", "--out", "-")
    assert said.code == 2
    assert "none to compare it with" in said.err
    assert "as-found and as-left" in said.err


def test_a_layout_that_is_not_there_is_refused_by_name(run: Run) -> None:
    said = run("draw", DUAL_FUEL, "--view", "changes", "--before", "as-dreamt", "--out", "-")
    assert said.code == 2
    assert "as-dreamt" in said.err
    assert "as-found, as-left" in said.err


def test_another_layout_for_a_view_of_one_is_refused(run: Run) -> None:
    said = run("draw", DUAL_FUEL, "--before", "as-found", "--out", "-")
    assert said.code == 2
    assert "--view changes" in said.err


def test_all_views_of_one_layout_leave_changes_out(run: Run, sound: Path, tmp_path: Path) -> None:
    assert run("draw", sound, "--view", "all", "--out", tmp_path / "job.pdf").code == 0
