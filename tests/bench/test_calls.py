"""The calls under the sheet: a call looks pressed at once, and only as long as what it does can be shown."""

from __future__ import annotations

from playwright.sync_api import Route, expect

from tests.bench.conftest import LAPTOP, Open


def test_a_call_looks_pressed_before_the_server_has_said_what_it_does(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("ferry-cottage-four-wires"))
    page, waiting = hands.page, list[Route]()
    page.route("**/shown?**", lambda route: waiting.append(route))
    page.click('[data-call="tc=cool-1"]')
    expect(page.locator('[data-call="tc=cool-1"]')).to_have_attribute("aria-pressed", "true")
    expect(page.locator('[data-call="tc="]')).to_have_attribute("aria-pressed", "false")
    assert "cool" not in (page.locator("#effects").text_content() or "")
    for route in waiting:
        route.continue_()
    expect(page.locator('[data-call="tc=cool-1"]')).to_have_attribute("aria-pressed", "true")


def test_a_call_that_nobody_answers_is_not_pressed(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.open_job(hands.copy_demo("ferry-cottage-four-wires"))
    page = hands.page
    page.route("**/shown?**", lambda route: route.abort())
    page.click('[data-call="tc=cool-1"]')
    expect(page.locator('[data-call="tc=cool-1"]')).to_have_attribute("aria-pressed", "false")
    expect(page.locator('[data-call="tc="]')).to_have_attribute("aria-pressed", "true")
