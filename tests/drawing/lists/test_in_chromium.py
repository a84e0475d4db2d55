"""The lists as a real browser shows them: no word is squeezed, none lies on another."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import SheetWords
from tests.demo_jobs.demos import demo
from tests.drawing.lists.drawn import CATALOGUE, DEMANDING, lists_of
from tests.drawing.test_in_chromium import BOXES


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page(viewport={"width": 1200, "height": 1600})
    yield opened
    opened.close()


@pytest.mark.parametrize("name", ["post-office-dual-fuel", "demanding"])
def test_words_are_as_wide_as_they_were_placed(page: Page, name: str) -> None:
    layout, catalogue = DEMANDING, CATALOGUE
    if name != "demanding":
        layout, catalogue = demo(name).job.layouts["as-left"], demo(name).catalogue
    lists = lists_of(layout, catalogue)
    for view in ("wires by cable", "terminals live", "flags"):
        drawing = lists[view]
        page.set_content(f"<body>{one_sheet(drawing, SheetWords('Job', 'as left', drawing.view, '', ''))}</body>")
        texts = sorted(page.evaluate(BOXES), key=lambda text: text["top"])
        assert texts, view
        for number, one in enumerate(texts):
            assert 0.96 * one["said"] - 1 <= one["natural"] <= one["said"] + 0.01, (view, one)
            for other in texts[number + 1 :]:
                if other["top"] >= one["bottom"] - 0.2:
                    break
                assert other["left"] > one["right"] - 0.2 or one["left"] > other["right"] - 0.2, (view, one, other)
