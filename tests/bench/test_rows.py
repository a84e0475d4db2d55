"""Rows that are pressed while an answer comes in: the press is not lost."""

from __future__ import annotations

from playwright.sync_api import Route, expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.layouts import HEATING, HEATING_WIRES


def test_a_row_that_is_being_pressed_is_not_taken_away_under_the_finger(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    page = hands.page
    asked: list[Route] = []
    page.route("**/landings", lambda route: asked.append(route))
    page.locator('[data-view-choice="words"]').click()
    page.locator('#words-content [data-row="fb.G"]').click()
    edge = page.locator("#edge-line")
    expect(edge).to_contain_text("Advice not available")
    row = page.locator('#words-content [data-row="tc.G"]')
    row.scroll_into_view_if_needed()
    box = row.bounding_box()
    assert box
    page.mouse.move(box["x"] + 60, box["y"] + box["height"] / 2)
    page.mouse.down()
    asked[0].continue_()
    expect(edge).not_to_contain_text("Advice not available")
    with hands.saved():
        page.mouse.up()
    assert ["fb.G", "tc.G"] in [one["ends"] for one in hands.layout()["conductors"].values()]
