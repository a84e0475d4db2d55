"""What became of each part, wire and cable on the way from one layout to another.

Rules of the file: what differs is asked of ``app.job.compare``, never found out here. Which wire is which, and what is
no change at all, is found in ``alike`` beforehand. A wire that has only another name than before has not changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from app.catalogue.catalogue import Catalogue
from app.drawing.comparing.alike import said_alike
from app.job.compare import Difference, LayoutDifference, compare_layouts
from app.job.model import Layout
from app.job.names import short_names

PartFate = Literal["new", "taken out", "replaced", "changed"]
WireFate = Literal["new", "taken off", "moved", "changed"]


@dataclass(frozen=True)
class Changes:
    """Two layouts and what became of the things in them; what is named nowhere here is as it was.

    Attributes:
        before: the earlier layout, said in the words of ``after``.
        after: the later layout.
        difference: all that differs between the two.
        parts, wires: what became of each that did not stay as it was.
        ends: the ends that moved, by wire.
        called: what people call each wire of either layout.
        renamed: what a wire was called before, where that was something else.
    """

    before: Layout
    after: Layout
    difference: LayoutDifference
    parts: Mapping[str, PartFate]
    wires: Mapping[str, WireFate]
    ends: Mapping[str, tuple[int, ...]]
    called: Mapping[str, str]
    renamed: Mapping[str, str]

    def __bool__(self) -> bool:
        return bool(self.difference) or bool(self.renamed)


def changes_between(before: Layout, after: Layout, catalogue: Catalogue) -> Changes:
    """Return what changed between two layouts of one job."""
    alike, ids = said_alike(before, after, catalogue)
    difference = compare_layouts(alike, after)
    ends: dict[str, tuple[int, ...]] = {}
    for move in difference.ends_moved:
        ends[move.conductor] = (*ends.get(move.conductor, ()), move.end)
    parts = {name: _part_fate(fields) for name, fields in _fields(difference.parts)}
    wires = {name: _wire_fate(fields) for name, fields in _fields(difference.conductors)}
    old, new = short_names(before.conductors), short_names(after.conductors)
    called = {**{now: old[was] for now, was in ids.items()}, **new}
    renamed = {now: old[was] for now, was in ids.items() if now in new and old[was] != new[now]}
    return Changes(
        alike, after, difference, dict(sorted(parts.items())), dict(sorted(wires.items())), ends, called, renamed
    )


def _fields(difference: Difference) -> Iterator[tuple[str, tuple[str, ...] | bool]]:
    """Yield each thing with the fields that differ; True for one that was added, False for one that was removed."""
    yield from ((name, True) for name in difference.added)
    yield from ((name, False) for name in difference.removed)
    yield from difference.changed.items()


def _part_fate(fields: tuple[str, ...] | bool) -> PartFate:
    if isinstance(fields, bool):
        return "new" if fields else "taken out"
    return "replaced" if "kind" in fields else "changed"


def _wire_fate(fields: tuple[str, ...] | bool) -> WireFate:
    if isinstance(fields, bool):
        return "new" if fields else "taken off"
    return "moved" if "ends" in fields else "changed"
