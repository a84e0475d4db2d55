"""Rows that are pressed while an answer comes in: the press is not lost."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.layouts import HEATING, HEATING_WIRES


def test_a_row_that_is_being_pressed_is_not_taken_away_under_the_finger(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    page = hands.page
    page.locator('[data-view-choice="words"]').click()
    row = page.locator('#words-content [data-row="fb.R"]')
    volts = page.locator('#words-content [data-row="fb.W"] .volts-word')
    expect(volts).to_have_text("0.0 V")
    row.scroll_into_view_if_needed()
    box = row.bounding_box()
    assert box
    page.mouse.move(box["x"] + 60, box["y"] + box["height"] / 2)
    page.mouse.down()
    with page.expect_response("**/shown?**"):
        page.evaluate("document.querySelector('[data-call=\"tc=heat-1\"]').click()")
    expect(page.locator('[data-call="tc=heat-1"]')).to_have_attribute("aria-pressed", "true")
    page.mouse.up()
    expect(page.locator("#in-hand-words")).to_contain_text("new conductor from R, furnace board")
    expect(volts).not_to_have_text("0.0 V")
