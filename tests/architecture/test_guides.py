"""README and the contributors' guide say what is so: their commands, rooms and tests exist."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from app.cli import COMMANDS

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")


@pytest.mark.parametrize("target", sorted(set(re.findall(r"`make ([a-z-]+)", README + GUIDE))))
def test_every_make_target_that_the_guides_name_exists(target: str) -> None:
    assert re.search(rf"^{target}:", MAKEFILE, re.MULTILINE)


@pytest.mark.parametrize(
    "path", sorted(set(re.findall(r"`((?:app|tests|static|templates|demo_jobs)/[^`*< ]*)`", GUIDE)))
)
def test_every_path_that_the_guide_names_exists(path: str) -> None:
    assert (ROOT / path).exists()


@pytest.mark.parametrize("command", sorted(command.name for command in COMMANDS))
def test_every_command_stands_in_the_readme(command: str) -> None:
    assert f"`{command}" in README or f"rungwright {command}" in README


def test_the_readme_opens_with_the_job_in_one_paragraph() -> None:
    title, paragraph = README.split("\n\n")[:2]
    assert title.startswith("# ")
    assert len(paragraph) > 300
    assert not paragraph.startswith(("#", "-", "`", "!"))


def test_every_room_stands_in_the_code_map() -> None:
    rooms = {path.parent.name for path in (ROOT / "app").glob("*/__init__.py")}
    assert {room for room in rooms if f"app/{room}/" not in GUIDE} == set()
