"""What elements and states are called: one name for each, that a technician can find on the part."""

from __future__ import annotations

from collections import defaultdict

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.called import called, called_with_sort
from app.catalogue.kind import Contact, Ground, Opaque, Trace
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.drawing.timing.draw_band import LABEL_CLEAR, ROW_NAME
from app.drawing.timing.plan import LABELS
from app.drawing.timing.table import CLEAR, HEADINGS, WIDTHS

KINDS = builtin_catalogue().kinds
SAID = {
    ("thermostat-heat-pump", "e"): "contact R to E",
    ("zone-thermostat", "open_c"): "contact R to O",
    ("furnace-board", "limit_c"): "high-temperature limit",
    ("furnace-board", "heat_call"): "heat call",
    ("heat-pump-unit", "run_asked"): "compressor call",
    ("heat-pump-unit", "may_run"): "off time over",
    ("heat-sequencer", "fan_c"): "fan contact",
    ("fan-relay", "make"): "normally open contact",
}


@pytest.mark.parametrize(("kind", "name"), SAID)
def test_an_element_or_state_is_called_by_a_word_of_the_trade(kind: str, name: str) -> None:
    assert called(KINDS[kind], name) == SAID[kind, name]


def test_a_sentence_says_what_sort_of_thing_it_is_where_the_name_does_not() -> None:
    furnace = KINDS["furnace-board"]
    unnamed = furnace.model_copy(update={"called": {}})
    assert (called(unnamed, "inducer_c"), called_with_sort(unnamed, "inducer_c")) == ("inducer", "contact inducer")
    assert called_with_sort(furnace, "inducer_c") == "inducer contact"
    assert called_with_sort(furnace, "heat_call") == "heat call"
    assert called_with_sort(furnace, "gas_valve") == "gas valve"
    assert called_with_sort(KINDS["thermostat-heat-pump"], "e") == "contact R to E"


def test_no_two_things_of_a_kind_are_called_the_same_but_contacts_of_one_switch() -> None:
    for title, kind in KINDS.items():
        names: dict[str, set[str]] = defaultdict(set)
        for name, element in kind.elements.items():
            if not isinstance(element, Trace | Ground | Opaque):
                by_switch = isinstance(element, Contact) and element.by in kind.switches
                names[called(kind, name)].add(element.by if isinstance(element, Contact) and by_switch else name)
        for name in kind.states:
            names[called(kind, name)].add(name)
        assert {words: own for words, own in names.items() if len(own) > 1} == {}, title


def test_every_name_is_whole_beside_its_row_and_in_the_table_of_a_timing_chart() -> None:
    column = WIDTHS[HEADINGS.index("what")] - CLEAR
    for title, kind in KINDS.items():
        for name in (*kind.elements, *kind.states):
            words = called(kind, name)
            assert width_of(words, ROW_NAME) <= LABELS - LABEL_CLEAR, (title, words)
            assert width_of(words, SMALL) <= column, (title, words)
