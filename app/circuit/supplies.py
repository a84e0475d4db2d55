"""The mains supplies that feed the sources of a layout, each behind a disconnect of its own."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue, settings_of, supply_of
from app.catalogue.kind import Source
from app.job.model import Layout


def supplies_of(layout: Layout, catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    """Return the names of the supplies, each with the parts whose sources it feeds."""
    fed: dict[str, list[str]] = {}
    for name, part in layout.parts.items():
        kind = catalogue.kind_of(part)
        for element in kind.elements.values() if kind is not None else ():
            if isinstance(element, Source) and kind is not None:
                here = fed.setdefault(supply_of(element, settings_of(kind, part)), [])
                if name not in here:
                    here.append(name)
    return {supply: tuple(fed[supply]) for supply in sorted(fed)}
