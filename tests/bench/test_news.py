"""What another device has changed comes to the page by itself, is said, and can be looked at; nothing else moves."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open, Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.serving import start_pull

NOTE = {"op": "add", "path": "/layouts/as-left/parts/xf/note", "value": "hums"}
LABEL = {"op": "add", "path": "/layouts/as-left/parts/fb/label", "value": "Their furnace"}
NAME = '[data-part="fb"] .name'
TOLD = "Changed on another device (2 edits), and shown here."


def come_back(hands: Hands) -> None:
    """Look at the page again after another one."""
    hands.page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")


def test_news_is_shown_and_said_with_what_changed(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.locator('[data-key="part:tc"]').focus()
    hands.press("Space")
    hands.change_elsewhere(NOTE)
    hands.change_elsewhere(LABEL)
    come_back(hands)
    expect(hands.state()).to_have_text(TOLD)
    expect(hands.page.locator(NAME)).to_have_text("Their furnace")
    assert hands.page.evaluate("document.activeElement.dataset.key") == "part:tc", "focus stays"
    hands.page.get_by_role("button", name="What changed").click()
    expect(hands.page.locator("#history-rows .is-news")).to_have_count(2)


def test_nothing_is_said_while_there_is_no_news(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    with hands.page.expect_response("**/history?after=*"):
        come_back(hands)
    expect(hands.state()).to_have_text("Saved and checked.")


def test_news_does_not_run_over_what_is_said_of_an_edit_that_was_not_taken(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.expects_refusal = True
    hands.change_elsewhere({"op": "remove", "path": "/layouts/as-left/conductors/w4"})
    hands.page.locator('[data-key="conductor:w4"]').focus()
    hands.press("Delete")
    expect(hands.state()).to_contain_text("Your edit no longer fits")
    hands.change_elsewhere(LABEL)
    come_back(hands)
    expect(hands.page.locator(NAME)).to_have_text("Their furnace")
    expect(hands.state()).to_contain_text("Your edit no longer fits")


@pytest.mark.slow
def test_news_comes_without_anything_being_done(visits: Visit) -> None:
    ada, ben = visits(), visits()
    ben.open_job(ada.open_parts(HEATING, *HEATING_WIRES))
    start_pull(ada, "fb.G", "tc.G")
    expect(ben.page.locator("#sheet [data-conductor]")).to_have_count(5, timeout=60_000)
    expect(ben.state()).to_have_text("Changed on another device (1 edit), and shown here.")
