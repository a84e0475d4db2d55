"""What is pressed by a finger is larger than WCAG 2.5.8 asks, and what lies too close on the sheet has a row."""

from __future__ import annotations

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.hands import Hands

PRESSED = ("#words-content .row.screw", "#picked-content .row.screw", "#words-content .small", ".call-buttons button")


def test_by_finger_rows_and_buttons_are_larger_still_and_by_glove_more_so(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    page = hands.page
    page.locator('[data-view-choice="words"]').tap()
    page.locator("#words-content .words-part .small").first.tap()
    assert_as_high(hands, 44)
    page.locator("#more summary").tap()
    page.locator("#glove").check()
    page.locator("#more summary").tap()
    assert_as_high(hands, 56)


def assert_as_high(hands: Hands, least: int) -> None:
    for where in PRESSED:
        heights = hands.page.eval_on_selector_all(where, "all => all.map(one => one.getBoundingClientRect().height)")
        assert heights, f"{where} is there to be pressed"
        assert min(heights) >= least, where


def test_every_screw_and_wire_on_the_sheet_has_a_row_of_its_own(opens: Open) -> None:
    """Screws lie closer than any finger; so each can be reached by a row that is large enough."""
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    screws = hands.page.eval_on_selector_all("#sheet [data-terminal]", "nodes => nodes.map(n => n.dataset.terminal)")
    ends = hands.page.eval_on_selector_all("#sheet [data-end]", "nodes => nodes.map(n => n.dataset.end)")
    hands.page.locator('[data-view-choice="words"]').click()
    hands.page.locator("#words-content [data-row]").first.wait_for()
    rows = hands.page.eval_on_selector_all("#words-content [data-row]", "nodes => nodes.map(n => n.dataset.row)")
    moves = hands.page.eval_on_selector_all(
        "#words-content [data-f$=':move']", "nodes => nodes.map(n => n.dataset.f.split(':')[1])"
    )
    assert set(rows) == set(screws)
    assert set(moves) == set(ends)
