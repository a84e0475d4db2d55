"""*Set aside*: with a reason that is kept in the job, one step, back only when what it was about has changed."""

from __future__ import annotations

from playwright.sync_api import Locator, expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES

LOOSE = (*HEATING_WIRES, ("fb.G", None))
"""w5 is landed at one end."""


def row(hands: Hands) -> Locator:
    """Return the row of the loose end."""
    return hands.page.locator('[data-rule="conductor-end-unlanded"]:not(.is-cleared)')


def leave_list(hands: Hands) -> None:
    """Take pointer and focus out of the list, which tidies itself five seconds later."""
    hands.page.mouse.move(400, 10)
    hands.page.locator("#sheet").focus()


def test_a_warning_is_set_aside_in_one_step_and_that_is_undone(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *LOOSE)
    before = hands.document()
    expect(hands.page.locator("#finding-counts")).to_contain_text("2 warnings")
    row(hands).get_by_role("button", name="Set aside").click()
    field = row(hands).get_by_label("Why it is set aside")
    expect(field).to_be_focused()
    with hands.saved():
        field.fill("for the fan, next week")
        hands.press("Enter")
    assert [one["reason"] for one in hands.document()["records"]["accepted"]] == ["for the fan, next week"]
    expect(row(hands)).to_contain_text("Set aside: for the fan, next week")
    expect(hands.page.locator("#finding-rows > .is-aside")).to_have_count(1)
    expect(hands.page.locator("[data-action=undo]")).to_contain_text("Undo: set aside: ")
    expect(hands.page.locator("#finding-counts")).to_contain_text("1 warning")
    hands.undo()
    assert hands.document() == before
    expect(row(hands).get_by_role("button", name="Set aside")).to_be_visible()
    hands.redo()
    leave_list(hands)
    expect(hands.page.locator("#aside-words")).to_have_text("Set aside (1)")
    expect(row(hands)).to_be_hidden()


def test_it_is_back_when_its_conductor_was_moved(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING, *LOOSE)
    row(hands).get_by_role("button", name="Set aside").tap()
    with hands.saved():
        row(hands).get_by_label("Why it is set aside").fill("spare for the fan")
        row(hands).get_by_role("button", name="Set aside").tap()
    leave_list(hands)
    expect(hands.page.locator("#finding-aside")).to_be_visible()
    hands.change_elsewhere({"op": "replace", "path": "/layouts/as-left/conductors/w5/ends/0", "value": "fb.Y"})
    hands.page.tap('[data-call="tc=heat-1"]')
    expect(row(hands)).to_contain_text("back: w5 was moved. It was set aside: spare for the fan")
    expect(row(hands)).to_be_visible()
    expect(hands.page.locator("#finding-aside")).to_be_hidden()


def test_a_danger_is_known_and_stays_where_it_is(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.R", "fb.C"))
    danger = hands.page.locator('[data-rule="hot-to-common-short"]')
    danger.get_by_role("button", name="Known, still open").click()
    with hands.saved():
        hands.page.keyboard.type("breaker locked until Monday")
        hands.press("Enter")
    expect(danger).to_contain_text("Known, still open: breaker locked until Monday")
    expect(hands.page.locator("#finding-counts")).to_contain_text("1 danger")
    leave_list(hands)
    hands.page.wait_for_timeout(5200)
    expect(danger).to_be_visible()
    with hands.saved():
        danger.get_by_role("button", name="Take that back").click()
    assert hands.document()["records"]["accepted"] == []


def test_by_keyboard_a_reason_is_given_or_left_and_focus_stays_in_the_list(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *LOOSE)
    button = row(hands).get_by_role("button", name="Set aside")
    button.focus()
    with hands.nothing_sent():
        hands.press("Enter", "Escape")
    expect(row(hands).get_by_label("Why it is set aside")).to_have_count(0)
    assert hands.page.evaluate("document.querySelector('#findings').contains(document.activeElement)")
    button.focus()
    hands.press("Enter")
    with hands.saved():
        hands.page.keyboard.type("known")
        hands.press("Enter")
    expect(row(hands)).to_contain_text("Set aside: known")
    assert hands.page.evaluate("document.querySelector('#findings').contains(document.activeElement)")
    row(hands).get_by_role("button", name="Take it up again").focus()
    with hands.saved():
        hands.press("Enter")
    assert hands.document()["records"]["accepted"] == []
