"""Pairs of layouts with one change between them, for each mark that a drawing of changes has."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Ends = tuple[str | None, str | None]
Layout = dict[str, Any]

PARTS: Mapping[str, Mapping[str, Any]] = {
    "xf": {"kind": "control-transformer", "label": "Control transformer", "at": [0, 120]},
    "fb": {"kind": "furnace-board", "label": "Furnace board", "at": [360, 0]},
    "tc": {"kind": "thermostat-heat-cool-split", "label": "Thermostat", "at": [720, 24]},
}
WIRES: Mapping[str, Ends] = {
    "w1": ("xf.R", "fb.XF"),
    "w2": ("xf.C", "fb.XC"),
    "w3": ("fb.R", "tc.RH"),
    "w4": ("fb.W", "tc.W"),
    "w5": ("fb.Y", "tc.Y"),
}
OTHER_THERMOSTAT = {"kind": "thermostat-heat-only"}
"""It has neither Y nor the supply for cooling."""


def layout(wires: Mapping[str, Ends | None] = {}, thermostat: Mapping[str, Any] | None = {}) -> Layout:
    """Return a small furnace with these wires otherwise (None: not there), and its thermostat so (None: not there)."""
    there = {name: ends for name, ends in {**WIRES, **wires}.items() if ends is not None}
    parts = {name: dict(part) for name, part in PARTS.items()}
    if thermostat is None:
        del parts["tc"]
        there = {name: ends for name, ends in there.items() if not any((end or "").startswith("tc.") for end in ends)}
    else:
        parts["tc"].update(thermostat)
    return {"parts": parts, "conductors": {name: {"ends": list(ends)} for name, ends in there.items()}}


WITHOUT_Y: Mapping[str, Ends | None] = {"w5": None, "w3": ("fb.R", "tc.R")}

CHANGES: Mapping[str, tuple[Layout, Layout]] = {
    "nothing": (layout(), layout()),
    "wire added": (layout(), layout({"w6": ("fb.G", "tc.G")})),
    "wire added, one end free": (layout(), layout({"w6": (None, "tc.G")})),
    "wire left off": (layout(), layout({"w5": None})),
    "end moved": (layout({"w4": ("fb.W", "tc.G")}), layout()),
    "end left off": (layout(), layout({"w4": ("fb.W", None)})),
    "end put on": (layout({"w4": ("fb.W", None)}), layout()),
    "part added": (layout(thermostat=None), layout()),
    "part left off": (layout(), layout(thermostat=None)),
    "part replaced": (layout(), layout(WITHOUT_Y, OTHER_THERMOSTAT)),
    "jumper put in": (layout(thermostat={"settings": {"rh_rc": "removed"}}), layout()),
    "jumper taken out": (layout(), layout(thermostat={"settings": {"rh_rc": "removed"}})),
    "all": (
        layout({"w4": ("fb.W", "tc.G"), "w6": ("fb.C", "tc.RC")}),
        layout({"w5": None, "w6": ("fb.C", None), "w7": ("fb.HUM", "tc.G"), "w8": (None, "tc.Y")}),
    ),
}
"""What was, and what is."""
