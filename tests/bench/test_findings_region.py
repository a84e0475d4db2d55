"""Findings: danger first, mended in one step, never jumping, never nagging."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.soundness import is_sound_in_both_themes


def test_mend_it_is_one_step_and_can_be_undone(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    assert hands.rules("danger") == ["sources-joined"]
    before = hands.document()
    with hands.saved():
        hands.page.locator(".finding.danger [data-action=fix]").first.click()
    assert hands.rules("danger") == []
    cleared = hands.page.locator(".finding.danger.is-cleared")
    expect(cleared).to_contain_text("cleared")
    expect(cleared).to_contain_text("Mended.")
    expect(hands.spoken()).to_contain_text("Danger cleared.")
    expect(hands.page.locator("[data-action=undo]")).to_contain_text("Undo: mend: ")
    with hands.saved():
        cleared.get_by_role("button", name="Undo").click()
    assert hands.document() == before
    assert hands.rules("danger") == ["sources-joined"]


def test_a_danger_that_an_edit_makes_is_first_and_spoken(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.pull("fb.R", "fb.C")
    assert hands.rules()[0] == "hot-to-common-short"
    expect(hands.page.locator("#alert")).to_contain_text("Danger.")
    expect(hands.page.locator(".finding.danger .word").first).to_have_text("new")
    expect(hands.page.locator("#finding-counts")).to_contain_text("1 danger")


def test_rows_keep_their_place_while_somebody_is_in_the_list(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None), ("fb.Y", None))
    rows = hands.page.locator("#finding-rows > .finding")
    expect(rows).to_have_count(3)
    last = rows.last.get_attribute("data-finding")
    rows.last.get_by_role("button", name="Show me").focus()
    at = "() => document.activeElement.closest('.finding').getBoundingClientRect().top"
    before = hands.page.evaluate(at)
    first = rows.nth(1).get_attribute("data-finding")
    assert first
    loose = "w5" if "conductor:w5" in first else "w6"
    hands.change_elsewhere(
        {"op": "add", "path": "/layouts/as-left/conductors/a9", "value": {"ends": ["fb.W", None]}},
        {"op": "remove", "path": f"/layouts/as-left/conductors/{loose}"},
    )
    hands.page.evaluate("document.querySelector('[data-call]').click()")
    expect(rows.last.locator(".word")).to_have_text("new")
    expect(hands.page.locator(f'[data-finding="{first}"]')).to_contain_text("cleared")
    assert hands.page.evaluate("document.activeElement.closest('.finding').dataset.finding") == last
    assert abs(hands.page.evaluate(at) - before) < 1


def test_a_new_danger_and_a_cleared_row_move_nothing_under_whoever_is_in_the_list(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None), ("fb.Y", None))
    rows = hands.page.locator("#finding-rows > .finding")
    keys = rows.evaluate_all("rows => rows.map(row => row.dataset.finding)")
    loose = [key for key in keys if "conductor:w" in key]
    first, key = loose[0], loose[-1]
    assert keys.index(key) >= 2
    hands.page.locator(f'[data-finding="{key}"]').get_by_role("button", name="Show me").focus()
    stands = (
        "() => [document.activeElement.closest('.finding').getBoundingClientRect().top,"
        " document.querySelector('#findings-content').scrollTop]"
    )
    before = hands.page.evaluate(stands)
    conductor = first.split("conductor:")[1].split(" ")[0]
    hands.change_elsewhere(
        {"op": "remove", "path": f"/layouts/as-left/conductors/{conductor}"},
        {"op": "add", "path": "/layouts/as-left/conductors/a9", "value": {"ends": ["fb.R", "fb.C"]}},
    )
    hands.page.evaluate("document.querySelector('[data-call]').click()")
    danger = hands.page.locator('[data-rule="hot-to-common-short"]')
    expect(danger.locator(".word")).to_have_text("new")
    expect(hands.page.locator(f'[data-finding="{first}"]')).to_contain_text("cleared")
    assert hands.page.evaluate("document.activeElement.closest('.finding').dataset.finding") == key
    assert hands.page.evaluate(stands) == pytest.approx(before, abs=0.1)
    hands.page.evaluate("document.activeElement.blur()")
    expect(rows.first).to_have_attribute("data-rule", "hot-to-common-short", timeout=9000)


def test_rows_about_what_is_picked_have_brackets_and_the_others_can_be_left_away(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None), ("fb.Y", None))
    only = hands.page.get_by_role("button", name="Only about this")
    expect(only).to_be_hidden()
    top = hands.page.locator("#findings-content").evaluate("node => node.scrollTop")
    hands.page.locator('[data-key="conductor:w5"]').focus()
    hands.press("Space")
    about = hands.page.locator(".finding.is-about")
    expect(about).to_have_count(1)
    assert "conductor:w5" in (about.get_attribute("data-finding") or "")
    assert hands.page.locator("#findings-content").evaluate("node => node.scrollTop") == top
    only.click()
    expect(hands.page.locator("#finding-rows > .finding:visible")).to_have_count(1)
    only.click()
    expect(hands.page.locator("#finding-rows > .finding:visible")).not_to_have_count(1)


def test_focus_stays_on_a_row_that_is_cleared_under_it(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, ("fb.G", None))
    row = hands.page.locator('[data-rule="conductor-end-unlanded"]')
    row.get_by_role("button", name="Show me").focus()
    hands.change_elsewhere({"op": "remove", "path": "/layouts/as-left/conductors/w5"})
    hands.page.evaluate("document.querySelector('[data-call]').click()")
    expect(row).to_contain_text("cleared")
    assert hands.page.evaluate("document.activeElement.dataset.rule") == "conductor-end-unlanded"


def test_show_me_boxes_what_it_is_about_and_leaves_a_way_back(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    for _ in range(8):
        hands.page.click("#zoom-in")
    hands.page.mouse.move(400, 400)
    hands.page.locator("#work-size").click()
    before = hands.matrix()
    hands.page.locator(".finding.danger").get_by_role("button", name="Show me").click()
    expect(
        hands.page.locator('[data-hand="tags"] .mark-shown, [data-hand="tags"] .mark-shown-line').first
    ).to_be_attached()
    expect(hands.page.locator(".finding.danger")).to_have_attribute("aria-current", "true")
    back = hands.page.locator("#back-there")
    if back.is_visible():
        back.click()
        assert hands.matrix() == before


def test_what_nothing_is_landed_on_yet_is_folded(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    hands.page.click("#start-system")
    with hands.saved():
        hands.page.click('[data-add-system="heat-pump"]')
    expect(hands.page.locator("#folded-words")).to_have_text("Still to wire: 4 parts")
    assert hands.page.locator("#findings-content .finding:visible").count() <= 3


def test_every_row_leads_to_the_page_of_its_rule(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("smokehouse-no-way-back"))
    row = hands.page.locator("#finding-rows > .finding").first
    rule = row.get_attribute("data-rule")
    row.get_by_text("Why", exact=True).click()
    row.get_by_role("link").click()
    expect(hands.page).to_have_url(re.compile(f"/findings/{rule}$"))
    expect(hands.page.locator("h2")).to_contain_text(["What it checks", "Why it matters", "What to do", "Limits"])


def test_several_notes_of_one_rule_are_one_row_that_opens_and_is_mended_at_once(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, (None, None), (None, None))
    note = hands.page.locator('.finding.note[data-rule="spare-unlabelled"]')
    expect(note).to_have_count(1)
    expect(note.locator(".message")).to_contain_text("2 conductors are landed nowhere and have no note: ")
    each = note.locator("details.each")
    each.locator("summary").click()
    expect(each.locator("li")).to_have_count(2)
    expect(each.locator("li").first).to_contain_text("is landed nowhere and has no note that says so.")
    with hands.saved():
        note.locator("[data-action=fix]").click()
    assert "spare-unlabelled" not in hands.rules("note")
    conductors = hands.document()["layouts"]["as-left"]["conductors"].values()
    assert [each["note"] for each in conductors if each["ends"] == [None, None]] == ["spare, landed at neither end"] * 2


LOOSE_ENDS = (("fb.G", None), ("fb.Y", None), ("tc.G", None), ("fb.HUM", None))


def test_warnings_of_one_rule_about_many_things_are_one_row_that_opens(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, *LOOSE_ENDS)
    gathered = hands.page.locator("#finding-rows > .gathered")
    expect(gathered).to_have_count(1)
    summary = gathered.locator("summary").first
    expect(summary).to_contain_text("4 warnings.")
    expect(summary).to_contain_text("A conductor is landed at one end only: ")
    for name in ("w5", "w6", "w7", "w8"):
        expect(summary).to_contain_text(name)
    rows = gathered.locator('[data-rule="conductor-end-unlanded"]')
    expect(rows).to_have_count(4)
    expect(rows.first).to_be_hidden()
    expect(hands.page.locator("#finding-counts")).to_contain_text("warnings")
    is_sound_in_both_themes(hands, "gathered warnings")
    summary.click()
    expect(rows.first).to_be_visible()
    with hands.saved():
        rows.first.locator("[data-action=fix]").click()
    expect(rows.first).to_contain_text("cleared")
    expect(summary).to_contain_text("3 warnings.")


def test_nothing_is_gathered_under_whoever_is_in_the_list(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, *LOOSE_ENDS[:2])
    gathered = hands.page.locator("#finding-rows > .gathered")
    loose = hands.page.locator('#finding-rows > [data-rule="conductor-end-unlanded"]')
    expect(loose).to_have_count(2)
    loose.last.get_by_role("button", name="Show me").focus()
    more = {"op": "add", "path": "/layouts/as-left/conductors/a9", "value": {"ends": ["fb.HUM", None]}}
    hands.change_elsewhere(more)
    hands.page.evaluate("document.querySelector('[data-call]').click()")
    expect(loose).to_have_count(3)
    expect(gathered).to_have_count(0)
    hands.page.evaluate("document.activeElement.blur()")
    expect(gathered).to_have_count(1, timeout=9000)


def test_what_is_picked_is_found_among_gathered_warnings(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES, *LOOSE_ENDS)
    hands.page.locator('[data-key="conductor:w6"]').focus()
    hands.press("Space")
    hands.page.get_by_role("button", name="Only about this").click()
    about = hands.page.locator("#findings .finding:visible")
    expect(about).to_have_count(1)
    assert "conductor:w6" in (about.get_attribute("data-finding") or "")
