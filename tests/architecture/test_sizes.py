"""Small files with one concept: the size budget of the project, held."""

from __future__ import annotations

import ast
import statistics
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCES = sorted((ROOT / "app").rglob("*.py"))
SCRIPTS = sorted((ROOT / "static").rglob("*.js"))

MEDIAN_MODULE_LINES = 150
MOST_MODULE_LINES = 500
MEDIAN_FUNCTION_LINES = 12
MOST_FUNCTION_LINES = 80


def functions_of(source: Path) -> Iterator[tuple[str, int]]:
    """Yield (name, lines) of each function of a module."""
    for node in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef):
            yield f"{source.relative_to(ROOT)}:{node.name}", (node.end_lineno or node.lineno) - node.lineno + 1


@pytest.mark.parametrize("sources", [SOURCES, SCRIPTS], ids=["python", "javascript"])
def test_modules_stay_small(sources: list[Path]) -> None:
    lines = {source: len(source.read_text(encoding="utf-8").splitlines()) for source in sources}
    assert lines, "there are sources to measure"
    assert statistics.median(lines.values()) <= MEDIAN_MODULE_LINES
    assert {str(source): count for source, count in lines.items() if count > MOST_MODULE_LINES} == {}


def test_functions_stay_small() -> None:
    lengths = dict(pair for source in SOURCES for pair in functions_of(source))
    assert statistics.median(lengths.values()) <= MEDIAN_FUNCTION_LINES
    assert {name: count for name, count in lengths.items() if count > MOST_FUNCTION_LINES} == {}
