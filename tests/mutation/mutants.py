"""All mutants of the two rooms, a sample of them that a seed draws, and the code with which one runs."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from types import CodeType

from tests.mutation.breaking import Function, breaks

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("app/circuit", "app/checks")

Said = tuple[str, str, str, str]
"""What a mutant is: module, function, and its statement before and after."""
Place = tuple[str, int]
"""The qualified name and the first line of a function: what a code object says of itself."""


@dataclass(frozen=True)
class Mutant:
    """One break of one function."""

    path: str
    function: str
    before: str
    after: str
    at: int
    """Which of the breaks of its function it is."""
    line: int
    """Where the statement is that is broken."""

    @property
    def said(self) -> Said:
        """Return what it is, without anything that changes when lines move."""
        return self.path, self.function, self.before, self.after

    @property
    def name(self) -> str:
        """Return what it is called on the command line."""
        return sha256("\n".join(self.said).encode()).hexdigest()[:10]

    def told(self) -> str:
        """Return where it is and what it changes."""
        return f"{self.name} {self.path}:{self.line} in {self.function}\n  - {self.before}\n  + {self.after}"


def all_mutants() -> list[Mutant]:
    """Return every mutant that can be made, in the order of the files."""
    paths = sorted(str(path.relative_to(ROOT)) for room in ROOMS for path in (ROOT / room).rglob("*.py"))
    return [mutant for path in paths for mutant in mutants_of(path)]


def mutants_of(path: str) -> Iterator[Mutant]:
    """Yield the mutants of one module."""
    for name, function in _functions(_tree(path)):
        for at, each in enumerate(breaks(function)):
            yield Mutant(path, name, *each.texts(), at, each.statement.lineno)


def draw(mutants: list[Mutant], count: int, seed: str) -> list[Mutant]:
    """Return a sample. Each mutant has its place by itself: others that come or go do not change who is drawn first."""
    return sorted(mutants, key=lambda each: sha256(f"{seed} {each.name} {each.at}".encode()).digest())[:count]


def mutated_codes(mutant: Mutant) -> dict[Place, CodeType]:
    """Return the code of every function of the mutant's module, with this one broken."""
    tree = _tree(mutant.path)
    list(breaks(dict(_functions(tree))[mutant.function]))[mutant.at].put()
    return _codes_of(tree, mutant.path)


def probed_codes(path: str, mutants: Mapping[int, Mutant], probe: str) -> dict[Place, CodeType]:
    """Return the code of every function of a module, with a call before each statement that a mutant breaks.

    The call hands the number of the mutant to ``probe``.
    """
    tree = _tree(path)
    functions = dict(_functions(tree))
    calls: dict[ast.AST, list[ast.stmt]] = defaultdict(list)
    for number, mutant in mutants.items():
        statement = list(breaks(functions[mutant.function]))[mutant.at].statement
        calls[statement].append(ast.copy_location(ast.parse(f"{probe}({number})").body[0], statement))
    for node in list(ast.walk(tree)):
        for name, value in ast.iter_fields(node):
            if isinstance(value, list) and any(each in calls for each in value):
                setattr(node, name, [added for each in value for added in (*calls.get(each, ()), each)])
    return _codes_of(tree, path)


def _tree(path: str) -> ast.Module:
    return ast.parse((ROOT / path).read_text(encoding="utf-8"))


def _functions(tree: ast.Module) -> Iterator[tuple[str, Function]]:
    """Yield (qualified name, function) of the functions of a module and the methods of its classes."""
    for statement in tree.body:
        if isinstance(statement, Function):
            yield statement.name, statement
        elif isinstance(statement, ast.ClassDef):
            for each in statement.body:
                if isinstance(each, Function):
                    yield f"{statement.name}.{each.name}", each


def _codes_of(tree: ast.Module, path: str) -> dict[Place, CodeType]:
    compiled = compile(ast.fix_missing_locations(tree), str(ROOT / path), "exec", dont_inherit=True)
    return {(code.co_qualname, code.co_firstlineno): code for code in _codes(compiled)}


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _codes(constant)
