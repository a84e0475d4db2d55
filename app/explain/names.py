"""How parts, terminals, conductors and elements of a layout are called in a sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from app.catalogue.called import called_with_sort, switch_called
from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind
from app.catalogue.spoken import effect_words
from app.job.model import Layout
from app.job.names import letter_of, part_of, short_names
from app.job.temperatures import Units


@dataclass(frozen=True)
class Names:
    """The names of one layout's things, and the units in which temperatures are told."""

    layout: Layout
    catalogue: Catalogue
    units: Units = "si"

    def part(self, part: str) -> str:
        """Return a part's label up to its first comma, else all of it, else with its id: what tells it from others."""
        return self._labels.get(part, part)

    def placed(self, part: str) -> str:
        """Return a part's label, else the title of its kind, and where it stands, unless the label ends with that."""
        found, kind = self.layout.parts[part], self.kind(part)
        called = found.label or (kind.title if kind is not None else "not known")
        told = found.place in ("", "main") or called.endswith(f", {found.place}")
        return called if told else f"{called}, {found.place}"

    def terminal(self, terminal: str) -> str:
        """Return ``R of Furnace board``."""
        return f"{letter_of(terminal)} of {self.part(part_of(terminal))}"

    def conductor(self, conductor: str) -> str:
        """Return what people call a conductor."""
        return self._called.get(conductor, conductor)

    def element(self, name: str) -> str:
        """Return ``contactor of Heat pump``; a contact that a switch moves is called by what the switch is."""
        part, _, inner = name.partition(".")
        return f"{self.inner(part, inner)} of {self.part(part)}"

    def inner(self, part: str, inner: str) -> str:
        """Return an element within its part."""
        return called_with_sort(self.kind(part), inner)

    def switch(self, part: str, name: str) -> str:
        """Return what a switch is, up to the first comma or colon of what its kind says."""
        return switch_called(self.kind(part), name)

    def effect(self, part: str, effect: str) -> str:
        """Return ``compressor of Heat pump``."""
        return f"{'zone' if effect == 'zone-open' else effect_words(effect)} of {self.part(part)}"

    def kind(self, part: str) -> Kind | None:
        """Return the kind of a part, None where nobody knows it."""
        return self.catalogue.kind_of(self.layout.parts[part])

    @cached_property
    def _called(self) -> Mapping[str, str]:
        return short_names(self.layout.conductors)

    @cached_property
    def _labels(self) -> Mapping[str, str]:
        whole = {part: found.label or self._title(part) for part, found in self.layout.parts.items()}
        short = {part: label.partition(",")[0] for part, label in whole.items()}
        alike, still_alike = Counter(short.values()), Counter(whole.values())

        def said(part: str) -> str:
            if alike[short[part]] == 1:
                return short[part]
            return whole[part] if still_alike[whole[part]] == 1 else f"{whole[part]} ({part})"

        return {part: said(part) for part in whole}

    def _title(self, part: str) -> str:
        kind = self.kind(part)
        return part if kind is None else kind.title
