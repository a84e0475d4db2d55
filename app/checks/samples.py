"""Small whole systems from which the examples of the rules are made, each sound as it stands.

A wire that is changed is given by its id: another pair of ends, or None to leave it out. Invented for the examples.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.job.model import Layout
from app.job.sketch import sketch

Parts = Mapping[str, str | Mapping[str, Any]]
Wires = Mapping[str, str | None]

TWO_WIRE_THERMOSTAT: Mapping[str, Any] = {
    "title": "Thermostat, heat only, powered through its load",
    "summary": "One contact for heat; its electronics lie across that contact and take a trickle through the load.",
    "terminals": {
        "R": {"function": "supply", "use": "24 V supply"},
        "W": {"function": "call", "use": "call for heat"},
    },
    "elements": {
        "electronics": {"is": "load", "between": ["R", "W"], "va": 0.48, "powers_above": 10, "basis": "1200 ohms"},
        "w": {"is": "contact", "between": ["R", "W"], "by": "calls"},
    },
    "calls": {"heat-1": {"use": "heat", "closes": {"w": "true"}}},
}
"""A kind that only examples use; its 1200 ohms are those of the calculated example of handbook section 15."""

_GAS_PARTS: Parts = {
    "xf": "control-transformer",
    "fb": "furnace-board",
    "tc": "thermostat-heat-cool",
    "ou": "condensing-unit",
}
_GAS_WIRES: Mapping[str, str] = {
    "w1": "xf.R fb.XF",
    "w2": "xf.C fb.C",
    "w3": "fb.R tc.R",
    "w4": "fb.W tc.W",
    "w5": "fb.Y tc.Y",
    "w6": "fb.G tc.G",
    "w7": "fb.Y ou.Y",
    "w8": "fb.C ou.C",
}
_PUMP_PARTS: Parts = {
    "xf": "control-transformer",
    "ah": "air-handler-board",
    "tc": "thermostat-heat-pump",
    "ou": "heat-pump-unit",
}
_PUMP_WIRES: Mapping[str, str] = {
    "w1": "xf.R ah.XF",
    "w2": "xf.C ah.C",
    "w3": "ah.R tc.R",
    "w4": "ah.C tc.C",
    "w5": "tc.Y ou.Y",
    "w6": "tc.O/B ou.O/B",
    "w7": "tc.G ah.G",
    "w8": "tc.W ah.W1",
    "w9": "ah.R ou.R",
    "w10": "ah.C ou.C",
    "w11": "ou.W ah.W1",
}
_DUAL_PARTS: Parts = {
    "xf": "control-transformer",
    "fb": "furnace-board",
    "tc": "thermostat-dual-fuel",
    "ou": "heat-pump-unit",
}
_DUAL_WIRES: Mapping[str, str] = {
    "w1": "xf.R fb.XF",
    "w2": "xf.C fb.C",
    "w3": "fb.R tc.RH",
    "w4": "fb.C tc.C",
    "w5": "tc.Y1 ou.Y",
    "w6": "tc.O/B ou.O/B",
    "w7": "tc.G fb.G",
    "w8": "tc.W1 fb.W",
    "w9": "fb.R ou.R",
    "w10": "fb.C ou.C",
    "w-defrost": "ou.W fb.W",
}
_TWO_PARTS: Parts = {
    "xf": "control-transformer",
    "fb": "furnace-board",
    "xf2": {"kind": "control-transformer", "settings": {"mains_supply": "second"}},
    "fr": "fan-relay",
    "tc": {"kind": "thermostat-heat-cool-split", "settings": {"rh_rc": "removed"}},
    "ou": "condensing-unit",
}
_TWO_WIRES: Mapping[str, str] = {
    "w1": "xf.R fb.XF",
    "w2": "xf.C fb.C",
    "w3": "fb.R tc.RH",
    "w4": "fb.W tc.W",
    "w5": "xf2.R tc.RC",
    "w6": "tc.Y ou.Y",
    "w7": "xf2.C ou.C",
    "w8": "tc.G fr.G",
    "w9": "xf2.C fr.C",
}
_BOILER_PARTS: Parts = {
    "xf": "control-transformer",
    "bc": "boiler-control",
    "zv": "zone-valve",
    "tc": "thermostat-heat-only",
}
_BOILER_WIRES: Mapping[str, str] = {
    "w1": "xf.R tc.R",
    "w2": "tc.W zv.M1",
    "w3": "zv.M2 xf.C",
    "w4": "zv.E1 bc.T1",
    "w5": "zv.E2 bc.T2",
}
_ELECTRIC_PARTS: Parts = {
    "xf": "control-transformer",
    "hs": "heat-sequencer",
    "fr": "fan-relay",
    "tc": "thermostat-heat-only",
}
_ELECTRIC_WIRES: Mapping[str, str] = {
    "w1": "xf.R tc.R",
    "w2": "tc.W hs.W",
    "w3": "hs.C xf.C",
    "w4": "xf.R hs.F1",
    "w5": "hs.F2 fr.G",
    "w6": "fr.C xf.C",
}


def gas_and_cooling(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A furnace, a condensing unit and a thermostat of contacts only, on one transformer."""
    return _system(_GAS_PARTS, _GAS_WIRES, parts, wires)


def with_humidifier(wires: Wires | None = None) -> Layout:
    """A furnace, cooling, and a humidifier that a humidity control of its own calls."""
    control = {"kind": "humidity-control", "settings": {"fan_with_humidity": False}}
    every: Wires = {"w9": "fb.R hc.R", "w10": "hc.H hu.H", "w11": "hu.C fb.C", **(wires or {})}
    return gas_and_cooling(every, {"hc": control, "hu": "humidifier"})


def heat_pump(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A heat pump over an air handler with electric heat, and an electronic thermostat."""
    return _system(_PUMP_PARTS, _PUMP_WIRES, parts, wires)


def dual_fuel(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A heat pump over a furnace, and an electronic thermostat that keeps them apart."""
    return _system(_DUAL_PARTS, _DUAL_WIRES, parts, wires)


def two_transformers(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A furnace and a cooling side with a transformer each, on a thermostat with separate supplies."""
    return _system(_TWO_PARTS, _TWO_WIRES, parts, wires)


def boiler_zone(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A zone valve whose end switch starts a boiler that feeds its own thermostat pair."""
    return _system(_BOILER_PARTS, _BOILER_WIRES, parts, wires)


def electric_heat(wires: Wires | None = None, parts: Parts | None = None) -> Layout:
    """A bank of electric heat on a sequencer that starts the fan with it, and a thermostat for heat alone."""
    return _system(_ELECTRIC_PARTS, _ELECTRIC_WIRES, parts, wires)


def _system(base_parts: Parts, base_wires: Mapping[str, str], parts: Parts | None, wires: Wires | None) -> Layout:
    all_wires: dict[str, str | None] = {**base_wires, **(wires or {})}
    return sketch(
        {**base_parts, **(parts or {})},
        *(f"{name}: {ends}" for name, ends in all_wires.items() if ends is not None),
    )


def with_wires(layout: Layout, names: str, **fields: Any) -> Layout:
    """Return a layout of which the conductors ``names`` (with spaces between) have other fields: length, gauge,
    insulation, note, cable."""
    changed = {name: layout.conductors[name].model_copy(update=fields) for name in names.split()}
    return layout.model_copy(update={"conductors": {**layout.conductors, **changed}})
