"""The kinds that come along, as a registry: what must hold for every one of them."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.check_figures import BOUNDS
from app.catalogue.kind import CallName, Coil, Contact, Function, Load, Source
from tests.catalogue.kinds import KIND_IDS, packed_text

EXPECTED_IDS = [
    "control-transformer",
    "control-transformer-with-breaker",
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
    acts = any(isinstance(element, Source | Contact) for element in kind.elements.values())
    passes_on = any(terminal.function == "through" for terminal in kind.terminals.values())
    assert kind.effects or kind.calls or acts or passes_on


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


def test_every_call_name_is_offered_by_some_control_or_left_for_later() -> None:
    offered = {call for name in KIND_IDS for call in builtin_catalogue().kind(name).calls}
    assert set(get_args(CallName)) - offered == {"dehumidify", "ventilate", "open"}
