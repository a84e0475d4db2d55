"""Every page, light and dark: no violation that axe finds, and nothing wider than the screen."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, PHONE, TABLET, Open
from tests.bench.hands import Hands

PAGES = ("/", "/findings", "/findings/hot-to-common-short", "/kinds", "/kinds/heat-pump-unit", "/keys")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


PICTURES = {"exclude": [[".demo-drawing"], [".example-drawing"]]}
"""Drawings on pages to read are hidden from readers; the words beside them say the same."""


def is_sound(hands: Hands, where: str, only: str = "") -> None:
    of = {"type": "rule", "values": [only]} if only else {"type": "tag", "values": TAGS}
    found = Axe().run(hands.page, PICTURES, {"runOnly": of, "resultTypes": ["violations"]})
    said = [(one["id"], [node["html"][:160] for node in one["nodes"][:3]]) for one in found.response["violations"]]
    assert said == [], where


def no_sideways_scroll(hands: Hands, where: str) -> None:
    assert hands.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where


def is_sound_in_both_themes(hands: Hands, where: str) -> None:
    """A theme changes colours alone, so only contrast is looked at again."""
    is_sound(hands, f"{where}, light")
    hands.page.emulate_media(color_scheme="dark")
    is_sound(hands, f"{where}, dark", "color-contrast")
    hands.page.emulate_media(color_scheme="light")


@pytest.mark.parametrize("path", PAGES)
def test_a_page_to_read(opens: Open, path: str) -> None:
    hands = opens(LAPTOP)
    hands.page.goto(path)
    is_sound_in_both_themes(hands, path)


def test_pages_to_read_fit_a_phone(opens: Open) -> None:
    hands = opens(PHONE)
    for path in PAGES:
        hands.page.goto(path)
        no_sideways_scroll(hands, path)


@pytest.mark.parametrize("screen", [LAPTOP, TABLET, PHONE], ids=["laptop", "tablet", "phone"])
def test_the_bench(opens: Open, screen: dict[str, object]) -> None:
    hands = opens(screen)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    is_sound_in_both_themes(hands, "as opened")
    no_sideways_scroll(hands, "as opened")
    hands.page.locator('[data-view-choice="words"]').click()
    is_sound(hands, "in words")
    hands.page.locator("#words-content .row.screw").first.click()
    is_sound_in_both_themes(hands, "something in hand")
    if screen is PHONE:
        for region in ("calls", "picked", "findings"):
            hands.page.click(f'[data-region="{region}"]')
            is_sound(hands, region)
            no_sideways_scroll(hands, region)
        return
    hands.page.click("#put-back")
    hands.page.locator('[data-view-choice="connection"]').click()
    hands.page.locator('[data-key="part:tc"]').focus()
    hands.press("Space")
    expect(hands.page.locator("#picked-heading")).to_contain_text("Thermostat")
    hands.page.click("#more summary")
    is_sound_in_both_themes(hands, "a part picked, More open")


def test_marks_on_the_drawing_are_only_ink(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("bakery-flat-heat-pump"))
    colours = hands.page.eval_on_selector_all(
        "#sheet .drawing *",
        "nodes => [...new Set(nodes.flatMap(n => [n.getAttribute('fill'), n.getAttribute('stroke')]))]",
    )
    assert set(colours) <= {None, "none", "currentColor", "black", "white"}


def test_a_missing_page_is_said(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    reply = hands.page.goto("/kinds/perpetual-motion")
    assert reply
    assert reply.status == 404
