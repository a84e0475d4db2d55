"""Nothing needs a drag (WCAG 2.5.7): each thing that a drag does is done by single presses too, as one edit."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open, Screen
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def bench(opens: Open, screen: Screen = TABLET) -> Hands:
    hands = opens(screen)
    hands.open_parts(HEATING, *HEATING_WIRES)
    return hands


def test_a_part_is_moved(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-view-choice="connection"]').tap()
    box = hands.page.locator('[data-part="tc"] rect').first.bounding_box()
    assert box
    hands.tap((box["x"] + box["width"] - 20, box["y"] + box["height"] - 8))
    expect(hands.page.locator("#picked-heading")).to_have_text("Thermostat")
    for way, x, y in (("left", -24, 0), ("right", 24, 0), ("up", 0, -24), ("down", 0, 24)):
        with hands.saved():
            hands.page.locator(f'[data-nudge="{way}"]').tap()
        assert hands.layout()["parts"]["tc"]["at"] == [960 + x, y], way
        hands.undo()
        assert hands.layout()["parts"]["tc"]["at"] == [960, 0], way
        hands.redo()
        assert hands.layout()["parts"]["tc"]["at"] == [960 + x, y], way
        hands.undo()


def test_the_paper_is_moved(opens: Open) -> None:
    hands = bench(opens)
    before = hands.matrix()
    hands.page.locator("#more summary").tap()
    with hands.nothing_sent():
        hands.page.locator('[data-pan="1,0"]').tap()
        hands.page.locator('[data-pan="0,-1"]').tap()
    after = hands.matrix()
    assert after[0] == before[0]
    assert after[1] > before[1] + 50, "the paper goes right, so that one sees what is left"
    assert after[2] < before[2] - 50
    hands.page.locator('[data-pan="-1,0"]').tap()
    hands.page.locator('[data-pan="0,1"]').tap()
    assert hands.matrix() == pytest.approx(before)


def test_the_size_is_changed(opens: Open) -> None:
    hands = bench(opens)
    before = hands.matrix()[0]
    hands.page.locator("#zoom-in").tap()
    assert hands.matrix()[0] == pytest.approx(before * 1.25)
    hands.page.locator("#zoom-out").tap()
    assert hands.matrix()[0] == pytest.approx(before)


def test_an_end_is_moved_and_taken_off(opens: Open) -> None:
    hands = bench(opens)
    page = hands.page
    page.locator('[data-view-choice="words"]').tap()
    page.locator('#words-content [data-f="words:w4.1:move"]').tap()
    with hands.saved():
        page.locator('#words-content [data-f="words:tc.Y"]').tap()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.Y"]
    with hands.saved():
        page.locator('#words-content [data-f="words:w4.1:off"]').tap()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", None]
    for _ in range(2):
        hands.undo()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.W"]
    for _ in range(2):
        hands.redo()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", None]


def test_a_new_conductor_is_left_open(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-view-choice="words"]').tap()
    hands.page.locator('#words-content [data-f="words:fb.G"]').tap()
    with hands.saved():
        hands.page.locator("#leave-open").tap()
    assert ["fb.G", None] in [one["ends"] for one in hands.layout()["conductors"].values()]


def test_several_parts_are_picked(opens: Open) -> None:
    hands = bench(opens, LAPTOP)
    hands.page.locator('[data-key="part:fb"]').focus()
    hands.press("Space")
    box = hands.page.locator('[data-part="tc"] rect').first.bounding_box()
    assert box
    hands.page.mouse.click(box["x"] + box["width"] - 20, box["y"] + box["height"] - 8, button="right")
    hands.page.get_by_role("menuitem", name="Pick it as well").click()
    expect(hands.page.locator("#picked-heading")).to_have_text("2 things picked")
