"""Terms as functions: the same meaning as walking their tree, in a fraction of the time."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from app.catalogue.terms import (
    Both,
    Compared,
    Constant,
    Counted,
    Either,
    Latched,
    Named,
    Not,
    Timed,
    Tree,
    Value,
    holds,
)

Known = Mapping[str, Value]
Running = Callable[[Known], bool]

CLOSED_POSITIONS = frozenset({"closed", "fitted", "on"})


def running(tree: Tree) -> Running:
    """Return a function that tells whether a term holds, given the present value of each name."""
    match tree:
        case Constant(value):
            return _always(bool(value))
        case Named(name):
            return lambda known: is_true(known[name])
        case Not(inner):
            within = running(inner)
            return lambda known: not within(known)
        case Both(left, right):
            first, second = running(left), running(right)
            return lambda known: first(known) and second(known)
        case Either(left, right):
            first, second = running(left), running(right)
            return lambda known: first(known) or second(known)
        case Compared():
            return lambda known: holds(tree, known.__getitem__)
        case Timed(_, inner, _):
            return running(inner)
        case Counted("times"):
            return _always(False)
        case Latched(set_by, reset_by) | Counted(_, set_by, _, reset_by):
            set_now, reset_now = running(set_by), running(reset_by)
            return lambda known: set_now(known) and not reset_now(known)


def is_true(value: Value) -> bool:
    """Return what a name means when it stands alone; a switch or jumper stands for its closed position."""
    return value in CLOSED_POSITIONS if isinstance(value, str) else bool(value)


def _always(value: bool) -> Running:
    return lambda _: value
