"""What the sources ask of the program, in a few words: volts, amps and ohms of a layout as it settles."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.circuit.meter import read
from app.circuit.situation import Situation
from app.job.model import Layout
from app.job.sketch import Parts
from tests.circuit.bench import sketch, solved

FOOT_M = 0.3048
STILL = Situation()


def volts(layout: Layout, a: str, b: str, situation: Situation = STILL) -> float | str:
    """Return what an ideal meter shows from a to b, or the word ``floating`` or ``unknown``."""
    reading = read(solved(layout, situation), a, b)
    return reading.volts if reading.volts is not None else ("floating" if reading.floating else "unknown")


def amps(layout: Layout, element: str, situation: Situation = STILL) -> float:
    """Return the amps of an element."""
    return solved(layout, situation).elements[element].amps


def ohms(layout: Layout, element: str, situation: Situation = STILL) -> float:
    """Return the size of an element's impedance, from its volts and amps."""
    found = solved(layout, situation).elements[element]
    assert found.volts is not None
    return found.volts / found.amps


def state(layout: Layout, element: str, situation: Situation = STILL) -> str:
    """Return the state of an element in a word."""
    return solved(layout, situation).elements[element].state


def with_lengths(layout: Layout, length_m: float, size_awg: int = 18) -> Layout:
    """Return a layout with every conductor of one length and gauge."""
    said = {"length_m": length_m, "size_awg": size_awg}
    wires = {name: wire.model_copy(update=said) for name, wire in layout.conductors.items()}
    return layout.model_copy(update={"conductors": wires})


def conductor_ohms(length_m: float, size_awg: int) -> float:
    """Return the ohms of one conductor, from the volts along it and its amps."""
    parts: Parts = {"xf": "supply", "load": {"kind": "resistor", "settings": {"ohms": 20.0}}}
    point = solved(with_lengths(sketch(parts, "xf.R load.A", "xf.C load.B"), length_m, size_awg))
    along = read(point, "xf.R", "load.A").volts
    assert along is not None
    return along / point.conductors["w1"].amps


def supplied(load: Mapping[str, Any], **supply: Any) -> Layout:
    """Return one load ``ld`` on a transformer ``xf`` by ideal joins; settings of the transformer by name."""
    return sketch({"xf": {"kind": "supply", "settings": supply}, "ld": dict(load)}, "xf.R ld.A", "xf.C ld.B")


def load_of(va: float) -> dict[str, Any]:
    """Return a load of so many VA at 24 V."""
    return {"kind": "lamp", "settings": {"va": va}}
