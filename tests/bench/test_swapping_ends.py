"""Two conductors change places: Shift while dragging, a row, the menu. One edit each, and back again."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING
from tests.bench.test_gestures import beside

WIRES = (("fb.R", "tc.R"), ("fb.W", "tc.Y"), ("fb.Y", "tc.W"))
"""w1 to w3; w2 and w3 are landed the wrong way round at the thermostat."""


def ends(hands: Hands) -> dict[str, list[str | None]]:
    return {name: one["ends"] for name, one in hands.layout()["conductors"].items()}


def is_swapped_back_and_forth(hands: Hands) -> None:
    """The swap stands, undo takes it back, redo makes it again."""
    assert ends(hands) == {"w1": ["fb.R", "tc.R"], "w2": ["fb.W", "tc.W"], "w3": ["fb.Y", "tc.Y"]}
    hands.undo()
    assert ends(hands) == {"w1": ["fb.R", "tc.R"], "w2": ["fb.W", "tc.Y"], "w3": ["fb.Y", "tc.W"]}
    hands.redo()
    assert ends(hands)["w2"] == ["fb.W", "tc.W"]


def test_with_shift_held_a_dragged_end_changes_places(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *WIRES)
    edge = hands.page.locator("#edge-line")
    hands.drag(beside(hands, "w2.1"), hands.at_screw("tc.W"), drop=False)
    expect(edge).to_contain_text("Land on W of thermostat:")
    expect(edge).to_contain_text("With Shift: swap with w3.")
    hands.page.keyboard.down("Shift")
    expect(edge).to_have_text("Swap with w3.")
    hands.page.keyboard.up("Shift")
    expect(edge).to_contain_text("Land on W of thermostat:")
    hands.page.keyboard.down("Shift")
    with hands.saved():
        hands.page.mouse.up()
    hands.page.keyboard.up("Shift")
    expect(hands.spoken()).to_contain_text("Swapped: w2 on W, w3 on Y.")
    is_swapped_back_and_forth(hands)


def test_without_shift_both_stay_on_the_screw(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *WIRES)
    with hands.saved():
        hands.drag(beside(hands, "w2.1"), hands.at_screw("tc.W"))
    assert ends(hands)["w2"] == ["fb.W", "tc.W"]
    assert ends(hands)["w3"] == ["fb.Y", "tc.W"]


@pytest.mark.slow
def test_by_single_taps_on_rows(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING, *WIRES)
    hands.page.locator('[data-view-choice="words"]').tap()
    with hands.nothing_sent():
        hands.page.locator('#words-content [data-f="words:w2.1:move"]').tap()
        expect(hands.page.locator("#in-hand")).to_be_visible()
    swap = hands.page.locator('#words-content [data-swap="w3.1"]')
    box = swap.bounding_box()
    assert box
    assert box["height"] >= 44
    with hands.saved():
        swap.tap()
    expect(hands.page.locator("#in-hand")).to_be_hidden()
    is_swapped_back_and_forth(hands)


def test_by_keys_through_the_menu(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *WIRES)
    hands.page.locator('[data-key="terminal:tc.Y"]').focus()
    hands.press("Shift+F10", "m")
    expect(hands.page.locator("[role=menuitem]:focus")).to_have_text("Move w2")
    hands.press("Enter")
    expect(hands.page.locator("#in-hand")).to_be_visible()
    hands.page.locator('[data-key="terminal:tc.W"]').focus()
    hands.press("Shift+F10", "s")
    expect(hands.page.locator("[role=menuitem]:focus")).to_have_text("Swap with w3")
    with hands.saved():
        hands.press("Enter")
    assert hands.focused() == "terminal:tc.W"
    is_swapped_back_and_forth(hands)


def test_of_several_on_a_screw_one_is_asked_for(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, ("fb.R", "tc.R"), ("fb.W", "tc.Y"), ("fb.Y", "tc.W"), ("fb.G", "tc.W"))
    hands.drag(beside(hands, "w2.1"), hands.at_screw("tc.W"), drop=False)
    hands.page.keyboard.down("Shift")
    expect(hands.page.locator("#edge-line")).to_have_text("Swap with w3 or w4: you will be asked which.")
    with hands.nothing_sent():
        hands.page.mouse.up()
    hands.page.keyboard.up("Shift")
    rows = hands.page.locator(".which-one .row[data-key]")
    expect(rows).to_have_count(2)
    with hands.saved():
        rows.nth(1).click()
    assert ends(hands)["w2"] == ["fb.W", "tc.W"]
    assert ends(hands)["w3"] == ["fb.Y", "tc.W"]
    assert ends(hands)["w4"] == ["fb.G", "tc.Y"]


def test_a_swap_that_would_short_a_conductor_to_itself_is_not_done(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, ("fb.R", "tc.R"), ("fb.W", "tc.Y"), ("tc.Y", "tc.W"))
    hands.page.locator('[data-view-choice="words"]').click()
    hands.page.locator('#words-content [data-f="words:w2.1:move"]').click()
    with hands.nothing_sent():
        hands.page.locator('#words-content [data-swap="w3.1"]').click()
    expect(hands.spoken()).to_have_text("The other end of w3 is on Y already.")
    assert ends(hands)["w2"] == ["fb.W", "tc.Y"]


def test_a_new_conductor_is_never_swapped(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *WIRES)
    hands.page.keyboard.down("Shift")
    with hands.saved():
        hands.drag(hands.at_screw("fb.G"), hands.at_screw("tc.W"))
    hands.page.keyboard.up("Shift")
    assert len(ends(hands)) == 4
    assert ends(hands)["w3"] == ["fb.Y", "tc.W"]
