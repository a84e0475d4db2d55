"""How parts, screws, ends and effects are called in a sentence.

Rules of the file: one thing has one name everywhere on the page, so every sentence gets its names from here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from app.catalogue.called import called_with_sort
from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind
from app.catalogue.spoken import plain
from app.job.model import End, Layout, UnknownEnd
from app.job.names import short_names
from app.job.temperatures import Units


@dataclass(frozen=True)
class Naming:
    """The names of one layout's things, and the units in which its job measures."""

    layout: Layout
    catalogue: Catalogue
    units: Units

    def kind_title(self, part: str) -> str:
        """Return what sort of thing a part is, in words."""
        kind = self.kind(part)
        return kind.title if kind is not None else "Unknown part"

    def kind(self, part: str) -> Kind | None:
        """Return the kind of a part, None where nobody could identify it."""
        return self.catalogue.kind_of(self.layout.parts[part])

    def part(self, part: str) -> str:
        """Return the name of a part as a heading: its label, with its id where two share that label."""
        return self._labels[part]

    def inner_part(self, part: str) -> str:
        """Return the name of a part inside a sentence: ``furnace board``."""
        return self._inner_labels.get(part, part)

    def terminal(self, terminal: str) -> str:
        """Return the name of a screw: ``C, furnace board``."""
        part, letter = terminal.split(".", 1)
        return f"{letter}, {self.inner_part(part)}"

    def conductor(self, conductor: str) -> str:
        """Return what people call a conductor; an id that the layout does not have stays as it is."""
        return self._called.get(conductor, conductor)

    @cached_property
    def _called(self) -> Mapping[str, str]:
        return short_names(self.layout.conductors)

    def end(self, end: End) -> str:
        """Return where an end is."""
        if end is None:
            return "not landed"
        if isinstance(end, UnknownEnd):
            return f"not known where ({end.unknown})"
        return self.terminal(end)

    def subject(self, subject: str) -> str:
        """Return the name of a subject such as ``terminal:fb.R`` or ``conductor:w3``."""
        sort, _, name = subject.partition(":")
        if sort == "part" and name in self.layout.parts:
            return self.part(name)
        if sort == "terminal":
            return self.terminal(name)
        if sort == "element" and "." in name:
            part, element = name.split(".", 1)
            kind = self.kind(part) if part in self.layout.parts else None
            return f"{called_with_sort(kind, element)}, {self.inner_part(part)}"
        return self.conductor(name) if sort == "conductor" else name

    @cached_property
    def _labels(self) -> dict[str, str]:
        said = {part: self.layout.parts[part].label or self.kind_title(part) for part in self.layout.parts}
        shared = Counter(said.values())
        return {part: label if shared[label] == 1 else f"{label} ({part})" for part, label in said.items()}

    @cached_property
    def _inner_labels(self) -> dict[str, str]:
        return {part: lower_first(label) for part, label in self._labels.items()}


def lower_first(words: str) -> str:
    """Return ``words`` for the middle of a sentence; what begins with two capitals stays as it is."""
    return words if words[1:2].isupper() else words[:1].lower() + words[1:]


def choice_words(value: object) -> str:
    """Return the value of a setting in words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return plain(value) if isinstance(value, str) else f"{value:g}" if isinstance(value, float) else str(value)
