"""What is different between two layouts, such as as-found and as-left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from app.job.model import End, Frozen, Layout


@dataclass(frozen=True, slots=True)
class Difference:
    """How one collection differs: ids sorted; ``changed`` gives for each id the fields that differ."""

    added: tuple[str, ...]
    removed: tuple[str, ...]
    changed: Mapping[str, tuple[str, ...]]

    def __bool__(self) -> bool:
        return bool(self.added or self.removed or self.changed)


@dataclass(frozen=True, slots=True)
class EndMoved:
    """One end of a conductor that both layouts have, landed elsewhere than before."""

    conductor: str
    end: Literal[0, 1]
    before: End
    after: End


@dataclass(frozen=True, slots=True)
class LayoutDifference:
    """All that differs between two layouts; false where nothing does. Ends are sorted by conductor and end."""

    parts: Difference
    cables: Difference
    conductors: Difference
    ends_moved: tuple[EndMoved, ...]

    def __bool__(self) -> bool:
        return bool(self.parts or self.cables or self.conductors)


def compare_layouts(before: Layout, after: Layout) -> LayoutDifference:
    """Return what was added, removed and changed on the way from one layout to another.

    Things are the same thing when they have the same id. A field that is not said equals its default that is said.
    """
    conductors = _compare(before.conductors, after.conductors)
    ends: tuple[Literal[0], Literal[1]] = (0, 1)
    moved = (
        EndMoved(name, end, before.conductors[name].ends[end], after.conductors[name].ends[end])
        for name in conductors.changed
        for end in ends
    )
    return LayoutDifference(
        parts=_compare(before.parts, after.parts),
        cables=_compare(before.cables, after.cables),
        conductors=conductors,
        ends_moved=tuple(move for move in moved if move.before != move.after),
    )


def _compare(before: Mapping[str, Frozen], after: Mapping[str, Frozen]) -> Difference:
    changed = {name: _fields(before[name], after[name]) for name in sorted(before.keys() & after.keys())}
    return Difference(
        added=tuple(sorted(after.keys() - before.keys())),
        removed=tuple(sorted(before.keys() - after.keys())),
        changed={name: fields for name, fields in changed.items() if fields},
    )


def _fields(before: Frozen, after: Frozen) -> tuple[str, ...]:
    """Return the fields that differ, in the order of the model."""
    return tuple(name for name in type(before).model_fields if getattr(before, name) != getattr(after, name))
