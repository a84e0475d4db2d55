"""The loupe: what a finger hides is shown larger beside it, and named, while something is carried."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.test_gestures import touch


def test_a_finger_that_carries_over_crowded_screws_has_a_loupe(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    start, target = hands.at_screw("fb.G"), hands.at_screw("tc.L")
    loupe = hands.page.locator(".loupe")
    with hands.nothing_sent():
        touch(hands, "touchStart", start)
        touch(hands, "touchMove", ((start[0] + target[0]) / 2, target[1] - 40))
        touch(hands, "touchMove", target)
        expect(loupe).to_be_visible()
        expect(loupe.locator(".loupe-name")).to_have_text("L, thermostat, counter")
        box = loupe.bounding_box()
        assert box
        assert not (
            box["x"] <= target[0] <= box["x"] + box["width"] and box["y"] <= target[1] <= box["y"] + box["height"]
        )
        touch(hands, "touchCancel")
    expect(loupe).to_be_hidden()


def test_a_mouse_hides_nothing_and_has_none(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.drag(hands.at_screw("fb.G"), hands.at_screw("tc.L"), drop=False)
    expect(hands.page.locator(".loupe")).to_be_hidden()
    hands.press("Escape")
