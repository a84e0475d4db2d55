"""Calls as a technician says them, for messages: ``cool 1 at Thermostat``.

Rules of the file: ids such as ``tc=cool-1`` are for commands and evidence; a sentence names the call as its button
does and the control by its label.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.spoken import effect_words, plain
from app.checks.context import Called, CheckContext
from app.circuit.deviations import AT_REST_C
from app.circuit.operating_point import OperatingPoint


def asked_words(context: CheckContext, asked: Iterable[tuple[str, str]]) -> str:
    """Return calls, given as (control, call): ``cool 1 or heat 1 at Thermostat``."""
    calls_of: dict[str, list[str]] = {}
    for control, call in asked:
        calls_of.setdefault(control, []).append(plain(call))
    places: dict[str, list[str]] = {}
    for control, calls in calls_of.items():
        places.setdefault(" or ".join(dict.fromkeys(calls)), []).append(context.label_of(control))
    return " or ".join(f"{calls} at {' or '.join(labels)}" for calls, labels in places.items())


def called_words(context: CheckContext, called: Called) -> str:
    """Return one call: ``a call for cool 1 at Thermostat``."""
    return f"a call for {asked_words(context, [(called.control, called.call)])}{weather_words(called.point)}"


def when_words(context: CheckContext, point: OperatingPoint) -> str:
    """Return when something happens: ``on a call for cool 1 at Thermostat``, or ``with nothing called for``."""
    asked = [(control, calls[-1]) for control, calls in point.situation.calls.items() if calls]
    calls = " and ".join(asked_words(context, [each]) for each in asked)
    return (f"on a call for {calls}" if asked else "with nothing called for") + weather_words(point)


def weather_words(point: OperatingPoint) -> str:
    """Return at which outdoor temperature something happens; nothing for the 20 °C at which all else is told."""
    outdoor_c = point.situation.outdoor_c
    return "" if outdoor_c == AT_REST_C else f" at {outdoor_c:g} °C outdoors"


def effects_words(effects: Iterable[str]) -> str:
    """Return effects in words, sorted: ``compressor and outdoor fan``."""
    said = sorted({effect_words(effect) for effect in effects})
    return " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
