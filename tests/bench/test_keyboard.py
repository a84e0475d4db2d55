"""The keyboard on the sheet: where focus goes, what is said, what Delete does."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


@pytest.fixture
def hands(opens: Open) -> Hands:
    """A wired furnace with the keyboard on the furnace board."""
    found = opens(LAPTOP)
    found.open_parts(HEATING, *HEATING_WIRES)
    found.page.locator('[data-key="part:fb"]').focus()
    return found


def test_arrows_go_to_the_nearest_of_the_same_sort(hands: Hands) -> None:
    hands.press("ArrowRight")
    assert hands.focused() == "part:tc"
    hands.press("ArrowRight")
    expect(hands.spoken()).to_have_text("Nothing further right.")
    assert hands.focused() == "part:tc"
    hands.press("ArrowLeft")
    assert hands.focused() == "part:fb"


def test_letters_are_for_screws_and_escape_goes_up(hands: Hands) -> None:
    hands.press("w")
    assert hands.focused() == "terminal:fb.W"
    hands.press("Escape")
    assert hands.focused() == "part:fb"
    hands.press("Enter", "End")
    assert hands.focused().startswith("terminal:fb.")
    hands.press("x")
    assert hands.focused() == "terminal:fb.XF"


def test_along_the_wire_and_back(hands: Hands) -> None:
    hands.press("w", ".")
    assert hands.focused() == "terminal:tc.W"
    hands.press(".")
    assert hands.focused() == "terminal:fb.W"
    hands.press(",")
    assert hands.focused() == "conductor:w4"
    hands.press(".")
    assert hands.focused() == "terminal:tc.W"


def test_pull_and_land_with_focus_kept_over_the_swap(hands: Hands) -> None:
    hands.press("g", "Enter")
    expect(hands.spoken()).to_have_text("Pulling from G, furnace board.")
    hands.press("/")
    hands.page.keyboard.type("G thermostat")
    hands.press("Enter")
    assert hands.focused() == "terminal:tc.G"
    with hands.saved():
        hands.press("Enter")
    assert hands.focused() == "terminal:tc.G"
    expect(hands.spoken()).to_contain_text("Landed w")


def test_delete_takes_off_removes_and_moves_focus_on(hands: Hands) -> None:
    hands.press("w")
    with hands.saved():
        hands.press("Delete")
    assert hands.layout()["conductors"]["w4"]["ends"] == [None, "tc.W"]
    assert hands.focused() == "terminal:fb.W"
    hands.press("r", ",")
    assert hands.focused() == "conductor:w3"
    with hands.saved():
        hands.press("Delete")
    assert "w3" not in hands.layout()["conductors"]
    assert hands.focused() == "terminal:tc.R"
    hands.press("Escape")
    with hands.saved():
        hands.press("Delete")
    layout = hands.layout()
    assert "tc" not in layout["parts"]
    assert set(layout["conductors"]) == {"w1", "w2"}
    assert hands.page.evaluate("document.activeElement !== document.body")


def test_space_picks_and_the_name_is_spoken_in_full(hands: Hands) -> None:
    hands.press("r", "Space")
    screw = hands.page.locator('[data-key="terminal:fb.R"]')
    expect(screw).to_have_attribute("aria-pressed", "true")
    label = screw.get_attribute("aria-label") or ""
    assert label.startswith("R, furnace board. ")
    assert "1 conductor: w3 to R, thermostat." in label
    assert label.endswith("Holds 4.")


def test_f2_leads_to_the_name_of_the_part(hands: Hands) -> None:
    hands.press("F2")
    field = hands.page.locator('[data-f="fb:label"]')
    expect(field).to_be_focused()
    with hands.saved():
        field.fill("Upper furnace")
        hands.press("Enter")
    assert hands.layout()["parts"]["fb"]["label"] == "Upper furnace"


def test_page_down_goes_through_the_findings(hands: Hands) -> None:
    hands.pull("fb.R", "fb.C")
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("PageDown")
    expect(hands.spoken()).to_contain_text("danger 1 of")
    assert hands.focused() != "part:fb"


LOST = """() => {
  window.lost = 0;
  const look = () => {
    if (document.activeElement === document.body) window.lost += 1;
    requestAnimationFrame(look);
  };
  look();
}"""


def test_three_wires_with_the_keys_of_the_sheet_and_the_keyboard_never_lost(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts({"fb": HEATING["fb"], "tc": {**HEATING["tc"], "kind": "thermostat-heat-pump"}})
    hands.page.locator("#legend-open").focus()
    hands.page.evaluate(LOST)
    for _ in range(6):
        hands.press("Tab")
        if hands.focused().startswith("part:"):
            break
    assert hands.focused().startswith("part:"), "the sheet is one tab stop"
    for number, letter in enumerate("RCY", start=1):
        hands.press("/")
        hands.page.keyboard.type(f"{letter} furnace")
        hands.press("Enter")
        assert hands.focused() == f"terminal:fb.{letter}"
        hands.press("Enter")
        expect(hands.spoken()).to_have_text(f"Pulling from {letter}, furnace board.")
        hands.press("/")
        hands.page.keyboard.type(f"{letter} thermostat")
        hands.press("Enter")
        assert hands.focused() == f"terminal:tc.{letter}"
        with hands.saved():
            hands.press("Enter")
        assert hands.focused() == f"terminal:tc.{letter}", "focus is on the same screw of the new drawing"
        expect(hands.spoken()).to_have_text(re.compile(rf"^Landed w{number} on {letter}\. .*\d+ findings? left\.$"))
    wires = {frozenset(one["ends"]) for one in hands.layout()["conductors"].values()}
    assert wires == {frozenset((f"fb.{letter}", f"tc.{letter}")) for letter in "RCY"}
    assert hands.page.evaluate("window.lost") == 0
