"""Why something runs or does not: the path in the drawing, the bar where it stops, the same in words."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, SCREENS, TABLET, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import COOLING, COOLING_WIRES

RAILS = '[data-hand="path"] .mark-path-rails'
WITHOUT_Y = tuple(wire for wire in COOLING_WIRES if wire != ("fb.Y", "tc.Y"))


def bar(hands: Hands) -> tuple[float, float]:
    """Return the middle of the bar on the screen."""
    box = hands.page.locator('[data-hand="path"] .mark-stop').bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_path_is_followed_to_the_screw_where_hot_gets_no_farther(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *WITHOUT_Y)
    hands.page.click('[data-call="tc=cool-1"]')
    why = hands.page.get_by_role("button", name="Why? outdoor fan")
    with hands.nothing_sent():
        why.click()
        expect(hands.page.locator(".mark-flag-words")).to_have_text("stops here: Y not landed")
    x, y = hands.at_screw("tc.Y")
    assert abs(bar(hands)[0] - x) < 14
    assert abs(bar(hands)[1] - y) < 2
    expect(hands.page.locator(RAILS)).not_to_have_count(0)
    steps = hands.page.locator("#path-steps > li")
    expect(steps.last).to_have_text("Stops here: Y not landed.")
    expect(steps.first).to_contain_text("from R, control transformer, to XF, furnace board")
    expect(why).to_have_attribute("aria-pressed", "true")
    expect(hands.spoken()).to_contain_text("Stops here: Y not landed.")
    why.click()
    expect(hands.page.locator(RAILS)).to_have_count(0)
    expect(hands.page.locator("#why-panel")).to_be_hidden()


def test_a_finger_follows_what_runs_and_leaves_by_the_panel(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.tap('[data-call="tc=cool-1"]')
    runs = hands.page.locator('[data-effect="ou:compressor"]')
    runs.tap()
    wires = set(hands.layout()["conductors"])
    expect(hands.page.locator(RAILS)).not_to_have_count(0)
    assert hands.page.locator(RAILS).count() <= len(wires)
    expect(hands.page.locator(".mark-stop")).to_have_count(0)
    expect(hands.page.locator("#path-steps > li").last).to_contain_text("0.0 V to common")
    leave = hands.page.locator("#why-leave")
    box = leave.bounding_box()
    assert box
    assert box["height"] >= 44
    leave.tap()
    expect(hands.page.locator("#why-panel")).to_be_hidden()
    expect(runs).to_have_attribute("aria-pressed", "false")


def test_keys_follow_a_path_and_escape_leaves_it_where_nothing_is_in_hand(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *WITHOUT_Y)
    hands.page.click('[data-call="tc=cool-1"]')
    hands.page.locator('[data-why="ou:compressor"]').focus()
    hands.press("Enter")
    expect(hands.page.locator(".mark-stop")).to_be_attached()
    hands.page.locator('[data-key="terminal:tc.Y"]').focus()
    hands.press("Enter", "Escape")
    expect(hands.page.locator("#in-hand")).to_be_hidden()
    expect(hands.page.locator(".mark-stop")).to_be_attached()
    assert hands.focused() == "terminal:tc.Y"
    hands.press("Escape")
    expect(hands.page.locator(".mark-stop")).to_have_count(0)
    assert hands.focused() == "terminal:tc.Y"


def test_landing_what_is_named_makes_the_path_go_on(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *WITHOUT_Y)
    hands.page.click('[data-call="tc=cool-1"]')
    hands.page.click('[data-why="ou:compressor"]')
    expect(hands.page.locator(".mark-stop")).to_be_attached()
    hands.pull("tc.Y", "fb.Y")
    expect(hands.page.locator(".mark-stop")).to_have_count(0)
    expect(hands.page.locator("#why-panel .panel-title")).to_contain_text("runs")
    expect(hands.page.locator('[data-effect="ou:compressor"]')).to_have_attribute("aria-pressed", "true")


def test_what_nobody_waits_for_can_be_asked_about(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *COOLING_WIRES)
    expect(hands.page.locator("#waiting")).to_be_hidden()
    hands.page.locator("#why-not").select_option("fb:furnace-heat")
    expect(hands.page.locator("#why-panel .panel-title")).to_contain_text("Furnace heat")
    expect(hands.page.locator(".mark-flag-words")).to_contain_text("stops here: ")
    hands.press("Escape")
    expect(hands.page.locator("#why-not")).to_have_value("")


@pytest.mark.parametrize("screen", ["laptop", *in_the_long_run("tablet")])
def test_a_path_needs_the_server_and_says_so(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    hands.expects_refusal = True
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.route("**/follow?**", lambda route: route.abort())
    hands.page.locator("#why-not").select_option("fb:furnace-heat")
    expect(hands.page.locator("#why-panel")).to_contain_text("The path needs the server.")
    expect(hands.page.locator(RAILS)).to_have_count(0)
