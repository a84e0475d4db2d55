"""What can be done here: a menu by Shift+F10, the Menu key, the second button and a button in *Picked*."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, SCREENS, Open, Screen, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def bench(opens: Open, screen: Screen = LAPTOP) -> Hands:
    hands = opens(screen)
    hands.open_parts(HEATING, *HEATING_WIRES)
    return hands


@pytest.mark.parametrize("key", ["Shift+F10", *in_the_long_run("ContextMenu")])
def test_it_opens_on_the_thing_with_the_keyboard_and_gives_it_back(opens: Open, key: str) -> None:
    hands = bench(opens)
    hands.page.locator('[data-key="terminal:fb.W"]').focus()
    hands.press(key)
    menu = hands.page.get_by_role("menu", name="W, furnace board")
    expect(menu).to_be_visible()
    items = menu.get_by_role("menuitem")
    expect(items.first).to_be_focused()
    expect(items).to_have_text(
        ["Pull a new conductor from here", "Move w4", "Take w4 off", "Pick w4", "Pick it"], use_inner_text=True
    )
    hands.press("ArrowDown")
    expect(items.nth(1)).to_be_focused()
    hands.press("End")
    expect(items.last).to_be_focused()
    hands.press("ArrowDown")
    expect(items.first).to_be_focused()
    hands.press("ArrowUp", "Home", "t")
    expect(items.nth(2)).to_be_focused()
    with hands.nothing_sent():
        hands.press("Escape")
    expect(menu).to_be_hidden()
    assert hands.focused() == "terminal:fb.W"


def test_what_is_chosen_is_one_edit_and_the_keyboard_stays(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-key="terminal:fb.W"]').focus()
    with hands.saved():
        hands.press("Shift+F10", "t", "Enter")
    assert hands.layout()["conductors"]["w4"]["ends"] == [None, "tc.W"]
    assert hands.focused() == "terminal:fb.W"
    hands.undo()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.W"]
    hands.redo()
    assert hands.layout()["conductors"]["w4"]["ends"] == [None, "tc.W"]


def test_an_end_is_said_to_be_unseen_and_a_conductor_removed(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None))
    hands.page.locator('[data-key="conductor:w5"]').focus()
    hands.press("Shift+F10")
    with hands.saved():
        hands.page.get_by_role("menuitem", name="Mark end 2 as not looked at").click()
    assert hands.layout()["conductors"]["w5"]["ends"] == ["fb.G", {"unknown": "not looked at yet"}]
    hands.page.locator('[data-key="conductor:w5"]').focus()
    hands.press("Shift+F10")
    with hands.saved():
        hands.page.get_by_role("menuitem", name="Remove w5").click()
    assert "w5" not in hands.layout()["conductors"]


def test_the_second_button_opens_it_and_a_press_beside_it_closes(opens: Open) -> None:
    hands = bench(opens)
    x, y = hands.at_screw("tc.R")
    hands.page.mouse.click(x, y, button="right")
    menu = hands.page.get_by_role("menu", name="R, thermostat")
    expect(menu).to_be_visible()
    with hands.nothing_sent():
        hands.page.mouse.click(*hands.paper())
    expect(menu).to_be_hidden()


@pytest.mark.parametrize("screen", ["phone", *in_the_long_run("laptop", "tablet")])
def test_a_button_in_picked_opens_it_for_what_is_picked(opens: Open, screen: str) -> None:
    hands = bench(opens, SCREENS[screen])
    page = hands.page
    button = page.locator("#acts-open")
    expect(button).to_be_disabled()
    page.locator('[data-view-choice="words"]').click()
    page.locator('#words-content [data-f="words:fb.W"]').click()
    page.locator("#put-back").click()
    if screen == "phone":
        page.click('[data-region="picked"]')
    expect(button).to_be_enabled()
    button.click()
    expect(button).to_have_attribute("aria-expanded", "true")
    menu = page.get_by_role("menu", name="W, furnace board")
    box = menu.bounding_box()
    size = page.viewport_size
    assert box
    assert size
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= size["width"]
    assert box["y"] + box["height"] <= size["height"]
    with hands.saved():
        menu.get_by_role("menuitem", name="Take w4 off").click()
    assert hands.layout()["conductors"]["w4"]["ends"] == [None, "tc.W"]
    expect(button).to_have_attribute("aria-expanded", "false")


def test_tab_leaves_it_and_nothing_is_left_open(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Shift+F10", "Tab")
    expect(hands.page.locator("#menu")).to_be_hidden()
    assert hands.page.evaluate("document.activeElement !== document.body")


def test_rename_leads_to_the_name_and_rows_to_the_screws(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Shift+F10", "r", "Enter")
    expect(hands.page.locator('[data-f="fb:label"]')).to_be_focused()
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Shift+F10", "s", "Enter")
    expect(hands.page.locator("#picked-content .row.screw").first).to_be_focused()
