"""The rooms of the house: each says what it is for, and each module says what it holds."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
APP = ROOT / "app"
ROOMS = sorted(path.parent for path in APP.glob("*/__init__.py"))
MODULES = sorted(path for path in APP.rglob("*.py") if "migrations" not in path.parts)


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: room.name)
def test_a_room_says_what_it_may_import_and_where_to_start(room: Path) -> None:
    text = ast.get_docstring(ast.parse((room / "__init__.py").read_text(encoding="utf-8"))) or ""
    assert "May import" in text
    assert "Start reading at" in text


@pytest.mark.parametrize("module", MODULES, ids=lambda module: str(module.relative_to(APP)))
def test_a_module_opens_with_its_purpose(module: Path) -> None:
    assert ast.get_docstring(ast.parse(module.read_text(encoding="utf-8")))


def test_the_top_level_holds_only_what_belongs_there() -> None:
    expected = {"README.md", "DEVELOPERS.md", "pyproject.toml", "app", "static", "templates", "tests", "demo_jobs"}
    tools = {"Makefile", "requirements.lock", "requirements-dev.lock", "jsconfig.json", ".ci", ".gitignore", ".git"}
    made_here = {".venv", "data", "rungwright.egg-info"}
    caches = {path.name for path in ROOT.iterdir() if path.name.endswith("_cache") or path.name == ".hypothesis"}
    assert {path.name for path in ROOT.iterdir()} - expected - tools - made_here - caches == set()
