"""Operating points and readings in the JSON shapes of the commands; floats are not rounded."""

from __future__ import annotations

import cmath
import math
from typing import Any

from app.circuit.operating_point import ElementState, OperatingPoint, TerminalState, Unsettled
from app.circuit.reading import Reading


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
    """Return a reading as JSON: ``volts`` or ``ohms``, or ``floating``, or ``unknown``; ``why`` where there is one.

    ``between_ohms`` gives the least and the most of a resistance that is known only roughly.
    """
    found: dict[str, Any] = {}
    if reading.unknown:
        found["unknown"] = True
    elif reading.floating:
        found["floating"] = True
    elif reading.ohms is not None:
        found["ohms"] = reading.ohms
    else:
        found["volts"] = reading.volts
    if reading.between_ohms is not None:
        found["between_ohms"] = list(reading.between_ohms)
    if reading.why or reading.unknown:
        found["why"] = reading.why
    return found


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
    return {"volts": state.volts, "amps": None if state.amps_unknown else state.amps, "state": state.state}


def _source(point: OperatingPoint, name: str) -> dict[str, Any]:
    source = point.sources[name]
    return {"va": None, "amps": None} if source.unknown else {"va": source.va, "amps": source.amps}


def _conductor(point: OperatingPoint, name: str) -> dict[str, Any]:
    state = point.conductors[name]
    if state.unknown:
        return {"amps": None, "toward": None}
    return {"amps": state.amps, "toward": state.toward}


def _effects(effects: tuple[tuple[str, str], ...]) -> list[dict[str, str]]:
    return [{"part": part, "effect": effect} for part, effect in effects]
