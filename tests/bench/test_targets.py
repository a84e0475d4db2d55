"""Whatever is pressed is large enough to hit (WCAG 2.5.8), on every page and in every state, by mouse and by finger."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, PHONE, TABLET, Open
from tests.bench.hands import Hands
from tests.bench.test_pages import PAGES

SMALL_TARGETS = (Path(__file__).parent / "targets.js").read_text(encoding="utf-8")
LEAST_PX = 24
VIEWS = ("connection", "ladder", "timing", "wires", "terminals", "words")
SCREENS = pytest.mark.parametrize("screen", [LAPTOP, TABLET, PHONE], ids=["laptop", "tablet", "phone"])


def no_small_target(hands: Hands, where: str) -> None:
    found = hands.page.evaluate(SMALL_TARGETS, LEAST_PX)
    assert found == [], where


@SCREENS
def test_on_pages_to_read(opens: Open, screen: dict[str, object]) -> None:
    hands = opens(screen)
    for path in PAGES:
        hands.page.goto(path)
        no_small_target(hands, path)


@SCREENS
def test_in_every_view_of_the_bench(opens: Open, screen: dict[str, object]) -> None:
    hands = opens(screen)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    for view in VIEWS:
        hands.page.locator(f'[data-view-choice="{view}"]').click()
        expect(hands.page.locator(f'[data-view-choice="{view}"]')).to_have_attribute("aria-pressed", "true")
        no_small_target(hands, view)
    if screen is PHONE:
        for region in ("calls", "picked", "findings"):
            hands.page.click(f'[data-region="{region}"]')
            no_small_target(hands, region)


@SCREENS
def test_with_things_picked_and_in_hand(opens: Open, screen: dict[str, object]) -> None:
    hands = opens(screen)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    page = hands.page

    def to(region: str) -> None:
        if screen is PHONE:
            page.click(f'[data-region="{region}"]')

    page.locator('[data-view-choice="words"]').click()
    page.locator("#words-content .words-part .small").first.click()
    to("picked")
    expect(page.locator("#picked-content .row.screw").first).to_be_visible()
    no_small_target(hands, "a part picked")
    to("sheet")
    page.locator("#words-content .landed .link").first.click()
    to("picked")
    expect(page.locator("[data-what-for=known]")).to_be_visible()
    no_small_target(hands, "a conductor picked")
    page.locator("#acts-open").click()
    no_small_target(hands, "the menu open")
    hands.press("Escape")
    to("sheet")
    page.locator("#words-content [data-pick-cable]").first.click()
    expect(page.locator(".cores")).to_be_visible()
    no_small_target(hands, "a cable picked")
    to("sheet")
    page.locator("#words-content .row.screw").first.click()
    expect(page.locator("#in-hand")).to_be_visible()
    no_small_target(hands, "something in hand")


@SCREENS
def test_in_what_opens_over_the_bench(opens: Open, screen: dict[str, object]) -> None:
    hands = opens(screen)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    page = hands.page
    page.locator("#more summary").click()
    no_small_target(hands, "More")
    hands.press("Escape")
    page.locator("#add-toggle:visible, #add-open:visible").first.click()
    no_small_target(hands, "Add a part")
    page.locator("#add [data-action=add-cable]").click()
    no_small_target(hands, "Add a cable")
    page.locator("#cable-cancel").click()
    page.locator("#add-toggle:visible, #add-close:visible").first.click()
    page.locator("#take-open").click()
    no_small_target(hands, "Take away")
    page.locator("#take-close").click()
    page.locator('[data-view-choice="connection"]').click()
    page.locator("#go-to-open").click()
    no_small_target(hands, "Go to")


@pytest.mark.parametrize("hands_worn", ["bare", "glove"])
def test_by_finger_rows_and_buttons_are_larger_still(opens: Open, hands_worn: str) -> None:
    hands = opens(TABLET)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    page = hands.page
    if hands_worn == "glove":
        page.locator("#more summary").tap()
        page.locator("#glove").check()
        page.locator("#more summary").tap()
    least = 56 if hands_worn == "glove" else 44
    page.locator('[data-view-choice="words"]').tap()
    page.locator("#words-content .words-part .small").first.tap()
    for where in (
        "#words-content .row.screw",
        "#picked-content .row.screw",
        "#words-content .small",
        ".call-buttons button",
    ):
        for one in page.locator(where).all():
            box = one.bounding_box()
            assert box
            assert box["height"] >= least, where


def test_every_screw_and_wire_on_the_sheet_has_a_row_of_its_own(opens: Open) -> None:
    """Screws lie closer than any finger; so each can be reached by a row that is large enough."""
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    screws = hands.page.eval_on_selector_all("#sheet [data-terminal]", "nodes => nodes.map(n => n.dataset.terminal)")
    ends = hands.page.eval_on_selector_all("#sheet [data-end]", "nodes => nodes.map(n => n.dataset.end)")
    hands.page.locator('[data-view-choice="words"]').click()
    rows = hands.page.eval_on_selector_all("#words-content [data-row]", "nodes => nodes.map(n => n.dataset.row)")
    moves = hands.page.eval_on_selector_all(
        "#words-content [data-f$=':move']", "nodes => nodes.map(n => n.dataset.f.split(':')[1])"
    )
    assert set(rows) == set(screws)
    assert set(moves) == set(ends)
