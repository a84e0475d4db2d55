"""Each gesture is one patch that changes what was grabbed and nothing else; what is not a gesture sends nothing."""

from __future__ import annotations

import math

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open, Screen
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES

MOUSE_REACHES_PX = 12
"""So near a screw has to be where screws are told apart."""
MOST_STEPS_OUT = 20


def bench(opens: Open, screen: Screen = LAPTOP, *wires: tuple[str, str | None]) -> Hands:
    hands = opens(screen)
    hands.open_parts(HEATING, *(wires or HEATING_WIRES))
    return hands


def beside(hands: Hands, end: str, away: float = 20) -> tuple[float, float]:
    """Return a point on the wire, some pixels from its screw; screws on the right have their wire to the right."""
    x, y = hands.at_end(end)
    side = hands.page.locator(f'[data-end="{end}"]').evaluate(
        "node => document.querySelector(`[data-terminal='${node.dataset.landed}']`).dataset.side"
    )
    return x + (away if side == "right" else -away), y


def test_a_drag_from_an_occupied_screw_pulls_a_new_conductor(opens: Open) -> None:
    hands = bench(opens)
    hands.pull("fb.R", "tc.Y")
    conductors = hands.layout()["conductors"]
    assert len(conductors) == 5
    assert conductors["w3"]["ends"] == ["fb.R", "tc.R"]
    (new,) = set(conductors) - {"w1", "w2", "w3", "w4"}
    assert conductors[new]["ends"] == ["fb.R", "tc.Y"]


def test_a_drag_from_the_wire_beside_its_screw_moves_that_end(opens: Open) -> None:
    hands = bench(opens)
    with hands.saved():
        hands.drag(beside(hands, "w4.1"), hands.at_screw("tc.Y"))
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.Y"]
    expect(hands.spoken()).to_contain_text("Landed w4 on Y.")


def test_an_end_that_is_dropped_on_paper_is_taken_off_and_can_be_put_back(opens: Open) -> None:
    hands = bench(opens)
    x, y = hands.at_screw("tc.W")
    with hands.saved():
        hands.drag(beside(hands, "w4.1"), (x - 120, y + 170))
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", None]
    assert "conductor-end-unlanded" in hands.rules()
    with hands.saved():
        hands.drag(hands.at_end("w4.1"), hands.at_screw("tc.W"))
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.W"]


def test_a_new_conductor_that_is_dropped_on_paper_stays_open(opens: Open) -> None:
    hands = bench(opens)
    x, y = hands.at_screw("fb.G")
    with hands.saved():
        hands.drag((x, y), (x + 60, y + 90))
    ends = [one["ends"] for one in hands.layout()["conductors"].values()]
    assert ["fb.G", None] in ends


def test_what_is_no_gesture_sends_nothing(opens: Open) -> None:
    hands = bench(opens)
    screw, other = hands.at_screw("fb.G"), hands.at_screw("tc.Y")
    with hands.nothing_sent():
        hands.drag(screw, (screw[0] + 10, screw[1] + 8))
    with hands.nothing_sent():
        hands.drag(screw, other, drop=False)
        hands.page.mouse.move(*screw, steps=3)
        expect(hands.page.locator("#edge-line")).to_contain_text("Land on G of furnace board")
        hands.page.mouse.up()
    with hands.nothing_sent():
        hands.page.mouse.click(*screw)
        hands.page.mouse.click(*screw)
        expect(hands.page.locator("#in-hand")).to_be_hidden()
    with hands.nothing_sent():
        hands.drag(beside(hands, "w4.1"), hands.at_screw("tc.W"))
    with hands.nothing_sent():
        hands.drag(screw, other, drop=False)
        expect(hands.page.locator("#edge-line")).to_contain_text("Land on Y of thermostat:")
        hands.press("Escape")
        hands.page.mouse.up()
    with hands.nothing_sent():
        hands.drag(screw, (640, 790))
    with hands.nothing_sent():
        hands.drag(screw, other, drop=False)
        hands.page.evaluate(
            "document.querySelector('#sheet').dispatchEvent(new PointerEvent('pointercancel', {pointerId: 1}))"
        )
        hands.page.mouse.up()


def test_a_part_is_moved_by_dragging_in_steps_of_the_grid(opens: Open) -> None:
    hands = bench(opens)
    box = hands.page.locator('[data-part="tc"] rect').first.bounding_box()
    assert box
    start = box["x"] + box["width"] - 30, box["y"] + box["height"] - 8
    with hands.saved():
        hands.drag(start, (start[0] - 40, start[1] + 120))
    x, y = hands.layout()["parts"]["tc"]["at"]
    assert x < 960
    assert y > 0
    assert x % 12 == y % 12 == 0
    assert hands.layout()["parts"]["fb"]["at"] == [480, 0]
    expect(hands.page.locator("#picked-heading")).to_have_text("Thermostat")


def test_from_so_far_that_no_letters_are_written_the_middle_of_a_part_is_the_part(opens: Open) -> None:
    hands = bench(opens)
    for _ in range(MOST_STEPS_OUT):
        box = hands.page.locator('[data-part="tc"][data-box] rect').first.bounding_box()
        assert box
        middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        if math.dist(middle, hands.at_screw("tc.Y")) < MOUSE_REACHES_PX:
            break
        hands.page.click("#zoom-out")
        hands.matrix()
    expect(hands.page.locator("#sheet")).to_have_attribute("data-detail", "far")
    with hands.saved():
        hands.drag(middle, (middle[0], middle[1] + 40))
    assert len(hands.conductors()) == len(HEATING_WIRES), "no wire was pulled"
    assert hands.layout()["parts"]["tc"]["at"][1] > 0
    hands.pull("fb.R", "tc.Y")
    assert frozenset({"fb.R", "tc.Y"}) in hands.conductors(), "a screw that is met is still a screw"


def test_the_wheel_zooms_at_the_pointer_and_fit_brings_everything_back(opens: Open) -> None:
    hands = bench(opens)
    before = hands.at_screw("tc.R")
    scale = hands.matrix()[0]
    hands.page.mouse.move(*before)
    with hands.nothing_sent():
        hands.page.mouse.wheel(0, -400)
        hands.page.wait_for_function(f"document.querySelector('#sheet .drawing').getScreenCTM().a > {scale} * 1.5")
    after = hands.at_screw("tc.R")
    assert abs(after[0] - before[0]) < 1
    assert abs(after[1] - before[1]) < 1
    hands.page.click("#fit")
    assert abs(hands.matrix()[0] - scale) < 0.001


def test_while_the_view_moves_the_drawing_is_moved_whole_and_laid_out_where_it_rests(opens: Open) -> None:
    hands = bench(opens)
    drawn = hands.page.locator("#sheet .drawn")
    laid_out = hands.page.locator("#sheet .drawing").get_attribute("viewBox") or ""
    moving = hands.page.evaluate(
        "() => { document.getElementById('zoom-in').click(); return document.querySelector('.drawn').style.transform; }"
    )
    assert moving.startswith("matrix("), "the drawing is scaled as it is before it is laid out anew"
    where = hands.matrix(at_rest=False)
    expect(drawn).to_have_css("transform", "none")
    expect(hands.page.locator("#sheet .drawing")).not_to_have_attribute("viewBox", laid_out)
    assert hands.matrix() == pytest.approx(where, abs=0.01), "and nothing jumps when it is"


def test_a_finger_on_paper_pans_and_on_a_picked_part_moves(opens: Open) -> None:
    hands = bench(opens, TABLET)
    box = hands.page.locator('[data-part="tc"] rect').first.bounding_box()
    assert box
    spot = box["x"] + box["width"] - 20, box["y"] + box["height"] - 8
    before = hands.matrix()
    with hands.nothing_sent():
        finger(hands, spot, (spot[0] - 50, spot[1] + 60))
    after = hands.matrix()
    assert abs(after[1] - before[1] + 50) < 2
    assert abs(after[2] - before[2] - 60) < 2
    spot = spot[0] - 50, spot[1] + 60
    hands.tap(spot)
    expect(hands.page.locator("#picked-heading")).to_have_text("Thermostat")
    with hands.saved():
        finger(hands, spot, (spot[0], spot[1] + 60))
    assert hands.matrix() == after


def test_a_second_finger_pauses_a_drag_and_sends_nothing(opens: Open) -> None:
    hands = bench(opens, TABLET)
    start, target = hands.at_screw("fb.G"), hands.at_screw("tc.Y")
    with hands.nothing_sent():
        touch(hands, "touchStart", start)
        touch(hands, "touchMove", (start[0] + 40, start[1]))
        touch(hands, "touchStart", (start[0] + 40, start[1]), (start[0] + 140, start[1] + 100))
        touch(hands, "touchMove", (start[0] + 40, start[1]), (start[0] + 200, start[1] + 160))
        touch(hands, "touchEnd")
    assert hands.page.locator("#in-hand").is_hidden()
    assert target != hands.at_screw("tc.Y"), "two fingers zoom"


def test_between_two_crowded_screws_a_finger_is_asked_which_one(opens: Open) -> None:
    hands = bench(opens, TABLET)
    for _ in range(8):
        if hands.matrix()[0] * 24 < 16:
            break
        hands.page.click("#zoom-out")
    first, second = hands.at_screw("tc.R"), hands.at_screw("tc.Y")
    assert second[1] - first[1] < 22, "the screws are crowded"
    hands.tap(first)
    assert hands.page.locator(".which-one").is_hidden(), "a hit on the centre is never asked"
    expect(hands.page.locator("#picked-heading")).to_have_text("Terminal R, thermostat")
    hands.page.click("#put-back")
    with hands.nothing_sent():
        hands.tap((first[0], (first[1] + second[1]) / 2 - 1))
        rows = hands.page.locator(".which-one .row[data-key]")
        expect(rows).to_have_text(["R, thermostat", "Y, thermostat"])
    for row in rows.all():
        box = row.bounding_box()
        assert box
        assert box["height"] >= 44
    rows.nth(1).tap()
    expect(hands.page.locator("#picked-heading")).to_have_text("Terminal Y, thermostat")


def finger(hands: Hands, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw a finger over the sheet."""
    touch(hands, "touchStart", start)
    for step in range(1, 7):
        touch(hands, "touchMove", tuple(a + (b - a) * step / 6 for a, b in zip(start, end, strict=True)))  # type: ignore[arg-type]
    touch(hands, "touchEnd")


def touch(hands: Hands, sort: str, *points: tuple[float, float]) -> None:
    """Send a touch event with fingers at these points."""
    fingers = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
    if not hasattr(hands, "cdp"):
        hands.cdp = hands.page.context.new_cdp_session(hands.page)  # type: ignore[attr-defined]
    hands.cdp.send("Input.dispatchTouchEvent", {"type": sort, "touchPoints": fingers})  # type: ignore[attr-defined]


def test_a_thing_of_the_drawing_can_be_clicked_by_its_hook(opens: Open) -> None:
    hands = bench(opens)
    hands.page.locator('[data-terminal="fb.R"] circle').first.click()
    expect(hands.page.locator("#picked-heading")).to_have_text("Terminal R, furnace board")
    hands.press("Escape")
    hands.page.locator('[data-part="fb"] text').first.click()
    expect(hands.page.locator("#picked-heading")).to_have_text("Furnace board")


def test_the_pointer_of_the_sheet_says_what_is_under_it_and_nothing_below_is_styled_anew(opens: Open) -> None:
    hands = bench(opens)
    cursor = "hook => getComputedStyle(document.querySelector(hook)).cursor"
    hands.page.mouse.move(*hands.at_screw("fb.R"))
    expect(hands.page.locator("#sheet")).to_have_css("cursor", "crosshair")
    assert hands.page.evaluate(cursor, "#sheet [data-part]") == "move"


def test_the_keyboard_goes_on_from_what_was_dragged(opens: Open) -> None:
    hands = bench(opens)
    box = hands.page.locator('[data-part="fb"][data-box]').bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    with hands.saved():
        hands.drag((x, y), (x + 60, y))
    assert hands.focused() == "part:fb"
