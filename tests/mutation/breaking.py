"""The ways in which a function is broken: each is a small mistake that a person could have made.

A comparison that is turned or moved by its edge, ``and`` for ``or``, an operand left out, plus for minus, a figure one
more or less, a condition turned round, a filter dropped, nothing returned, a statement left out. Texts stay as they
are: they are for people, and whether a wording is right no test can tell. So do annotations, defaults and assertions.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass

Function = ast.FunctionDef | ast.AsyncFunctionDef

COMPARISONS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.LShift: ast.RShift,
    ast.RShift: ast.LShift,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
    ast.BitXor: ast.BitOr,
}
OPPOSITES = {"min": "max", "max": "min", "any": "all", "all": "any"}
TURNED_BY_THEMSELVES = (ast.Eq, ast.NotEq, ast.Is, ast.IsNot, ast.In, ast.NotIn)
"""Where one of these compares, the turned comparison is the condition turned round."""
UNTOUCHED = (ast.arguments, ast.Assert, ast.FormattedValue)
UNTOUCHED_FIELDS = ("annotation", "returns", "decorator_list")


@dataclass(frozen=True)
class Break:
    """One node of a function and what stands in its place when the function is broken."""

    parent: ast.AST
    field: str
    index: int | None
    old: ast.AST
    new: ast.AST
    statement: ast.stmt
    """The innermost statement around it."""

    def put(self) -> None:
        """Break the tree."""
        self._set(self.new)

    def texts(self) -> tuple[str, str]:
        """Return the statement, without its body, as it is and as it is when it is broken."""
        before = _head(self.statement)
        self.put()
        after = _head(self.new if self.old is self.statement else self.statement)
        self._set(self.old)
        return before, after

    def _set(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.index] = node


def breaks(function: Function) -> Iterator[Break]:
    """Yield every break of a function, always in the same order."""
    for index, statement in enumerate(function.body):
        if index or ast.get_docstring(function, clean=False) is None:
            yield from _breaks(function, "body", index, statement, statement)


def _breaks(parent: ast.AST, field: str, index: int | None, node: ast.AST, within: ast.stmt) -> Iterator[Break]:
    if isinstance(node, UNTOUCHED) or field in UNTOUCHED_FIELDS:
        return
    if isinstance(node, ast.keyword) and node.arg == "strict":
        # Where zip is strict, it asserts; it never has anything to say.
        return
    statement = node if isinstance(node, ast.stmt) else within
    for new in _instead_of(node, parent, field):
        yield Break(parent, field, index, node, ast.copy_location(new, node), statement)
    for name, value in ast.iter_fields(node):
        if isinstance(value, ast.AST):
            yield from _breaks(node, name, None, value, statement)
        elif isinstance(value, list):
            for at, each in enumerate(value):
                if isinstance(each, ast.AST):
                    yield from _breaks(node, name, at, each, statement)


def _instead_of(node: ast.AST, parent: ast.AST, field: str) -> Iterator[ast.AST]:
    match node:
        case ast.stmt():
            yield from _instead_of_statement(node)
        case ast.expr():
            yield from _instead_of_expression(node)
            if field == "test" and isinstance(parent, ast.If | ast.While | ast.IfExp) and not _turns_by_itself(node):
                yield ast.UnaryOp(ast.Not(), node)
        case ast.comprehension(target, iterated, ifs, is_async):
            for at in range(len(ifs)):
                yield ast.comprehension(target, iterated, _without(ifs, at), is_async)


def _instead_of_statement(node: ast.stmt) -> Iterator[ast.AST]:
    match node:
        case ast.AugAssign(target, op, value):
            if type(op) in OPERATORS:
                yield ast.AugAssign(target, OPERATORS[type(op)](), value)
            yield ast.Pass()
        case ast.Assign([ast.Attribute() | ast.Subscript(), *_]):
            yield ast.Pass()
        case ast.Return(None):
            yield ast.Pass()
        case ast.Return(value):
            if not (isinstance(value, ast.Constant) and value.value is None):
                yield ast.Return(ast.Constant(None))
        case ast.Expr() | ast.Continue() | ast.Break() | ast.Raise() | ast.Delete():
            yield ast.Pass()


def _instead_of_expression(node: ast.expr) -> Iterator[ast.AST]:
    match node:
        case ast.Compare(left, ops, comparators):
            for at, op in enumerate(ops):
                yield ast.Compare(left, [*ops[:at], COMPARISONS[type(op)](), *ops[at + 1 :]], comparators)
        case ast.BoolOp(op, values):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
            for at in range(len(values)):
                kept = _without(values, at)
                yield kept[0] if len(kept) == 1 else ast.BoolOp(op, kept)
        case ast.UnaryOp(ast.Not() | ast.USub(), operand):
            yield operand
        case ast.BinOp(left, op, right) if type(op) in OPERATORS:
            yield ast.BinOp(left, OPERATORS[type(op)](), right)
        case ast.Constant(bool() as value):
            yield ast.Constant(not value)
        case ast.Constant(int() | float() as value):
            yield ast.Constant(value + 1)
            yield ast.Constant(value - 1)
        case ast.Call(ast.Name(name), args, keywords) if name in OPPOSITES:
            yield ast.Call(ast.Name(OPPOSITES[name], ast.Load()), args, keywords)


def _turns_by_itself(test: ast.expr) -> bool:
    turned = isinstance(test, ast.Compare) and len(test.ops) == 1 and isinstance(test.ops[0], TURNED_BY_THEMSELVES)
    return turned or (isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not))


def _without(values: list[ast.expr], at: int) -> list[ast.expr]:
    return [*values[:at], *values[at + 1 :]]


def _head(statement: ast.AST) -> str:
    """Return a statement in one line; what it holds in other lines is left out."""
    match statement:
        case ast.If(test) | ast.While(test):
            return f"{type(statement).__name__.lower()} {ast.unparse(test)}:"
        case ast.For(target, iterated):
            return f"for {ast.unparse(target)} in {ast.unparse(iterated)}:"
        case ast.With(items):
            return f"with {', '.join(ast.unparse(each) for each in items)}:"
        case ast.Match(subject, cases):
            told = [ast.unparse(each).split("\n")[0] for each in cases]
            return f"match {ast.unparse(subject)}: {' '.join(told)}"
        case ast.Try():
            return "try:"
    return " ".join(ast.unparse(statement).split("\n"))
