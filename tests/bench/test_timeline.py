"""The time line: dragged, stepped and by keys, it shows the moment and tells what happened until then."""

from __future__ import annotations

from playwright.sync_api import FloatRect, expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def open_run(hands: Hands) -> None:
    """Open a furnace that is called, with its time line."""
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click('[data-call="tc=heat-1"]')
    hands.page.click("#time-toggle")
    expect(hands.page.locator("#time-panel")).to_be_visible()
    expect(hands.page.locator("#time-last")).to_contain_text("Thermostat calls heat 1.")


def go_to(hands: Hands, seconds: int) -> None:
    """Drag the slider to a time."""
    slider = hands.page.locator("#time-at")
    box = slider.bounding_box()
    most = int(slider.get_attribute("max") or "0")
    assert box
    y, start = box["y"] + box["height"] / 2, int(slider.input_value())
    hands.drag((along(box, start, most), y), (along(box, seconds, most), y))


def along(box: FloatRect, seconds: int, most: int) -> float:
    """Return where the thumb of a slider stands, which is 16 pixels wide and stays inside it."""
    return box["x"] + 8 + (box["width"] - 16) * seconds / most


def test_dragging_the_time_shows_the_moment_and_sends_no_edit(opens: Open) -> None:
    hands = opens(LAPTOP)
    with hands.nothing_sent():
        open_run(hands)
        expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_have_count(0)
        go_to(hands, 400)
        expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_be_attached()
        expect(hands.page.locator('[data-conductor="w4"]')).to_have_attribute("data-live", "carrying")
        go_to(hands, 700)
        expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_have_count(0)
        expect(hands.page.locator('[data-conductor="w4"]')).to_have_attribute("data-live", "cold")
    expect(hands.page.locator('[data-call="tc=heat-1"]')).to_have_attribute("aria-pressed", "true")


def test_steps_go_from_event_to_event_and_the_list_ends_with_the_last(opens: Open) -> None:
    hands = opens(TABLET)
    open_run(hands)
    words = hands.page.locator("#time-words")
    seen = {words.text_content()}
    for _ in range(3):
        before = words.text_content()
        hands.page.tap("#time-on")
        expect(words).not_to_have_text(before or "")
        seen.add(words.text_content())
    assert len(seen) == 4
    hands.page.locator("#time-panel summary").tap()
    last = hands.page.locator("#time-events > li").last.text_content() or ""
    assert last in (hands.page.locator("#time-last").text_content() or "")
    hands.page.tap("#time-back")
    expect(hands.page.locator("#time-events > li").last).not_to_have_text(last)
    for button in ("#time-on", "#time-back", "#time-toggle"):
        box = hands.page.locator(button).bounding_box()
        assert box
        assert box["height"] >= 44


def test_keys_move_the_time_by_a_second_and_say_where_it_is(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_run(hands)
    slider = hands.page.locator("#time-at")
    slider.focus()
    hands.press("ArrowRight", "ArrowRight")
    expect(hands.page.locator("#time-words")).to_contain_text("At 0:02.")
    hands.press("End")
    expect(hands.page.locator("#time-words")).to_contain_text("At 15:00.")
    text = slider.get_attribute("aria-valuetext") or ""
    assert text.startswith("15:00. ")
    assert hands.focused() == "time-at"


def test_why_and_meter_follow_the_moment_and_leaving_shows_how_things_stand(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_run(hands)
    hands.page.click('[data-why="fb:furnace-heat"]')
    title = hands.page.locator("#why-panel .panel-title")
    expect(title).to_contain_text("is off")
    go_to(hands, 400)
    expect(title).to_contain_text("is on")
    hands.page.click("#time-toggle")
    expect(hands.page.locator("#time-panel")).to_be_hidden()
    expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_be_attached()


def test_an_edit_on_the_time_line_shows_the_same_moment_of_the_new_run(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_run(hands)
    go_to(hands, 400)
    expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_be_attached()
    hands.page.locator('[data-key="conductor:w4"]').focus()
    with hands.saved():
        hands.press("Delete")
    expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_have_count(0)
    expect(hands.page.locator("#time-words")).to_contain_text("At 6:")


def test_turning_to_a_view_without_moments_leaves_the_time_line(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_run(hands)
    hands.page.click('[data-view-choice="timing"]')
    expect(hands.page.locator("#sheet-heading")).to_have_text("Timing chart")
    expect(hands.page.locator("#time-panel")).to_be_hidden()
    hands.page.click("#time-toggle")
    expect(hands.page.locator("#sheet-heading")).to_have_text("Connection diagram")
    expect(hands.page.locator("#time-last")).to_contain_text("Thermostat calls heat 1.")
