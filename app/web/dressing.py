"""An example as a page shows it: parts called by what they are, closer together than a sheet has them.

Rules of the file: what an example is stays untouched; only names and places are put on, so that a small drawing can be
read and the words of a finding name parts as a person would.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.part_box import PartBox
from app.drawing.connection.placing import place_parts
from app.job.model import Layout

GAP = 156
"""Between two columns of parts, in sheet units: landings on both sides and some tracks between."""
ROW_GAP = 60


def dressed(layout: Layout, catalogue: Catalogue) -> Layout:
    """Return a layout with a label and a place for every part."""
    named = _labelled(layout, catalogue)
    at = _close_together(place_parts(named, catalogue).values())
    parts = {name: part.model_copy(update={"at": at[name]}) for name, part in named.parts.items()}
    return named.model_copy(update={"parts": parts})


def _labelled(layout: Layout, catalogue: Catalogue) -> Layout:
    """Call each part as its kind is called up to the first comma; alike ones are numbered."""
    words = {name: _short(layout, catalogue, name) for name in layout.parts}
    counts = Counter(words.values())
    seen: Counter[str] = Counter()
    parts = {}
    for name in sorted(layout.parts):
        seen[words[name]] += 1
        label = f"{words[name]} {seen[words[name]]}" if counts[words[name]] > 1 else words[name]
        parts[name] = layout.parts[name].model_copy(update={"label": layout.parts[name].label or label})
    return layout.model_copy(update={"parts": parts})


def _short(layout: Layout, catalogue: Catalogue, name: str) -> str:
    kind = catalogue.kind_of(layout.parts[name])
    return name if kind is None else kind.title.split(",")[0]


def _close_together(boxes: Iterable[PartBox]) -> Mapping[str, tuple[int, int]]:
    """Return a place for each part: the columns and the order that the sheet gives them, with less between."""
    columns: dict[int, list[PartBox]] = {}
    for box in boxes:
        columns.setdefault(box.box.x, []).append(box)
    at: dict[str, tuple[int, int]] = {}
    left = 0
    for x in sorted(columns):
        top = 0
        for box in sorted(columns[x], key=lambda each: (each.box.y, each.part)):
            at[box.part] = (left, top)
            top += box.box.h + ROW_GAP
        left += max(box.box.w for box in columns[x]) + GAP
    return at
