"""What each control closes on each call, as a technician would say it for that set-up."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import settings_of
from app.catalogue.kind import Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Value, holds
from app.job.model import Part

Settings = dict[str, Value]

HEAT_PUMP_O: Settings = {"equipment": "heat-pump", "valve_energised_in": "cooling"}
HEAT_PUMP_B: Settings = {"equipment": "heat-pump", "valve_energised_in": "heating"}
DUAL_O: Settings = {"equipment": "dual-fuel", "valve_energised_in": "cooling"}
DUAL_2: Settings = {"equipment": "dual-fuel", "compressor_stages": 2, "heat_stages": 2, "valve_energised_in": "heating"}
FURNACE: Settings = {"equipment": "conventional", "heat_stages": 2, "compressor_stages": 2}

CLOSES = {
    "heat only, heat": ("thermostat-heat-only", {}, 5, "heat-1", "w"),
    "heat and cool, fan": ("thermostat-heat-cool", {}, 20, "fan", "g"),
    "heat and cool, cooling": ("thermostat-heat-cool", {}, 30, "cool-1", "g y"),
    "heat and cool, furnace runs its own fan": ("thermostat-heat-cool", {}, 5, "heat-1", "w"),
    "heat and cool, electric heat": ("thermostat-heat-cool", {"fan_in_heat": "control"}, 5, "heat-1", "g w"),
    "split, cooling": ("thermostat-heat-cool-split", {}, 30, "cool-1", "g y"),
    "split, heat": ("thermostat-heat-cool-split", {}, 5, "heat-1", "w"),
    "heat pump O, cooling": ("thermostat-heat-pump", {}, 30, "cool-1", "g o y"),
    "heat pump O, heat": ("thermostat-heat-pump", {}, 5, "heat-1", "g y"),
    "heat pump B, cooling": ("thermostat-heat-pump", {"valve_energised_in": "heating"}, 30, "cool-1", "g y"),
    "heat pump B, heat": ("thermostat-heat-pump", {"valve_energised_in": "heating"}, 5, "heat-1", "g o y"),
    "heat pump O, auxiliary": ("thermostat-heat-pump", {}, -5, "aux-heat", "g w y"),
    "heat pump B, auxiliary": ("thermostat-heat-pump", {"valve_energised_in": "heating"}, -5, "aux-heat", "g o w y"),
    "heat pump, emergency": ("thermostat-heat-pump", {}, -5, "emergency-heat", "e g w"),
    "heat pump, emergency, equipment runs the fan": (
        "thermostat-heat-pump",
        {"fan_in_heat": "equipment"},
        -5,
        "emergency-heat",
        "e w",
    ),
    "conventional, heat": ("thermostat-dual-fuel", FURNACE, 5, "heat-1", "w1"),
    "conventional, heat, both stages": ("thermostat-dual-fuel", FURNACE, 5, "heat-2", "w1 w2"),
    "conventional, cooling, both stages": ("thermostat-dual-fuel", FURNACE, 30, "cool-2", "g y1 y2"),
    "two stages on a heat pump O, cooling": ("thermostat-dual-fuel", HEAT_PUMP_O, 30, "cool-1", "g o y1"),
    "two stages on a heat pump O, heat": ("thermostat-dual-fuel", HEAT_PUMP_O, 5, "heat-1", "g y1"),
    "two stages on a heat pump B, heat": ("thermostat-dual-fuel", HEAT_PUMP_B, 5, "heat-1", "g o y1"),
    "two stages on a heat pump B, auxiliary": ("thermostat-dual-fuel", HEAT_PUMP_B, 5, "aux-heat", "g o w1 y1"),
    "dual fuel, mild, heat": ("thermostat-dual-fuel", DUAL_O, 5, "heat-1", "g y1"),
    "dual fuel, bitter, heat": ("thermostat-dual-fuel", DUAL_O, -10, "heat-1", "w1"),
    "dual fuel, auxiliary is the furnace": ("thermostat-dual-fuel", DUAL_O, 5, "aux-heat", "w1"),
    "dual fuel, emergency is the furnace": ("thermostat-dual-fuel", DUAL_O, -10, "emergency-heat", "w1"),
    "dual fuel B, mild, both stages": ("thermostat-dual-fuel", DUAL_2, 5, "heat-2", "g o y1 y2"),
    "dual fuel B, bitter, both stages": ("thermostat-dual-fuel", DUAL_2, -10, "heat-2", "w1 w2"),
    "dual fuel B, cooling": ("thermostat-dual-fuel", DUAL_2, 30, "cool-1", "g y1"),
    "humidity with the fan": ("thermostat-dual-fuel", {"humidity_pair": "humidifier"}, 5, "humidify", "g h"),
    "humidity control": ("humidity-control", {}, 5, "humidify", "g h"),
    "electronic switches, cooling": ("thermostat-electronic-outputs", {}, 30, "cool-1", "g y"),
    "electronic switches, heat": ("thermostat-electronic-outputs", {}, 5, "heat-1", "w"),
    "fresh air with the fan": ("ventilation-control", {}, 15, "ventilate", "g v"),
    "fresh air alone": ("ventilation-control", {"fan_with_fresh_air": False}, 15, "ventilate", "v"),
    "drier air": ("dehumidity-control", {}, 25, "dehumidify", "d"),
    "a zone to open, one contact makes and the other breaks": ("zone-thermostat", {}, 5, "open", "open_c shut_c"),
}


@pytest.mark.parametrize(("name", "settings", "outdoor_c", "call", "closes"), CLOSES.values(), ids=CLOSES.keys())
def test_a_call_closes_what_the_trade_expects(
    name: str, settings: Settings, outdoor_c: float, call: str, closes: str
) -> None:
    assert _has_call(name, settings, call)
    assert _closed(name, settings, outdoor_c, call) == closes.split()


ABSENT = {
    "no second cooling stage": ("thermostat-dual-fuel", {}, "cool-2"),
    "no auxiliary with a furnace alone": ("thermostat-dual-fuel", FURNACE, "aux-heat"),
    "no emergency heat with a furnace alone": ("thermostat-dual-fuel", FURNACE, "emergency-heat"),
    "no second heat stage": ("thermostat-dual-fuel", {}, "heat-2"),
    "humidity pair unused": ("thermostat-dual-fuel", {}, "humidify"),
    "cooling while switched to heat": ("thermostat-heat-cool", {"mode": "heat"}, "cool-1"),
    "heat while switched off": ("thermostat-heat-only", {"mode": "off"}, "heat-1"),
    "emergency while switched to heat": ("thermostat-heat-pump", {"mode": "heat"}, "emergency-heat"),
}


@pytest.mark.parametrize(("name", "settings", "call"), ABSENT.values(), ids=ABSENT.keys())
def test_a_call_that_the_set_up_lacks_is_absent(name: str, settings: Settings, call: str) -> None:
    assert not _has_call(name, settings, call)


def test_furnace_and_compressor_never_run_together_with_dual_fuel() -> None:
    kind = builtin_catalogue().kind("thermostat-dual-fuel")
    for settings in (DUAL_O, DUAL_2):
        for outdoor_c in (-30, -1.001, -1, 0, 20):
            for call in kind.calls:
                closed = set(_closed("thermostat-dual-fuel", settings, outdoor_c, call))
                assert not ({"w1", "w2"} & closed and {"y1", "y2"} & closed)


def _values(kind: Kind, settings: Settings) -> dict[str, Value]:
    return dict(settings_of(kind, Part(kind="x", settings=settings)))


def _has_call(name: str, settings: Settings, call: str) -> bool:
    kind = builtin_catalogue().kind(name)
    return holds(parse_term(kind.calls[call].when), _values(kind, settings).__getitem__)  # type: ignore[index]


def _closed(name: str, settings: Settings, outdoor_c: float, call: str) -> list[str]:
    kind = builtin_catalogue().kind(name)
    calls: dict[str, Value] = {each: each == call for each in kind.calls}
    values: dict[str, Value] = {**_values(kind, settings), **calls, "outdoor_c": outdoor_c}

    def value_of(asked: str) -> Value:
        return values[asked] if asked in values else holds(parse_term(kind.states[asked]), value_of)

    closes = kind.calls[call].closes  # type: ignore[index]
    return sorted(contact for contact, term in closes.items() if holds(parse_term(term), value_of))
