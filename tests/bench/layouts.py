"""Small layouts on which gestures are tried; where parts stand is said, so that no test depends on the placing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

TRANSFORMER = {"kind": "control-transformer", "label": "Control transformer", "at": [0, 120]}
FURNACE = {"kind": "furnace-board", "label": "Furnace board", "at": [480, 0]}
THERMOSTAT = {"kind": "thermostat-heat-cool", "label": "Thermostat", "place": "hall", "at": [960, 0]}

HEATING: dict[str, Any] = {"xf": TRANSFORMER, "fb": FURNACE, "tc": THERMOSTAT}
HEATING_WIRES = (("xf.R", "fb.XF"), ("xf.C", "fb.XC"), ("fb.R", "tc.R"), ("fb.W", "tc.W"))
"""w1 to w4: a furnace that heats when it is called."""


UNIT = {"kind": "condensing-unit", "label": "Condensing unit", "place": "outdoors", "at": [960, 480]}
COOLING: dict[str, Any] = {**HEATING, "ou": UNIT}
COOLING_WIRES = (
    *HEATING_WIRES,
    ("fb.G", "tc.G"),
    ("fb.Y", "tc.Y"),
    ("fb.Y", "ou.Y"),
    ("fb.C", "ou.C"),
)
"""w1 to w8: the same with cooling."""


def layout_of(parts: Mapping[str, Any], *wires: tuple[str, str | None]) -> dict[str, Any]:
    """Return a layout of these parts and wires named w1, w2 …"""
    full = {name: {"kind": part} if isinstance(part, str) else part for name, part in parts.items()}
    return {"parts": full, "conductors": {f"w{n}": {"ends": list(ends)} for n, ends in enumerate(wires, start=1)}}
