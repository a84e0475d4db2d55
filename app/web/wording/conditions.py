"""What the equipment stands in: the weather and the mains, in the situation that is shown."""

from __future__ import annotations

from typing import Any

from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.supplies import supplies_of
from app.job.temperatures import temperature_words
from app.web.wording.naming import Naming

USUAL = Situation()


def condition_words(naming: Naming, point: OperatingPoint | None) -> dict[str, Any]:
    """Return ``outdoor_c``, ``supply_percent`` and ``supplies``: each with what it feeds and whether it is on."""
    situation = point.situation if point is not None else USUAL
    return {
        "outdoor_c": situation.outdoor_c,
        "supply_percent": situation.supply_percent,
        "supplies": [
            {
                "name": supply,
                "words": " and ".join(naming.part(part) for part in parts),
                "on": situation.mains.get(supply) != "off",
            }
            for supply, parts in supplies_of(naming.layout, naming.catalogue).items()
        ],
    }


def unusual_words(situation: Situation, naming: Naming) -> list[str]:
    """Return what is not usual: ``-8 °C outdoors``, ``supply at 88 %``, ``mains of the furnace off``."""
    said = []
    if situation.outdoor_c != USUAL.outdoor_c:
        said.append(f"{temperature_words(situation.outdoor_c, naming.units)} outdoors")
    if not situation.supply_percent:
        return [*said, "all power off"]
    if situation.supply_percent != USUAL.supply_percent:
        said.append(f"supply at {situation.supply_percent:g} %")
    if "off" in situation.mains.values():
        fed = supplies_of(naming.layout, naming.catalogue)
        off = [part for supply, parts in fed.items() if situation.mains.get(supply) == "off" for part in parts]
        said.append(f"mains of {' and '.join(naming.inner_part(part) for part in off)} off")
    return said
