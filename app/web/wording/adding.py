"""What can be added to a layout, grouped by where such a part stands.

Rules of the file: the group follows from what a kind declares, so that a kind which a job brings along finds its
place too: what can call stands in the room, what gives power or has an effect at the equipment, the rest in between.
"""

from __future__ import annotations

from typing import Any

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind

GROUPS = (
    ("room", "In the room"),
    ("equipment", "At the equipment"),
    ("between", "In between"),
)


def kinds_to_add(catalogue: Catalogue) -> list[dict[str, Any]]:
    """Return the groups with their kinds, sorted by title, and the place that a new part of each is given."""
    rows = [_row(name, catalogue.kind(name)) for name in sorted(catalogue)]
    return [
        {"group": group, "title": title, "kinds": sorted((r for r in rows if r["group"] == group), key=_title)}
        for group, title in GROUPS
    ]


def group_of(kind: Kind) -> str:
    """Return where parts of a kind stand: ``room``, ``equipment`` or ``between``."""
    if kind.calls:
        return "room"
    if kind.effects or any(element.is_ == "source" for element in kind.elements.values()):
        return "equipment"
    return "between"


def _row(name: str, kind: Kind) -> dict[str, Any]:
    group = group_of(kind)
    return {"kind": name, "title": kind.title, "summary": kind.summary, "group": group, "place": _place(group, kind)}


def _place(group: str, kind: Kind) -> str:
    if group == "room":
        return "room"
    return "outdoors" if "outdoor-fan" in kind.effects else "equipment"


def _title(row: dict[str, Any]) -> str:
    return str(row["title"])
