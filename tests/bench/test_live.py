"""Calls, switches, layouts and set-up: what the circuit does is seen at once."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, PHONE, SCREENS, Open, in_the_long_run
from tests.bench.layouts import HEATING, HEATING_WIRES


def test_a_call_shows_what_is_hot_what_carries_and_what_runs(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    wire = hands.page.locator('[data-conductor="w4"]')
    expect(wire).to_have_attribute("data-live", "cold")
    with hands.nothing_sent():
        hands.page.click('[data-call="tc=heat-1"]')
        expect(wire).to_have_attribute("data-live", "carrying")
    expect(hands.page.locator('[data-volts="fb.W"]')).to_be_visible()
    expect(hands.page.locator('[data-effect="fb:furnace-heat"]')).to_be_attached()
    expect(hands.spoken()).to_contain_text("Heat 1. Runs:")
    hands.page.click('[data-call="tc="]')
    expect(hands.page.locator("#effects")).to_have_text("Nothing runs.")


def test_the_system_switch_goes_before_the_call(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("bakery-flat-heat-pump"))
    switch = hands.page.locator('[data-switch$=".mode"]')
    with hands.nothing_sent():
        switch.select_option("off")
        expect(hands.page.locator('[data-switch$=".mode"]')).to_have_value("off")


def test_a_setting_is_changed_where_the_part_is_picked(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("bakery-flat-heat-pump"))
    outdoor = next(name for name, part in hands.layout()["parts"].items() if part["kind"] == "heat-pump-unit")
    hands.page.locator(f'[data-key="part:{outdoor}"]').focus()
    hands.press("Space")
    field = hands.page.locator('[data-setting="valve_energised_in"]')
    before = hands.document()
    with hands.saved():
        field.select_option("heating")
    assert hands.layout()["parts"][outdoor]["settings"]["valve_energised_in"] == "heating"
    assert "reversing-valve-inverted" in hands.rules()
    hands.undo()
    assert hands.document() == before


def test_the_layout_switch_turns_to_the_wiring_as_found(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    expect(hands.page.locator("#bench")).to_have_attribute("data-layout", "as-left")
    hands.page.get_by_role("button", name="As found").click()
    expect(hands.page.locator("#bench")).to_have_attribute("data-layout", "as-found")
    assert hands.page.locator("#sheet [data-part]").count() == len(hands.layout("as-found")["parts"])
    hands.page.reload()
    hands.wait_ready()
    expect(hands.page.locator("#bench")).to_have_attribute("data-layout", "as-found")


def test_the_caution_is_in_the_page_once_a_day(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    caution = hands.page.locator("#caution")
    expect(caution).to_contain_text("Power off and proved dead before wires move.")
    hands.page.click("#caution-read")
    hands.page.reload()
    hands.wait_ready()
    expect(caution).to_be_hidden()


def test_everything_can_be_wired_in_words_on_a_phone(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_parts(HEATING, *HEATING_WIRES)
    rows = hands.page.locator("#words-content")
    expect(rows).to_be_visible()
    rows.locator('[data-row="fb.G"]').tap()
    with hands.saved():
        rows.locator('[data-row="tc.G"]').tap()
    assert ["fb.G", "tc.G"] in [one["ends"] for one in hands.layout()["conductors"].values()]
    with hands.saved():
        rows.get_by_role("button", name="Take off w4, end 2").tap()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", None]
    rows.get_by_role("button", name="Land w4, end 2").tap()
    with hands.saved():
        rows.locator('[data-row="tc.W"]').tap()
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", "tc.W"]


@pytest.mark.parametrize("screen", ["phone", *in_the_long_run("tablet")])
def test_a_part_can_be_added_on_a_small_screen(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.tap("#add-open")
    with hands.saved():
        hands.page.tap('[data-add-kind="float-switch"]')
    expect(hands.page.locator('[data-add-kind="float-switch"]')).to_be_hidden()
    expect(hands.page.locator("[data-action=undo]")).to_have_text("Undo: add float switch")
    added = [part for part in hands.layout()["parts"].values() if part["kind"] == "float-switch"]
    assert [part["label"] for part in added] == ["Float switch"]
    assert len(added[0]["at"]) == 2


def test_a_file_that_is_no_job_is_refused_with_its_place(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.page.goto("/")
    parts = b'{"fb": {"kind": "no-such"}}'
    wrong = b'{"format": "rungwright-job", "version": 1, "title": "x", "layouts": {"a": {"parts": %b}}}' % parts
    hands.page.set_input_files("#job-file", {"name": "x.json", "mimeType": "application/json", "buffer": wrong})
    hands.page.click("[data-action=open-file]")
    expect(hands.page.locator("#begin-words")).to_contain_text("Not opened: line /layouts/a/parts/fb/kind:")
