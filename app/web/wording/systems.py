"""Common systems to start from: their parts, no conductor between them."""

from __future__ import annotations

from typing import Any

from app.catalogue.catalogue import Catalogue
from app.web.wording.adding import kinds_to_add

SYSTEMS = (
    ("heat-only", "Heat only", ("control-transformer", "furnace-board", "thermostat-heat-only")),
    (
        "heat-and-cooling",
        "Furnace and cooling",
        ("control-transformer", "furnace-board", "condensing-unit", "thermostat-heat-cool"),
    ),
    (
        "heat-pump",
        "Heat pump with electric heat",
        ("control-transformer", "air-handler-board", "heat-pump-unit", "thermostat-heat-pump"),
    ),
    (
        "dual-fuel",
        "Heat pump over a furnace",
        ("control-transformer", "furnace-board-2-stage", "heat-pump-unit", "thermostat-dual-fuel"),
    ),
)


def systems_to_start(catalogue: Catalogue) -> list[dict[str, Any]]:
    """Return the systems all of whose kinds the catalogue has."""
    return [
        {
            "name": name,
            "title": title,
            "kinds": list(kinds),
            "names": ", ".join(catalogue.kind(kind).title for kind in kinds),
        }
        for name, title, kinds in SYSTEMS
        if all(kind in catalogue for kind in kinds)
    ]


def systems_as_layouts(catalogue: Catalogue) -> list[dict[str, Any]]:
    """Return the systems with the parts that a job begins with, by id; the drawing finds their places."""
    places = {row["kind"]: row for group in kinds_to_add(catalogue) for row in group["kinds"]}
    return [
        {
            "name": system["name"],
            "title": system["title"],
            "parts": {kind: _part(places[kind]) for kind in system["kinds"]},
        }
        for system in systems_to_start(catalogue)
    ]


def _part(row: dict[str, Any]) -> dict[str, Any]:
    # What stands before the first comma of the title is name enough.
    return {"kind": row["kind"], "label": row["title"].partition(",")[0], "place": row["place"]}
