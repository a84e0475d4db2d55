"""Which names of a term decide that it holds, or that it does not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

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
    names_in,
)

ValueOf = Callable[[str], Value]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A name, its truth (that of the comparison in which it stands), and whether being true helps the whole term."""

    name: str
    holds: bool
    helps: bool = True

    @property
    def does_its_part(self) -> bool:
        """Return whether it stands as the term wants it."""
        return self.holds == self.helps


def deciding(tree: Tree, value_of: ValueOf) -> tuple[Leaf, ...]:
    """Return what decides a term as it stands, in reading order.

    Of several that each would do, the first: of an ``and`` that fails one failing side, of an ``or`` that holds one
    holding side.
    """
    return tuple(dict.fromkeys(_deciding(tree, value_of, helps=True)))


def _deciding(tree: Tree, value_of: ValueOf, *, helps: bool) -> list[Leaf]:
    match tree:
        case Constant():
            return []
        case Named(name):
            return [Leaf(name, holds(tree, value_of), helps)]
        case Not(inner):
            return _deciding(inner, value_of, helps=not helps)
        case Timed(_, inner, _):
            return _deciding(inner, value_of, helps=helps)
        case Both(left, right):
            return _of_two(left, right, value_of, helps=helps, together=True)
        case Either(left, right):
            return _of_two(left, right, value_of, helps=helps, together=False)
        case Counted(_, inner, _, reset_by) | Latched(inner, reset_by):
            reset = _deciding(reset_by, value_of, helps=not helps)
            # Only a reset that holds has anything to do with it.
            return [*_deciding(inner, value_of, helps=helps), *(reset if holds(reset_by, value_of) else ())]
        case Compared():
            return [Leaf(name, holds(tree, value_of), helps) for name in names_in(tree)][:1]


def _of_two(left: Tree, right: Tree, value_of: ValueOf, *, helps: bool, together: bool) -> list[Leaf]:
    """``together`` for an ``and``, which holds by both sides and fails by one; an ``or`` is the other way round."""
    first, second = holds(left, value_of), holds(right, value_of)
    if first == second == together:
        return [*_deciding(left, value_of, helps=helps), *_deciding(right, value_of, helps=helps)]
    return _deciding(left if first != together else right, value_of, helps=helps)
