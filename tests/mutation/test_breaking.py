"""What a function is broken into, by hand; and that what is written down as equivalent is whole."""

from __future__ import annotations

import ast

import pytest

from tests.mutation.breaking import Function, breaks
from tests.mutation.judged import all_judged
from tests.mutation.mutants import ROOT, draw, mutants_of


def broken(*lines: str) -> list[str]:
    """Return what the last of some lines becomes, as a statement of a function."""
    indented = "\n".join(f"    {line}" for line in lines)
    (function,) = ast.parse(f"def f(a, b, c=1):\n{indented}\n").body
    assert isinstance(function, Function)
    line = ast.unparse(ast.parse("\n".join(lines)).body[-1]).split("\n")[0]
    return [after for before, after in (each.texts() for each in breaks(function)) if before == line]


@pytest.mark.parametrize(
    ("line", "becomes"),
    [
        ("x = a < b", ["x = a <= b"]),
        ("x = a in b", ["x = a not in b"]),
        ("x = a and b", ["x = a or b", "x = b", "x = a"]),
        ("x = not a", ["x = a"]),
        ("x = a + b", ["x = a - b"]),
        ("x = a[3]", ["x = a[4]", "x = a[2]"]),
        ("x = any(a)", ["x = all(a)"]),
        ("x = [y for y in a if y]", ["x = [y for y in a]"]),
        ("x += a", ["x -= a", "pass"]),
        ("a.b = c", ["pass"]),
        ("a.b(c)", ["pass"]),
        ("return a", ["return None"]),
        ("x = a if b else c", ["x = a if not b else c"]),
    ],
)
def test_a_statement_is_broken_in_every_way(line: str, becomes: list[str]) -> None:
    assert broken(line) == becomes


@pytest.mark.parametrize(
    "line",
    ["x = zip(a, b, strict=True)", "return None", "assert a < 3", "x = f'{a + 1}'", "x: list[3] = a", "x = 'words'"],
)
def test_what_is_for_people_or_for_types_is_left_alone(line: str) -> None:
    assert broken(line) == []


def test_a_docstring_is_left_alone_and_a_body_is_not() -> None:
    assert broken("'What it does.'") == []
    (function,) = ast.parse("def f(a):\n    if a:\n        raise a\n").body
    assert isinstance(function, Function)
    assert [each.texts() for each in breaks(function)] == [("if a:", "if not a:"), ("raise a", "pass")]


def test_every_break_of_a_module_is_another_program() -> None:
    for each in mutants_of("app/circuit/settle.py"):
        assert each.before != each.after


def test_who_is_drawn_first_does_not_hang_on_the_others() -> None:
    every = list(mutants_of("app/circuit/settle.py"))
    first = draw(every, 20, "seed")
    assert draw(every[::-1], 20, "seed") == first
    assert draw([each for each in every if each not in first[:5]], 15, "seed") == first[5:]


def test_what_was_judged_names_a_module_and_a_reason() -> None:
    for (path, *_), why in all_judged().items():
        assert (ROOT / path).exists(), path
        assert why.endswith("."), why
