"""A job in either unit, and what has to stand on its sheets."""

from __future__ import annotations

import json
from typing import Any

from app.job.temperatures import Units
from tests.demo_jobs.demos import text_of

CHANGES = ("0:tc=heat-1", "60:outdoor=-8", "90:tc.switch_over_c=5", "120:supply=90", "180:furnace=off")
"""Weather, and a setting that is a temperature."""
SAID: dict[Units, dict[str, tuple[str, ...]]] = {
    "us": {
        "timing": ("68 °F", "17.6 °F", "41 °F", "outdoors 17.6 °F at 1:00"),
        "changes": ("35.6 °F", "52 ft (16 m)"),
        "wires": ("52 ft (16 m)",),
    },
    "si": {
        "timing": ("20 °C", "-8 °C", "5 °C", "outdoors -8 °C at 1:00"),
        "changes": ("2 °C", "16 m (52 ft)"),
        "wires": ("16 m (52 ft)",),
    },
}
OTHER: dict[Units, str] = {"us": "°C", "si": "°F"}


def job_in(units: Units) -> dict[str, Any]:
    """Return a job with a thermostat that is set up for a temperature, in these units."""
    document: dict[str, Any] = json.loads(text_of("post-office-dual-fuel"))
    document["settings"]["units"] = units
    return document


def missing(svg: str, view: str, units: Units) -> list[str]:
    """Return what should stand on a view of that job and does not, and the other unit where that stands there."""
    words = [said for said in SAID[units].get(view, ()) if f">{said}" not in svg and f", {said}" not in svg]
    return [*words, *(OTHER[units] for _ in range(svg.count(OTHER[units])))]
