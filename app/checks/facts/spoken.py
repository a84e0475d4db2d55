"""Calls as a technician says them, for messages: ``cool 1 at Thermostat``.

Rules of the file: ids such as ``tc=cool-1`` are for commands and evidence; a sentence names the call as its button
does and the control by its label.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.catalogue.called import called
from app.catalogue.kind import Choice
from app.catalogue.spoken import effect_words, plain
from app.checks.context import Called, CheckContext
from app.checks.facts.joins import Device, Join
from app.circuit.deviations import AT_REST_C
from app.circuit.operating_point import OperatingPoint
from app.job.temperatures import temperature_words

RATED_PERCENT = 100


def inner_words(context: CheckContext, device: Device | Join) -> str:
    """Return what a device is called inside its part: ``contactor``, ``contact R to W``."""
    return called(context.wiring.kinds[device.part], device.inner)


def device_words(context: CheckContext, device: Device | Join) -> str:
    """Return a device with its part: ``contactor of Heat pump``."""
    return f"{inner_words(context, device)} of {context.label_of(device.part)}"


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
    return f"a call for {asked_words(context, [(called.control, called.call)])}{weather_words(context, called.point)}"


def when_words(context: CheckContext, point: OperatingPoint) -> str:
    """Return when something happens: ``on a call for cool 1 at Thermostat``, or ``with nothing called for``."""
    asked = [(control, calls[-1]) for control, calls in point.situation.calls.items() if calls]
    calls = " and ".join(asked_words(context, [each]) for each in asked)
    said = f"on a call for {calls}" if asked else "with nothing called for"
    moved = "".join(f", with {_moved_words(context, name, value)}" for name, value in point.situation.set.items())
    percent = point.situation.supply_percent
    supply = "" if percent == RATED_PERCENT else f" at {percent:g} % of the supply"
    return said + moved + supply + weather_words(context, point)


def _moved_words(context: CheckContext, name: str, value: Choice) -> str:
    """Return a switch or jumper and where it stands: ``the float of Float switch open``."""
    part, _, switch = name.partition(".")
    kind = context.wiring.kinds[part]
    found = kind.switches.get(switch) or kind.jumpers.get(switch)
    use = (found.use if found is not None else "") or plain(switch)
    use = use.split(";")[0].split(":")[0]
    article = "" if use.startswith("the ") else "the "
    return f"{article}{use} of {context.label_of(part)} {plain(str(value))}"


def weather_words(context: CheckContext, point: OperatingPoint) -> str:
    """Return at which outdoor temperature something happens; nothing at the 20 °C at which all else is told."""
    outdoor_c = point.situation.outdoor_c
    if outdoor_c == AT_REST_C:
        return ""
    return f" at {temperature_words(outdoor_c, context.job.settings.units)} outdoors"


def effects_words(effects: Iterable[str]) -> str:
    """Return effects in words, sorted: ``compressor and outdoor fan``."""
    said = sorted({effect_words(effect) for effect in effects})
    return " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
