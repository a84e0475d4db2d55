"""The words that both lists and the flags share: parts, cables and lengths."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue
from app.explain.names import Names
from app.job.model import Cable, Layout
from app.job.temperatures import Units
from app.tables.csv_text import figure_text

FEET_PER_METRE = 1 / 0.3048
CONTINUED = ", continued"
"""Behind the title of a block that goes on with what the one above began."""


def head_of(title: str) -> str:
    """Return by what a block is looked up: ``fb`` of ``fb: Furnace, continued``, ``In no cable`` of itself."""
    return title.removesuffix(CONTINUED).partition(":")[0]


def part_words(layout: Layout, catalogue: Catalogue, part: str) -> str:
    """Return ``fb: Furnace board, basement``."""
    return f"{part}: {Names(layout, catalogue).placed(part)}"


def called(layout: Layout, catalogue: Catalogue, part: str) -> str:
    """Return what a part is called: its label, else the title of its kind."""
    kind = catalogue.kind_of(layout.parts[part])
    return layout.parts[part].label or (kind.title if kind is not None else "not known")


def cable_words(name: str, cable: Cable | None) -> str:
    """Return ``Cable cb1: 8-conductor to hall``; for no cable ``In no cable``."""
    if not name:
        return "In no cable"
    return f"Cable {name}: {cable.label}" if cable is not None and cable.label else f"Cable {name}"


def length_words(length_m: float | None, units: Units) -> str:
    """Return a length in metres and feet, the unit of the job first: ``14 m (46 ft)``, ``46 ft (14 m)``."""
    if length_m is None:
        return ""
    feet = length_m * FEET_PER_METRE
    if feet >= 10:
        both = f"{figure_text(round(length_m, 2))} m", f"{feet:.0f} ft"
    else:
        both = f"{length_m:.2g} m", f"{feet:.1f} ft"
    first, second = both if units == "si" else both[::-1]
    return f"{first} ({second})"
