"""Wirings with a sneak path in each of its shapes, each with a clean twin, for the examples of ``sneak-path``.

Patterns from sneak circuit analysis: single line, power dome, ground dome, both domes, H. Invented for the examples.
"""

from __future__ import annotations

from app.checks.samples import Parts, Wires, gas_and_cooling
from app.job.model import Layout
from app.job.sketch import sketch

OUTDOORS: Parts = {"ot": {"kind": "outdoor-temperature-switch", "settings": {"closed_when": "warmer"}}}
AROUND_OUTDOORS: Wires = {"w12": "ah.W1 ot.A", "w13": "ot.B ou.Y"}
"""An H: two calls with two loads, and a contact across."""

_RELAYS: Parts = {"i1": "isolation-relay", "i2": "isolation-relay", "sw": "isolation-relay"}
_SHARED_COMMON: Wires = {
    "a1": "fb.G i1.A1",
    "a2": "i1.A2 sw.COM",
    "a3": "fb.W i2.A1",
    "a4": "i2.A2 sw.COM",
    "a5": "sw.NO fb.C",
    "a6": "fb.Y sw.A1",
    "a7": "sw.A2 fb.C",
}
ON_ONE_CALL: Wires = {"w10": "t2.W fb.W", "w11": "xf2.C fb.C"}
"""A power dome: two thermostats of two transformers on one call for heat."""
RELAY_BETWEEN: Wires = {"r1": "t2.W ir.A1", "r2": "ir.A2 xf2.C", "r3": "fb.R ir.COM", "r4": "ir.NO fb.W"}
"""Its clean twin: the second thermostat works a relay, which passes on the supply of the furnace."""
CHANGE_OVER: Wires = {
    "w4": "tc.W ir.NC",
    "r1": "t2.W ir.A1",
    "r2": "ir.A2 xf2.C",
    "r3": "ir.COM fb.W",
    "r4": "ir.NO xf2.R",
    "w11": "xf2.C fb.C",
}
"""Another one: the relay takes the call from the first thermostat before it gives it the supply of the second."""

_SOURCE_PARTS: Parts = {
    "xf2": {"kind": "control-transformer", "settings": {"mains_supply": "second"}},
    "t2": "thermostat-heat-only",
    "tc": {"kind": "thermostat-heat-cool", "settings": {"mode": "heat"}},
    "ir": "isolation-relay",
}
_VALVE_PARTS: Parts = {
    "xf": "control-transformer",
    "ta": "thermostat-heat-only",
    "tb": "thermostat-heat-only",
    "za": "zone-valve",
    "zb": "zone-valve",
    "ir": "isolation-relay",
    "bc": "boiler-control",
}
_VALVE_WIRES: dict[str, str] = {
    "w1": "xf.R ta.R",
    "w2": "xf.R tb.R",
    "w3": "ta.W za.M1",
    "w4": "tb.W zb.M1",
    "w5": "xf.C za.M2",
    "w6": "xf.C zb.M2",
    "e1": "za.M1 za.E1",
    "e2": "zb.M1 zb.E1",
    "w7": "za.E2 zb.E2",
    "w8": "zb.E2 ir.A1",
    "w9": "ir.A2 xf.C",
    "w10": "ir.COM bc.T1",
    "w11": "ir.NO bc.T2",
}


def with_relays(wires: Wires | None = None) -> Layout:
    """Two relays on two calls whose common a third one opens: a ground dome."""
    return gas_and_cooling({**_SHARED_COMMON, **(wires or {})}, _RELAYS)


def two_valves(wires: Wires | None = None) -> Layout:
    """Two zone valves whose end switches start one boiler, fed from the calls of their own zones: both domes."""
    every = {**_VALVE_WIRES, **(wires or {})}
    return sketch(_VALVE_PARTS, *(f"{name}: {ends}" for name, ends in every.items()))


def two_sources(wires: Wires) -> Layout:
    """A furnace with a thermostat of its own and one on a second transformer; ``wires`` bring the call of the latter
    to the furnace."""
    return gas_and_cooling({"w9": "xf2.R t2.R", **wires}, _SOURCE_PARTS)
