"""Terms: the small language in which a kind says when a state, a call or an effect holds.

Rules of the file: a term is a small frozen tree, read once (``app.catalogue.reading_terms``) and walked; it is never
evaluated as Python.

============================  =====================================================  ===================
function                      in time                                                settled
============================  =====================================================  ===================
``after(x, 30 s)``            x, once it has held that long without a break          x
``hold(x, 90 s)``             x, and that long after its end                         x
``apart(x, 300 s)``           x, but not again within that time of its own end       x
``up_to(x, 600 s)``           x, but never longer than that at a stretch             x
``latch(set, reset)``         from set until reset; reset goes first                 set and not reset
``summed(x, 1800 s, reset)``  once x has held that long in all since reset held      x and not reset
``times(x, 3, reset)``        once x has ended that often since reset held           false
============================  =====================================================  ===================

What an instant is, and what a break is, stands in ``app.sequence.moments``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

Value = bool | int | float | str
ValueOf = Callable[[str], Value]


@dataclass(frozen=True, slots=True)
class Constant:
    """A number, text or truth value."""

    value: Value


@dataclass(frozen=True, slots=True)
class Named:
    """The present value of something that the kind names."""

    name: str


@dataclass(frozen=True, slots=True)
class Not:
    """True when its inner term is false."""

    inner: Tree


@dataclass(frozen=True, slots=True)
class Both:
    """True when both are."""

    left: Tree
    right: Tree


@dataclass(frozen=True, slots=True)
class Either:
    """True when one is."""

    left: Tree
    right: Tree


@dataclass(frozen=True, slots=True)
class Compared:
    """Two operands and how they are compared."""

    left: Constant | Named
    operator: str
    right: Constant | Named


@dataclass(frozen=True, slots=True)
class Timed:
    """``after``, ``hold``, ``apart`` or ``up_to`` with its seconds: a number, or the setting that holds it."""

    function: str
    inner: Tree
    seconds: float | str


@dataclass(frozen=True, slots=True)
class Counted:
    """``summed`` or ``times``: seconds or ends of its inner term, counted since ``reset_by`` held."""

    function: str
    inner: Tree
    amount: float | str
    reset_by: Tree


@dataclass(frozen=True, slots=True)
class Latched:
    """Stays true from ``set_by`` until ``reset_by``."""

    set_by: Tree
    reset_by: Tree


Tree = Constant | Named | Not | Both | Either | Compared | Timed | Counted | Latched


def holds(tree: Tree, value_of: ValueOf) -> bool:
    """Return the settled truth of a term, given the present value of each name."""
    match tree:
        case Constant(value):
            return bool(value)
        case Named(name):
            return _truth(value_of(name))
        case Not(inner):
            return not holds(inner, value_of)
        case Both(left, right):
            return holds(left, value_of) and holds(right, value_of)
        case Either(left, right):
            return holds(left, value_of) or holds(right, value_of)
        case Compared(left, operator, right):
            return _compare(_operand(left, value_of), operator, _operand(right, value_of))
        case Timed(_, inner, _):
            return holds(inner, value_of)
        case Counted(function, inner, _, reset_by):
            return function == "summed" and holds(inner, value_of) and not holds(reset_by, value_of)
        case Latched(set_by, reset_by):
            return holds(set_by, value_of) and not holds(reset_by, value_of)


def inner_of(tree: Tree) -> tuple[Tree, ...]:
    """Return the terms of which a term is made, in reading order."""
    match tree:
        case Constant() | Named():
            return ()
        case Not(inner) | Timed(_, inner, _):
            return (inner,)
        case (
            Both(left, right)
            | Either(left, right)
            | Compared(left, _, right)
            | Latched(left, right)
            | Counted(_, left, _, right)
        ):
            return left, right


def _names_through(tree: Tree, inner: Callable[[Tree], tuple[Tree, ...]]) -> Iterator[str]:
    """Yield the names that are met on the way through ``inner``, in reading order, repeats included."""
    if isinstance(tree, Named):
        yield tree.name
    for each in inner(tree):
        yield from _names_through(each, inner)


def names_in(tree: Tree) -> Iterator[str]:
    """Yield every name whose value a term asks for, in reading order, repeats included; amounts are not among them."""
    return _names_through(tree, inner_of)


def names_in_settled(tree: Tree) -> Iterator[str]:
    """Yield the names on which the settled truth of a term depends, in reading order, repeats included."""
    return _names_through(
        tree, lambda each: () if isinstance(each, Counted) and each.function == "times" else inner_of(each)
    )


def untimed_names_in(tree: Tree) -> Iterator[str]:
    """Yield the names on which a term depends at once, not through a timer or a latch."""
    return _names_through(tree, lambda each: () if isinstance(each, Timed | Counted | Latched) else inner_of(each))


def names_with_a_say(tree: Tree) -> Iterator[str]:
    """Yield the names that can make a term true at once: all but those that must hold for a while first."""
    return _names_through(tree, _at_once)


def _at_once(tree: Tree) -> tuple[Tree, ...]:
    match tree:
        case Timed("after"):
            return ()
        case Counted("summed", _, _, reset_by):
            return (reset_by,)
        case _:
            return inner_of(tree)


def comparisons_in(tree: Tree) -> Iterator[Compared]:
    """Yield every comparison of a term, in reading order."""
    if isinstance(tree, Compared):
        yield tree
    for each in inner_of(tree):
        yield from comparisons_in(each)


def timers_in(tree: Tree) -> Iterator[Timed | Counted | Latched]:
    """Yield every part of a term that remembers something, outermost first, in reading order."""
    if isinstance(tree, Timed | Counted | Latched):
        yield tree
    for each in inner_of(tree):
        yield from timers_in(each)


def amount_of(timer: Timed | Counted, value_of: ValueOf) -> float:
    """Return the seconds of a timer, or how often ``times`` counts, given the value of each setting."""
    amount = timer.seconds if isinstance(timer, Timed) else timer.amount
    return float(value_of(amount)) if isinstance(amount, str) else amount


def _truth(value: Value) -> bool:
    """A switch or jumper stands for its closed position when it is named alone."""
    if isinstance(value, str):
        return value in ("closed", "fitted", "on")
    return bool(value)


def _operand(tree: Constant | Named, value_of: ValueOf) -> Value:
    return tree.value if isinstance(tree, Constant) else value_of(tree.name)


def _compare(left: Value, operator: str, right: Value) -> bool:
    if operator == "==":
        return left == right
    if operator == "!=":
        return left != right
    if isinstance(left, str) or isinstance(right, str):
        return False
    if operator == "<":
        return left < right
    if operator == "<=":
        return left <= right
    if operator == ">":
        return left > right
    return left >= right
