"""A mapping whose values, and a collection whose members, are worked out when somebody asks for them, once."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Generic, TypeVar

T = TypeVar("T")


class Lazy(Mapping[str, T]):
    """Values by name. From outside it cannot be changed."""

    __slots__ = ("_found", "_make", "_names")

    def __init__(self, names: Collection[str], make: Callable[[str], T]) -> None:
        """``names`` are the keys in order, best a dict; ``make`` gives the value of one of them."""
        self._names = names
        self._make = make
        self._found: dict[str, T] = {}

    def __getitem__(self, name: str) -> T:
        found = self._found.get(name)
        if found is None:
            if name not in self._names:
                raise KeyError(name)
            found = self._found[name] = self._make(name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __contains__(self, name: object) -> bool:
        return name in self._names

    def __repr__(self) -> str:
        return f"{type(self).__name__}({dict(self)!r})"


class Made(Collection[T], Generic[T]):
    """A set that is made when it is first asked."""

    __slots__ = ("_found", "_make")

    def __init__(self, make: Callable[[], frozenset[T]]) -> None:
        self._make = make
        self._found: frozenset[T] | None = None

    def _members(self) -> frozenset[T]:
        if self._found is None:
            self._found = self._make()
        return self._found

    def __contains__(self, member: object) -> bool:
        return member in self._members()

    def __iter__(self) -> Iterator[T]:
        return iter(self._members())

    def __len__(self) -> int:
        return len(self._members())

    def __repr__(self) -> str:
        return f"{type(self).__name__}({set(self._members())!r})"
