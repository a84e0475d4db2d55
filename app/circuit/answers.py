"""Operating points and readings in the JSON shapes of the commands; floats are not rounded."""

from __future__ import annotations

import cmath
import math
from typing import Any

from app.circuit.meter import Reading
from app.circuit.operating_point import ElementState, OperatingPoint, TerminalState, Unsettled


def solution_document(point: OperatingPoint) -> dict[str, Any]:
    """Return an operating point as JSON.

    Keys: settled, unsettled, terminals, elements, sources, conductors, effects; besides them blown (amps of each fuse
    before it opened) and effects_in_doubt. Figures that are unknown are null.
    """
    return {
        "settled": point.settled,
        "unsettled": None if point.unsettled is None else _unsettled(point.unsettled),
        "terminals": {name: _terminal(state) for name, state in point.terminals.items()},
        "elements": {name: _element(state) for name, state in point.elements.items()},
        "sources": {name: _source(point, name) for name in point.sources},
        "conductors": {name: _conductor(point, name) for name in point.conductors},
        "effects": _effects(point.effects),
        "blown": dict(point.blown),
        "effects_in_doubt": _effects(point.effects_in_doubt),
    }


def reading_document(reading: Reading) -> dict[str, Any]:
    """Return a reading as JSON: ``volts``, or ``floating``, or ``unknown`` with ``why``."""
    if reading.unknown:
        return {"unknown": True, "why": reading.why}
    if reading.floating:
        return {"floating": True}
    return {"volts": reading.volts}


def _unsettled(unsettled: Unsettled) -> dict[str, Any]:
    return {
        "why": unsettled.why,
        "elements": list(unsettled.elements),
        "period": unsettled.period,
        "outcomes": {mover: list(coils) for mover, coils in unsettled.outcomes.items()},
    }


def _terminal(state: TerminalState) -> dict[str, Any]:
    if state.unknown:
        return {"unknown": True, "why": state.why}
    if state.volts is None:
        return {"floating": True}
    return {
        "volts": abs(state.volts),
        "angle_deg": math.degrees(cmath.phase(state.volts)) if state.volts else 0.0,
        "reference": state.reference,
    }


def _element(state: ElementState) -> dict[str, Any]:
    return {"volts": state.volts, "amps": None if state.state == "unknown" else state.amps, "state": state.state}


def _source(point: OperatingPoint, name: str) -> dict[str, Any]:
    if point.elements[name].state == "unknown":
        return {"va": None, "amps": None}
    source = point.sources[name]
    return {"va": source.va, "amps": source.amps}


def _conductor(point: OperatingPoint, name: str) -> dict[str, Any]:
    state = point.conductors[name]
    if state.unknown:
        return {"amps": None, "toward": None}
    return {"amps": state.amps, "toward": state.toward}


def _effects(effects: tuple[tuple[str, str], ...]) -> list[dict[str, str]]:
    return [{"part": part, "effect": effect} for part, effect in effects]
