"""The page on WCAG names each criterion of levels A and AA once, and only tests that exist."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "tests/bench/wcag.md").read_text(encoding="utf-8")
A = re.findall(
    r"\S+",
    "1.1.1 1.2.1 1.2.2 1.2.3 1.3.1 1.3.2 1.3.3 1.4.1 1.4.2 2.1.1 2.1.2 2.1.4 2.2.1 2.2.2 2.3.1 2.4.1 2.4.2 2.4.3 2.4.4 "
    "2.5.1 2.5.2 2.5.3 2.5.4 3.1.1 3.2.1 3.2.2 3.2.6 3.3.1 3.3.2 3.3.7 4.1.2",
)
AA = re.findall(
    r"\S+",
    "1.2.4 1.2.5 1.3.4 1.3.5 1.4.3 1.4.4 1.4.5 1.4.10 1.4.11 1.4.12 1.4.13 2.4.5 2.4.6 2.4.7 2.4.11 2.5.7 2.5.8 3.1.2 "
    "3.2.3 3.2.4 3.3.3 3.3.4 3.3.8 4.1.3",
)
"""WCAG 2.2 of the W3C, 5 October 2023, without 4.1.1, which it took out."""


def test_every_criterion_is_told_once_with_how_it_stands() -> None:
    rows = re.findall(r"^\| (\d\.\d\.\d+) .*? \((A+)\) \| (holds|in part|does not apply) \| .+ \|$", PAGE, re.MULTILINE)
    assert sorted((number, level) for number, level, _ in rows) == sorted(
        [(number, "A") for number in A] + [(number, "AA") for number in AA]
    )


def test_every_test_that_it_names_exists() -> None:
    tests = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests/bench").glob("test_*.py"))
    named = set(re.findall(r"`(test_\w+)`", PAGE))
    assert len(named) > 20
    assert {name for name in named if f"def {name}(" not in tests} == set()
