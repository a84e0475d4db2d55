"""Which symbol and which letters an element gets, from what its kind says."""

from __future__ import annotations

from typing import get_args

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.kind import Coil, Element, Kind, Watched
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.surface.recorder import Recorder
from app.drawing.symbols.choosing import COILS, symbol_of
from app.drawing.symbols.letters import device_letters
from app.drawing.symbols.movers import MOVERS
from app.job.sketch import sketch
from tests.drawing.symbols.seen import AT

CATALOGUE = builtin_catalogue()
ELEMENTS = [
    pytest.param(element, CATALOGUE.kind(kind), id=f"{kind}.{name}")
    for kind in sorted(CATALOGUE)
    for name, element in CATALOGUE.kind(kind).elements.items()
]

BENCH = Kind.model_validate(
    {
        "title": "Test bench",
        "summary": "One contact of every sort.",
        "terminals": {
            "A": {"function": "through", "use": "one side"},
            "B": {"function": "through", "use": "the other"},
        },
        "switches": {
            "hot": {"rest": "closed", "watches": "temperature"},
            "wet": {"rest": "open", "watches": "level"},
            "some": {"rest": "closed"},
        },
        "elements": {
            "relay": {"is": "coil", "between": ["A", "B"], "va_sealed": 3.0, "va_inrush": 3.0},
            "big": {"is": "coil", "between": ["A", "B"], "va_sealed": 3.0, "va_inrush": 3.0, "works": "contactor"},
            **{
                name: {"is": "contact", "between": ["A", "B"], "by": by}
                for name, by in {
                    "by_coil": "relay",
                    "by_contactor": "big",
                    "by_hot": "hot",
                    "by_wet": "wet",
                    "by_some": "some",
                    "by_call": "calls",
                    "at_once": "logic",
                    "late": "comes_late",
                    "stays": "goes_late",
                    "behind": "through_another",
                    "remembers": "kept",
                }.items()
            },
            "broken": {"is": "contact", "between": ["A", "B"], "by": "relay", "rest": "closed"},
            "late_break": {"is": "contact", "between": ["A", "B"], "by": "comes_late", "rest": "closed"},
            "follows": {"is": "contact", "between": ["A", "B"], "by": "comes_late", "watches": "pressure"},
        },
        "states": {
            "logic": "relay and not big",
            "comes_late": "after(relay, 30 s)",
            "goes_late": "hold(relay, 90 s)",
            "through_another": "comes_late or goes_late",
            "kept": "latch(relay, big)",
        },
    }
)

EXPECTED = {
    "by_coil": ("contact-open", "CR"),
    "by_contactor": ("contact-open", "CON"),
    "by_hot": ("temperature-closed", "TAS"),
    "by_wet": ("level-open", "FS"),
    "by_some": ("switch-closed", "S"),
    "by_call": ("call-open", "CR"),
    "at_once": ("contact-open", "CR"),
    "late": ("late-on-open", "TR"),
    "stays": ("late-off-open", "TR"),
    "behind": ("timed-open", "TR"),
    "remembers": ("timed-open", "TR"),
    "broken": ("contact-closed", "CR"),
    "late_break": ("late-on-closed", "TR"),
    "follows": ("pressure-open", "PS"),
    "relay": ("coil", "CR"),
    "big": ("coil", "CON"),
}


@pytest.mark.parametrize(("element", "kind"), ELEMENTS)
def test_every_element_of_the_catalogue_has_a_symbol_and_letters_with_a_basis(element: Element, kind: Kind) -> None:
    symbol_of(element, kind).draw(Recorder(), AT)
    letters = device_letters(element, kind)
    assert letters.letters.isupper()
    assert letters.basis


@pytest.mark.parametrize("name", BENCH.elements)
def test_a_contact_shows_what_moves_it(name: str) -> None:
    element = BENCH.elements[name]
    assert (symbol_of(element, BENCH).name, device_letters(element, BENCH).letters) == EXPECTED[name]


def test_a_name_says_nothing() -> None:
    """Whatever elements are called, they get the same symbols."""
    renamed = BENCH.model_copy(update={"elements": {f"x{n}": e for n, e in enumerate(BENCH.elements.values())}})
    for before, after in zip(BENCH.elements.values(), renamed.elements.values(), strict=True):
        assert symbol_of(before, BENCH) is symbol_of(after, renamed)


def test_whatever_a_switch_can_watch_and_a_coil_can_work_is_drawn() -> None:
    assert {mover.name for mover in MOVERS} >= set(get_args(Watched)) - {""}
    assert set(COILS) == set(get_args(Coil.model_fields["works"].annotation))


def test_every_safety_of_the_catalogue_says_what_it_watches() -> None:
    silent = {
        f"{kind}.{name}"
        for kind in CATALOGUE
        for name, switch in CATALOGUE.kind(kind).switches.items()
        if switch.safety and not switch.watches
    }
    assert silent == set()


def test_every_state_that_a_circuit_comes_to_can_be_drawn() -> None:
    layout = sketch({kind.replace("_", "-"): kind for kind in sorted(CATALOGUE)})
    circuit = build_circuit(layout, CATALOGUE)
    point = solve(circuit, situations_of(layout, CATALOGUE)[0])
    assert point.elements
    for name, state in point.elements.items():
        part, _, element = name.partition(".")
        kind = CATALOGUE.kind(layout.parts[part].kind)
        symbol_of(kind.elements[element], kind).draw(Recorder(), AT, state.state)
