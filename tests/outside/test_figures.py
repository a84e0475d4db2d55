"""Every figure of every source against what the program answers, and the page that lists them."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

from tests.outside.page import page
from tests.outside.registry import all_checks, all_sources

CHECKS = all_checks()
SOURCES = all_sources()
METHODS = {method.test: name for name, source in SOURCES.items() for method in source.methods}
OTHERWISE = {each.what: each for source in SOURCES.values() for each in source.otherwise}
ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("name", CHECKS)
def test_a_figure_is_ours_too(name: str) -> None:
    check = CHECKS[name]
    found = check.ours()
    assert check.expected.holds(found), f"{name}: expected {' '.join(check.expected.told())}, found {found}"


@pytest.mark.parametrize("what", OTHERWISE)
def test_a_figure_that_is_otherwise_here_is_as_told(what: str) -> None:
    each = OTHERWISE[what]
    found = each.ours()
    assert each.instead.holds(found), f"{what}: told as {each.instead.told()[0]}, found {found}"
    assert not each.theirs.holds(found), f"{what} is no longer otherwise"


@pytest.mark.parametrize("test", METHODS)
def test_a_method_is_really_tested(test: str) -> None:
    path, _, name = test.partition("::")
    module = importlib.import_module(path.removesuffix(".py").replace("/", "."))
    assert callable(getattr(module, name))


def test_the_page_is_the_one_that_the_records_make() -> None:
    assert (ROOT / "tests/outside/README.md").read_text(encoding="utf-8") == page()
