"""Which names decide a term, and whether each stands as the term wants it."""

from __future__ import annotations

import pytest

from app.catalogue.reading_terms import parse_term
from app.explain.deciding import Leaf, deciding

# The names that are true, the term, and what decides it: name, its truth, whether being true helps.
CASES: dict[str, tuple[str, str, list[tuple[str, bool, bool]]]] = {
    "both of an and that holds": ("a b", "a and b", [("a", True, True), ("b", True, True)]),
    "the side that fails": ("a", "a and b", [("b", False, True)]),
    "the first of two that fail": ("", "a and b", [("a", False, True)]),
    "the side that holds": ("b", "a or b", [("b", True, True)]),
    "both of an or that fails": ("", "a or b", [("a", False, True), ("b", False, True)]),
    "what is absent as wanted": ("a", "a and not b", [("a", True, True), ("b", False, False)]),
    "what is there and hinders": ("a b", "a and not b", [("b", True, False)]),
    "twice turned": ("a", "not (not a)", [("a", True, True)]),
    "turned around both": ("a b", "not (a and b)", [("a", True, False), ("b", True, False)]),
    "a timer is its inner term": ("a", "after(a, 30 s)", [("a", True, True)]),
    "a latch without its reset": ("a", "latch(a, b)", [("a", True, True)]),
    "a latch that is reset": ("a b", "latch(a, b)", [("a", True, True), ("b", True, False)]),
    "a comparison": ("", "mode == 'heat'", [("mode", False, True)]),
}


@pytest.mark.parametrize("case", CASES)
def test_what_decides(case: str) -> None:
    on, text, expected = CASES[case]
    found = deciding(parse_term(text), lambda name: name in on.split())
    assert found == tuple(Leaf(*each) for each in expected)
