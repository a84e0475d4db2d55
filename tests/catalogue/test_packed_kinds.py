"""The kinds that come along, as a registry: what must hold for every one of them."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.check_figures import BOUNDS
from app.catalogue.check_kind import nodes_of
from app.catalogue.kind import CallName, Coil, Contact, Function, Ground, Load, Opaque, Source
from tests.catalogue.kinds import KIND_IDS, packed_text

EXPECTED_IDS = [
    "control-transformer",
    "transformer-with-breaker",
    "inline-fuse",
    "furnace-board",
    "furnace-board-2-stage",
    "air-handler-board",
    "condensing-unit",
    "heat-pump-unit",
    "thermostat-heat-only",
    "thermostat-heat-cool",
    "thermostat-heat-cool-split",
    "thermostat-heat-pump",
    "thermostat-dual-fuel",
    "isolation-relay",
    "fan-relay",
    "float-switch",
    "humidifier",
    "humidity-control",
    "outdoor-temperature-switch",
    "zone-valve",
    "boiler-control",
    "zone-panel",
    "zone-damper",
    "heat-sequencer",
    "terminal-strip",
    "splice",
    "air-handler-board-relayed-y",
    "air-handler-board-fan-from-y",
    "zone-damper-spring-open",
    "zone-damper-three-wire",
    "zone-panel-open-close",
    "zone-valve-three-wire",
    "zone-valve-open-close",
    "zone-thermostat",
    "humidifier-with-transformer",
    "pump-relay",
    "time-delay-relay",
    "isolation-relay-three-call",
    "fault-lamp",
    "door-switch",
    "chassis-bond",
    "thermostat-electronic-outputs",
    "ventilation-control",
    "fresh-air-damper",
    "dehumidity-control",
    "dehumidifier",
    "thermostat-bus",
    "furnace-board-bus",
    "millivolt-thermostat",
    "millivolt-valve",
    "shared-conductor-control",
    "shared-conductor-equipment",
]

BASIS = re.compile(r"^(published: |common practice, no source|from memory|invented for the demo)")


def test_every_kind_that_was_asked_for_is_packed() -> None:
    assert sorted(EXPECTED_IDS) == KIND_IDS


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_figure_says_where_it_comes_from(name: str) -> None:
    text = packed_text(name)
    without = [
        element
        for element, said in text.get("elements", {}).items()
        if any(figure in said for figure in BOUNDS) and not BASIS.match(said.get("basis", ""))
    ]
    for setting, said in text.get("settings", {}).items():
        numbers = [said["default"], *said.get("choices", []), said.get("least", ""), said.get("most", "")]
        if any(isinstance(number, int | float) and not isinstance(number, bool) for number in numbers):
            without += [] if BASIS.match(said.get("basis", "")) else [setting]
    assert without == []


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_source_coil_load_and_input_has_a_basis(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    silent = [key for key, each in kind.elements.items() if isinstance(each, Source | Coil | Load) and not each.basis]
    assert silent == []


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_kind_does_something(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    acts = any(isinstance(element, Source | Contact | Ground | Opaque) for element in kind.elements.values())
    passes_on = any(terminal.function == "through" for terminal in kind.terminals.values())
    shows = kind.states and any(terminal.function == "signal" for terminal in kind.terminals.values())
    assert kind.effects or kind.calls or acts or passes_on or shows


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_terminal_matters_to_something_inside_or_only_passes_on(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    touched = {node for element in kind.elements.values() for node in nodes_of(element)}
    idle = [
        letter
        for letter, terminal in kind.terminals.items()
        if letter not in touched and terminal.function not in ("through", "spare", "line")
    ]
    assert idle == []


@pytest.mark.parametrize("name", KIND_IDS)
def test_nothing_is_computed_on_data_and_millivolt_terminals(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    closed = {letter for letter, each in kind.terminals.items() if each.function in ("bus", "millivolt", "sensor")}
    for element in kind.elements.values():
        assert isinstance(element, Opaque) or not closed & set(nodes_of(element))


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_contact_that_goes_out_of_a_control_or_relay_says_what_it_may_carry(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    own = {name for name, element in kind.elements.items() if isinstance(element, Coil)} | {"calls"}
    silent = [
        key
        for key, element in kind.elements.items()
        if isinstance(element, Contact)
        and element.by in own
        and set(element.between) <= set(kind.terminals)
        and element.max_amps is None
    ]
    assert silent == []


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_terminal_says_what_it_is_for(name: str) -> None:
    for terminal in builtin_catalogue().kind(name).terminals.values():
        assert terminal.function in get_args(Function)
        assert len(terminal.use) >= 4


@pytest.mark.parametrize("name", KIND_IDS)
def test_nothing_is_computed_between_line_terminals(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    line = {letter for letter, terminal in kind.terminals.items() if terminal.function == "line"}
    touched = [key for key, each in kind.elements.items() if set(getattr(each, "between", ())) & line]
    assert touched == []


@pytest.mark.parametrize("name", KIND_IDS)
def test_every_safety_is_a_contact_in_the_circuit(name: str) -> None:
    kind = builtin_catalogue().kind(name)
    for switch in (key for key, each in kind.switches.items() if each.safety):
        moved = {switch} | {state for state, term in kind.states.items() if re.search(rf"\b{switch}\b", term)}
        assert [key for key, each in kind.elements.items() if isinstance(each, Contact) and each.by in moved]
        assert kind.switches[switch].rest == "closed"
        assert kind.switches[switch].opens_on
        assert kind.switches[switch].reset


def test_every_call_name_is_offered_by_some_control() -> None:
    offered = {call for name in KIND_IDS for call in builtin_catalogue().kind(name).calls}
    assert set(get_args(CallName)) - offered == set()
