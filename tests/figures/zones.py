"""A zoned group of any size: zones with a thermostat and a valve, some to a transformer, all calling one boiler."""

from __future__ import annotations

import json
from typing import Any

from app.catalogue.opening import Opened, open_job

ZONES_A_TRANSFORMER = 3


def zoned_group(parts: int) -> Opened:
    """Return a layout of one network with as many parts, or one less."""
    zones = 0
    while _parts_of(zones + 1) <= parts:
        zones += 1
    placed: dict[str, dict[str, Any]] = {"bo": {"kind": "boiler-control", "label": "Boiler"}}
    conductors: dict[str, dict[str, Any]] = {}

    def land(one: str, other: str, length_m: float) -> None:
        conductors[f"w{len(conductors) + 1}"] = {"ends": [one, other], "length_m": length_m, "size_awg": 18}

    for number in range(zones):
        transformer = f"x{number // ZONES_A_TRANSFORMER}"
        thermostat, valve = f"t{number}", f"v{number}"
        if transformer not in placed:
            placed[transformer] = {"kind": "transformer-with-breaker", "label": f"Transformer {transformer}"}
        placed[thermostat] = {"kind": "zone-thermostat", "label": f"Thermostat {number}", "air": f"room {number}"}
        placed[valve] = {"kind": "zone-valve-open-close", "label": f"Valve {number}", "air": f"room {number}"}
        land(f"{transformer}.R", f"{thermostat}.R", 13.0)
        land(f"{valve}.O", f"{thermostat}.O", 13.0)
        land(f"{valve}.K", f"{thermostat}.K", 13.0)
        land(f"{valve}.C", f"{transformer}.C", 1.5)
        land(f"{valve}.E1", "bo.T1", 2.5)
        land(f"{valve}.E2", "bo.T2", 2.5)
    document = {
        "format": "rungwright-job",
        "version": 1,
        "title": f"{zones} zones",
        "settings": {"frequency_hz": 60, "units": "us"},
        "layouts": {"as-left": {"parts": placed, "conductors": conductors}},
    }
    return open_job(json.dumps(document).encode())


def _parts_of(zones: int) -> int:
    return 1 + 2 * zones + -(-zones // ZONES_A_TRANSFORMER)
