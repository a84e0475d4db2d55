"""Ladder, timing chart and lists on the bench: the same layout, situation and picks, and the way back to the screw."""

from __future__ import annotations

from itertools import pairwise

import pytest
from playwright.sync_api import Locator, expect

from tests.bench.conftest import LAPTOP, PHONE, SCREENS, TABLET, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES, layout_of
from tests.bench.soundness import is_sound, is_sound_in_both_themes, no_sideways_scroll

LOOKING = ("ladder", "timing", "wires", "terminals")


WIRING = '.drawing:not(:has([data-layer="changes"])) [data-part][data-box]'
"""What is only on the connection diagram."""
WITHOUT_HEAT = (*HEATING_WIRES[:3], ("fb.G", "tc.W"), ("fb.G", "tc.G"))
"""The same furnace before: the wire for heat was landed on the wrong screw, and another one was there."""


def open_two_layouts(hands: Hands, *more: tuple[str, dict[str, object]]) -> None:
    """Open a job whose as-left has one wire moved and one taken off since as-found."""
    layouts = {"as-found": layout_of(HEATING, *WITHOUT_HEAT), "as-left": layout_of(HEATING, *HEATING_WIRES)}
    hands.open_job(hands.make_job({**layouts, **dict(more)}))


def turn_to(hands: Hands, view: str) -> None:
    """Choose a view and wait until it is on the sheet; what tells it by is only on that view."""
    hands.page.locator(f'[data-view-choice="{view}"]').click()
    mark = {
        "connection": WIRING,
        "ladder": "[data-rung]",
        "timing": ".band",
        "wires": ".block [data-conductor]",
        "terminals": ".block [data-terminal]",
        "changes": "[data-changed]",
    }[view]
    expect(hands.page.locator(f"#sheet {mark}").first).to_be_visible()


def middle(thing: Locator) -> tuple[float, float]:
    box = thing.bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_each_view_shows_the_situation_and_follows_undo_and_redo(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.pull("fb.G", "tc.G")
    pulled = next(name for name in hands.layout()["conductors"] if name not in ("w1", "w2", "w3", "w4"))
    here = hands.page.locator(f'#sheet [data-conductor="{pulled}"]')
    for view in ("ladder", "wires"):
        turn_to(hands, view)
        expect(here.first).to_be_attached()
        hands.undo()
        expect(here).to_have_count(0)
        hands.redo()
        expect(here.first).to_be_attached()
    turn_to(hands, "terminals")
    with hands.nothing_sent():
        hands.page.click('[data-call="tc=heat-1"]')
        expect(hands.page.locator('#sheet [data-terminal="fb.W"]')).to_contain_text(" V")


def test_a_screw_picked_on_the_ladder_is_found_where_it_stands(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    # Far from the thermostat, so that it has to be brought into sight.
    for _ in range(6):
        hands.page.click("#zoom-in")
    turn_to(hands, "ladder")
    with hands.nothing_sent():
        hands.page.mouse.click(*middle(hands.page.locator('#sheet [data-terminal="tc.H1"] circle').first))
        expect(hands.page.locator("#picked-heading")).to_have_text("Terminal H1, thermostat, counter")
        expect(hands.page.locator("#where-words")).to_have_text("H1, thermostat, counter")
        hands.page.click("#where-go")
        expect(hands.page.locator('#sheet [data-key="terminal:tc.H1"]')).to_be_focused()
    expect(hands.page.locator("#picked-heading")).to_have_text("Terminal H1, thermostat, counter")
    expect(hands.page.locator("#where")).to_be_hidden()
    x, y = hands.at_screw("tc.H1")
    box = hands.page.locator("#sheet").bounding_box()
    assert box
    assert box["x"] < x < box["x"] + box["width"]
    assert box["y"] < y < box["y"] + box["height"]


def test_views_by_keyboard_alone(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.locator('[data-view-choice="connection"]').focus()
    hands.press("Tab", "Enter")
    expect(hands.spoken()).to_contain_text("Ladder diagram.")
    expect(hands.page.get_by_role("application", name="Ladder diagram")).to_be_visible()
    hands.page.locator("#go-to-open").focus()
    for _ in range(4):
        hands.press("Tab")
        if ":" in hands.focused():
            break
    with hands.nothing_sent():
        seen = [hands.focused()]
        for key in ("ArrowRight", "ArrowRight", "ArrowDown"):
            hands.press(key)
            seen.append(hands.focused())
        assert all(before != after and ":" in after for before, after in pairwise(seen)), seen
        hands.press("Space")
        expect(hands.page.locator("#sheet .is-picked").first).to_be_visible()
        hands.press("Delete")
        expect(hands.spoken()).to_have_text("Wires are changed in the connection diagram.")
        hands.press("Escape")
        expect(hands.page.locator("#sheet .is-picked")).to_have_count(0)


def test_a_tap_picks_a_row_and_a_drag_pans_and_never_pulls(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING, *HEATING_WIRES)
    turn_to(hands, "wires")
    with hands.nothing_sent():
        hands.tap(middle(hands.page.locator('#sheet [data-conductor="w4"]')))
        expect(hands.page.locator("#picked-heading")).to_contain_text("w4")
        turn_to(hands, "connection")
        expect(hands.page.locator('#sheet [data-conductor="w4"]')).to_contain_class("is-picked")
        turn_to(hands, "ladder")
        before = hands.matrix()
        hands.drag(middle(hands.page.locator('#sheet [data-terminal="fb.W"]').first), (300, 500))
        assert hands.matrix()[1:] != before[1:]
        assert hands.matrix()[0] == before[0]


def test_each_view_is_come_back_to_where_it_was_left(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.page.click("#zoom-in")
    connection = hands.matrix()
    turn_to(hands, "wires")
    hands.page.click("#zoom-out")
    wires = hands.matrix()
    turn_to(hands, "connection")
    assert hands.matrix() == pytest.approx(connection)
    turn_to(hands, "wires")
    assert hands.matrix() == pytest.approx(wires)


def test_the_timing_chart_of_the_chosen_call(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    turn_to(hands, "timing")
    chart = hands.page.locator("#sheet .drawing")
    hands.page.locator("#run-call").select_option("tc=heat-1")
    expect(hands.page.locator('[data-call="tc=heat-1"]')).to_have_attribute("aria-pressed", "true")
    expect(chart).to_contain_text("tc calls heat 1 at 0:00, tc idle at 10:00")
    hands.page.locator("#run-end").fill("120")
    hands.press("Enter")
    expect(chart).to_contain_text("tc idle at 2:00")
    hands.page.locator("#run-opens").select_option("fb.limit")
    expect(chart).to_contain_text("fb limit open at 5:00")
    hands.page.locator("#run-opens-at").fill("60")
    hands.press("Enter")
    expect(chart).to_contain_text("fb limit open at 1:00")
    with hands.nothing_sent():
        hands.page.locator("#run-end").fill("-5")
        hands.press("Enter")
        expect(chart).to_contain_text("tc idle at 2:00")


def test_insides_are_shown_and_hidden(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    button = hands.page.get_by_role("button", name="Insides")
    inside = hands.page.locator('#sheet [data-element^="fb."]')
    button.click()
    expect(inside.first).to_be_visible()
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(hands.page.locator("#sheet")).to_have_attribute("data-detail", "near")
    hands.page.click("#fit")
    hands.pull("fb.G", "tc.G")
    expect(inside.first).to_be_visible()
    turn_to(hands, "ladder")
    expect(button).to_be_hidden()
    turn_to(hands, "connection")
    button.click()
    expect(inside).to_have_count(0)


def test_a_finding_is_shown_on_the_connection_diagram(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES[:3], ("fb.W", None))
    turn_to(hands, "timing")
    hands.page.locator('[data-rule="conductor-end-unlanded"]').get_by_role("button", name="Show me").click()
    expect(hands.page.locator('[data-view-choice="connection"]')).to_have_attribute("aria-pressed", "true")
    expect(hands.page.locator("#sheet [data-part][data-box]").first).to_be_visible()


def test_changes_are_seen_from_a_chosen_layout_and_follow_every_edit(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_two_layouts(hands, ("plan", layout_of(HEATING)))
    turn_to(hands, "changes")
    since = hands.page.get_by_label("Since")
    expect(since).to_have_value("as-found")
    change = hands.page.locator("#sheet [data-conductor]")
    expect(hands.page.locator('#sheet [data-conductor="w4"]')).to_have_attribute("data-change", "moved")
    expect(hands.page.locator('#sheet [data-conductor="w5"]')).to_have_attribute("data-change", "taken off, as it was")
    since.select_option("plan")
    expect(hands.page.locator('#sheet [data-conductor="w4"]')).to_have_attribute("data-change", "new")
    expect(change).to_have_count(len(HEATING_WIRES))
    turn_to(hands, "connection")
    hands.pull("fb.G", "tc.G")
    pulled = next(name for name in hands.layout()["conductors"] if name not in ("w1", "w2", "w3", "w4"))
    turn_to(hands, "changes")
    new = hands.page.locator(f'#sheet [data-conductor="{pulled}"]')
    expect(new).to_have_attribute("data-change", "new")
    hands.undo()
    expect(new).to_have_count(0)
    hands.page.locator('[data-layout-choice="plan"]').click()
    expect(since).to_have_value("as-found")
    expect(hands.page.locator('#sheet [data-conductor="w4"]')).to_have_attribute("data-change", "taken off, as it was")


def test_what_came_off_is_read_and_not_picked(opens: Open) -> None:
    hands = opens(LAPTOP)
    open_two_layouts(hands)
    turn_to(hands, "changes")
    gone = hands.page.locator('#sheet [data-key="conductor:w5"]')
    expect(gone).to_have_accessible_name("w5. Taken off: fb.G to tc.G.")
    row = hands.page.locator('#sheet [data-changed="wire:w4"]')
    expect(row).to_have_accessible_name("w4. Moved: was fb.G; now fb.W.")
    with hands.nothing_sent():
        hands.page.mouse.click(*middle(row))
        expect(hands.page.locator("#picked-heading")).to_have_text("Conductor w4")
        expect(hands.page.locator('#sheet [data-conductor="w4.was.0"]')).to_contain_class("is-picked")
        hands.page.mouse.click(*middle(hands.page.locator('#sheet [data-changed="wire:w5"]')))
        expect(hands.page.locator("#sheet .is-picked")).to_have_count(0)
        gone.focus()
        hands.press("Space")
        expect(hands.spoken()).to_have_text("This is not in the layout, so it cannot be picked.")
        expect(hands.page.locator("[data-action=delete]")).to_be_disabled()


def test_changes_are_offered_while_there_is_another_layout(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    expect(hands.page.locator('[data-view-choice="ladder"]')).to_be_visible()
    expect(hands.page.locator('[data-view-choice="changes"]')).to_be_hidden()
    open_two_layouts(hands)
    turn_to(hands, "changes")
    hands.change_elsewhere({"op": "remove", "path": "/layouts/as-found"})
    hands.expects_refusal = True
    hands.page.click('[data-call="tc=heat-1"]')
    expect(hands.page.locator('[data-view-choice="changes"]')).to_be_hidden()
    expect(hands.page.locator(f"#sheet {WIRING}").first).to_be_visible()


@pytest.mark.parametrize("screen", ["laptop", *in_the_long_run("phone")])
def test_changes_are_sound(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    open_two_layouts(hands)
    turn_to(hands, "changes")
    no_sideways_scroll(hands, "changes")
    hands.page.locator('#sheet [data-key="conductor:w4"]').focus()
    hands.press("Space")
    is_sound_in_both_themes(hands, "changes, a wire picked")


@pytest.mark.slow
def test_every_view_is_sound(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click('[data-call="tc=heat-1"]')
    for view in LOOKING:
        turn_to(hands, view)
        is_sound(hands, view)
    hands.page.locator('#sheet [data-terminal="fb.W"]').first.focus()
    hands.press("Space")
    is_sound_in_both_themes(hands, "a screw picked on a list")


def test_every_view_fits_a_phone(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_parts(HEATING, *HEATING_WIRES)
    for view in LOOKING:
        turn_to(hands, view)
        no_sideways_scroll(hands, view)
        small = hands.page.locator(".sheet-bar :is(button, select, input, a):visible").evaluate_all(
            "nodes => nodes.filter(n => n.getBoundingClientRect().height < 44).map(n => n.outerHTML.slice(0, 80))"
        )
        assert small == [], view
        sheet = hands.page.locator("#sheet").bounding_box()
        assert sheet
        assert sheet["height"] > 200, view


def test_wiring_is_kept_as_found_and_changes_are_seen_from_there(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    before = hands.layout()
    hands.page.click("#more summary")
    with hands.saved():
        hands.page.get_by_role("button", name="Keep this wiring as found").click()
    expect(hands.spoken()).to_contain_text("Kept as found.")
    assert hands.layout("as-found") == before
    expect(hands.page.locator("#layouts button")).to_have_text(["As found", "As left"])
    hands.pull("fb.G", "tc.G")
    turn_to(hands, "changes")
    expect(hands.page.locator('#sheet [data-change="new"]')).to_have_count(1)
    hands.page.click("#more summary")
    expect(hands.page.get_by_role("button", name="Keep this wiring as found")).to_be_hidden()
    hands.press("Escape")
    hands.undo()
    hands.undo()
    assert list(hands.document()["layouts"]) == ["as-left"]
    expect(hands.page.locator("#layouts")).to_be_hidden()


def test_taking_back_a_kept_layout_while_one_looks_at_it_leads_to_the_one_that_is_left(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#more summary")
    with hands.saved():
        hands.page.get_by_role("button", name="Keep this wiring as found").click()
    hands.page.click('[data-layout-choice="as-found"]')
    expect(hands.page.locator("#bench")).to_have_attribute("data-layout", "as-found")
    hands.page.click("[data-action=undo]")
    expect(hands.page.locator("#bench")).to_have_attribute("data-layout", "as-left")
    expect(hands.state()).to_have_text("Saved and checked.")


def test_back_in_a_view_its_own_scale_is_told(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    told = hands.page.locator("#zoom-now")
    before = told.inner_text()
    hands.page.click('[data-view-choice="ladder"]')
    expect(told).not_to_have_text(before)
    hands.page.click('[data-view-choice="connection"]')
    expect(told).to_have_text(before)


def test_a_sheet_that_was_fitted_in_is_fitted_in_again_after_the_window_became_smaller(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.page.click("#fit")
    turn_to(hands, "ladder")
    hands.page.set_viewport_size({"width": 900, "height": 640})
    turn_to(hands, "connection")
    host = hands.page.locator("#sheet").bounding_box()
    assert host
    for part in hands.page.locator("#sheet [data-part][data-box]").all():
        box = part.bounding_box()
        assert box
        assert host["x"] <= box["x"]
        assert box["x"] + box["width"] <= host["x"] + host["width"]
        assert box["y"] + box["height"] <= host["y"] + host["height"]
