"""A document while a patch is applied to it, with its size always known.

Rules of the file: nothing that was handed in is ever changed. An edit copies the objects and lists on the way to its
place and shares all the rest, so a ``copy`` of a megabyte costs nothing, and its size is added up before it is made.
Sizes are bytes of compact UTF-8 JSON. The limits are judged here, before each edit takes place.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.job.json_values import MOST_BYTES, MOST_DEPTH, compact
from app.job.names import pointer
from app.job.pointers import child_of, index_of, missing, value_at
from app.job.refusal import Refused

Steps = tuple[str, ...]


class Sizes:
    """Sizes and depths of values, each object and list measured once.

    They are remembered by identity, and the value is kept beside its figure so that no identity is used again.
    """

    def __init__(self) -> None:
        self._bytes: dict[int, tuple[Any, int]] = {}
        self._depths: dict[int, tuple[Any, int]] = {}

    def bytes_of(self, value: Any) -> int:
        """Return the bytes of the compact text of a value."""
        if not isinstance(value, dict | list):
            return len(compact(value).encode())
        known = self._bytes.get(id(value))
        if known is None:
            known = self._bytes[id(value)] = (value, len(compact(value).encode()))
        return known[1]

    def depth_of(self, value: Any) -> int:
        """Return how many objects and lists lie in each other: 0 for a single value, 1 for an empty list."""
        if not isinstance(value, dict | list):
            return 0
        known = self._depths.get(id(value))
        if known is None:
            inner = value.values() if isinstance(value, dict) else value
            depth = 1 + max((self.depth_of(each) for each in inner if isinstance(each, dict | list)), default=0)
            known = self._depths[id(value)] = (value, depth)
        return known[1]

    def carry_over(self, old: Any, new: Any, growth: int) -> None:
        """Note the bytes of ``new``, which is ``old`` with an edit of ``growth`` bytes inside, if those are known."""
        known = self._bytes.get(id(old))
        if known is not None:
            self._bytes[id(new)] = (new, known[1] + growth)


class WorkingCopy:
    """The document between two operations of a patch."""

    def __init__(self, document: Any) -> None:
        self.document = document
        self.sizes = Sizes()
        self.bytes = self.sizes.bytes_of(document)

    def at(self, steps: Steps) -> Any:
        """Return what stands at a place; ``Refused`` (``no-such-target``) where nothing does."""
        return value_at(self.document, steps)

    def holds(self, steps: Steps) -> bool:
        """Return whether an object has the member that the last step names."""
        parent = self.at(steps[:-1])
        return isinstance(parent, dict) and steps[-1] in parent

    def add(self, steps: Steps, value: Any) -> None:
        """Put a value in: a member of an object, before a place of a list, or after its end (``-``)."""
        if not steps:
            self.replace(steps, value)
            return
        parent = self.at(steps[:-1])
        if isinstance(parent, dict) and steps[-1] in parent:
            self.replace(steps, value)
        elif isinstance(parent, dict):
            growth = len(compact(steps[-1]).encode()) + 1 + self.sizes.bytes_of(value) + bool(parent)
            self._edit(steps, growth, value, lambda old: {**old, steps[-1]: value})
        elif isinstance(parent, list):
            place = len(parent) if steps[-1] == "-" else index_of(steps[-1], len(parent) + 1, steps)
            growth = self.sizes.bytes_of(value) + bool(parent)
            self._edit(steps, growth, value, lambda old: [*old[:place], value, *old[place:]])
        else:
            raise missing(parent, steps[-1], steps)

    def replace(self, steps: Steps, value: Any) -> None:
        """Put a value where one stands."""
        growth = self.sizes.bytes_of(value) - self.sizes.bytes_of(self.at(steps))
        if not steps:
            self._judge(steps, growth, value)
            self.document = value
            self.bytes += growth
            return
        self._edit(steps, growth, value, lambda old: _with(old, steps, value))

    def remove(self, steps: Steps) -> Any:
        """Take out what stands at a place, and return it."""
        if not steps:
            message = "The whole document cannot be removed."
            raise Refused("no-such-target", message, pointer="", would_be_right="`replace` by another document")
        value, parent = self.at(steps), self.at(steps[:-1])
        name = len(compact(steps[-1]).encode()) + 1 if isinstance(parent, dict) else 0
        self._edit(steps, -(name + self.sizes.bytes_of(value) + (len(parent) > 1)), None, lambda old: _less(old, steps))
        return value

    def _edit(self, steps: Steps, growth: int, value: Any, edit: Callable[[Any], Any]) -> None:
        self._judge(steps, growth, value)
        way = [self.document]
        for number, step in enumerate(steps[:-1]):
            way.append(child_of(way[-1], step, steps[: number + 1]))
        new = edit(way[-1])
        self.sizes.carry_over(way[-1], new, growth)
        for number in range(len(way) - 2, -1, -1):
            old, new = way[number], _with(way[number], steps[: number + 1], new)
            self.sizes.carry_over(old, new, growth)
        self.document = new
        self.bytes += growth

    def _judge(self, steps: Steps, growth: int, value: Any) -> None:
        if self.bytes + growth > MOST_BYTES:
            raise Refused(
                "too-large",
                f"The job would be {self.bytes + growth:,} bytes long.",
                pointer=pointer(*steps),
                would_be_right=f"at most {MOST_BYTES:,} bytes after every operation",
                status_hint=413,
            )
        if len(steps) + self.sizes.depth_of(value) > MOST_DEPTH:
            raise Refused(
                "too-deep",
                f"Objects and lists would lie more than {MOST_DEPTH} deep in each other.",
                pointer=pointer(*steps),
                would_be_right=f"at most {MOST_DEPTH} levels after every operation",
            )


def _with(parent: Any, steps: Steps, value: Any) -> Any:
    if isinstance(parent, dict):
        return {**parent, steps[-1]: value}
    place = int(steps[-1])
    return [*parent[:place], value, *parent[place + 1 :]]


def _less(parent: Any, steps: Steps) -> Any:
    if isinstance(parent, dict):
        return {key: inner for key, inner in parent.items() if key != steps[-1]}
    place = int(steps[-1])
    return [*parent[:place], *parent[place + 1 :]]
