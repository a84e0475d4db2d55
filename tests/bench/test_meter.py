"""The meter: two probes by mouse, finger and keyboard, and what should be read, in words."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, expect

from tests.bench.conftest import LAPTOP, PHONE, TABLET, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import COOLING, COOLING_WIRES


def words(hands: Hands) -> Locator:
    """Return what the meter should read, in words."""
    return hands.page.locator("#meter-words")


def test_two_taps_probe_and_the_third_moves_the_first_probe(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.tap("#meter-toggle")
    with hands.nothing_sent():
        hands.tap(hands.at_screw("xf.R"))
        expect(hands.page.locator("[data-probe]")).to_have_count(1)
        hands.tap(hands.at_screw("xf.C"))
        expect(words(hands)).to_have_text(
            re.compile(r"^P1 R, control transformer, to P2 C, .*: 2\d\.\d V should read\.$")
        )
        expect(hands.page.locator("[data-probe]")).to_have_count(2)
        hands.tap(hands.at_screw("tc.W"))
        expect(words(hands)).to_contain_text("P1 W, thermostat, to P2 C, control transformer: 0.0 V should read.")
    expect(hands.page.locator("#in-hand")).to_be_hidden()
    assert hands.page.locator("[data-probe] text").all_text_contents() == ["P1", "P2"]
    hands.page.tap("#meter-toggle")
    expect(hands.page.locator("[data-probe]")).to_have_count(0)


def test_a_call_changes_what_should_be_read(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.click("#meter-toggle")
    hands.page.mouse.click(*hands.at_screw("ou.Y"))
    hands.page.mouse.click(*hands.at_screw("ou.C"))
    expect(words(hands)).to_contain_text("0.0 V should read.")
    hands.page.click('[data-call="tc=cool-1"]')
    in_drawing = hands.page.locator('[data-volts="ou.Y"]')
    expect(in_drawing).not_to_have_text("0.0 V")
    expect(words(hands)).to_contain_text(f"{in_drawing.text_content()} should read.")


def test_shift_and_enter_probe_the_screw_in_focus_and_say_what_should_be_read(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.locator('[data-key="terminal:xf.R"]').focus()
    with hands.nothing_sent():
        hands.press("Shift+Enter")
        expect(hands.page.locator("#meter-toggle")).to_have_attribute("aria-pressed", "true")
        hands.press("ArrowDown", "Shift+Enter")
        expect(hands.spoken()).to_contain_text("P1 R, control transformer, to P2 C, control transformer: 2")
    assert hands.focused() == "terminal:xf.C"
    expect(hands.page.locator("#in-hand")).to_be_hidden()


def test_ohms_are_refused_until_the_power_is_off(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.click("#meter-toggle")
    hands.page.mouse.click(*hands.at_screw("fb.R"))
    hands.page.mouse.click(*hands.at_screw("tc.R"))
    hands.page.locator("#meter-sort").select_option("ohms")
    expect(words(hands)).to_contain_text("Not read: resistance is measured with the power off.")
    hands.page.click("#power-off")
    expect(words(hands)).to_contain_text("0.0 Ω should read.")
    expect(hands.page.locator("#power-off")).to_have_attribute("aria-pressed", "true")
    expect(hands.page.locator("#meter-panel")).to_contain_text("Prove the meter on a source that is known to be live")


@pytest.mark.parametrize(
    ("meter", "reads"), [("ideal", "Floating"), ("high", "V should read"), *in_the_long_run(("low", "V should read"))]
)
def test_each_meter_has_its_own_word_for_what_floats(opens: Open, meter: str, reads: str) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.click("#meter-toggle")
    hands.page.locator("#meter-sort").select_option(meter)
    hands.page.mouse.click(*hands.at_screw("xf.R"))
    hands.page.mouse.click(*hands.at_screw("xf.L1"))
    expect(words(hands)).to_contain_text(reads)


def test_a_reading_is_kept_on_the_device_with_what_should_have_been_read(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.tap("#meter-toggle")
    hands.tap(hands.at_screw("xf.R"))
    hands.tap(hands.at_screw("xf.C"))
    expect(words(hands)).to_contain_text("should read.")
    should = (words(hands).text_content() or "").split(": ")[-1]
    field = hands.page.locator("#meter-read")
    assert field.get_attribute("inputmode") == "decimal"
    with hands.nothing_sent():
        field.fill("25.8")
        hands.press("Enter")
    expect(hands.page.locator("#meter-said")).to_have_text("Your reading is kept on this device.")
    hands.page.reload()
    hands.wait_ready()
    hands.page.tap("#meter-toggle")
    hands.page.locator("#meter-panel summary").tap()
    kept = hands.page.locator("#meter-kept > li")
    expect(kept).to_contain_text(f"R, control transformer, to C, control transformer, idle: read 25.8 V; {should}")
    kept.get_by_role("button").tap()
    expect(kept).to_have_count(0)


def test_without_the_server_a_reading_is_kept_and_nothing_is_predicted(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.route("**/read?**", lambda route: route.abort())
    hands.page.click("#meter-toggle")
    hands.page.mouse.click(*hands.at_screw("xf.R"))
    hands.page.mouse.click(*hands.at_screw("xf.C"))
    expect(words(hands)).to_contain_text("Prediction needs the server.")
    hands.page.fill("#meter-read", "25.8")
    hands.press("Enter")
    expect(hands.page.locator("#meter-said")).to_have_text("Prediction needs the server. Your reading is kept.")


def test_rows_are_probed_on_a_phone(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.tap('[data-region="calls"]')
    hands.page.tap("#meter-toggle")
    hands.page.tap('button[data-region="sheet"]')
    rows = hands.page.locator("#words-content")
    expect(rows.locator('[data-row="xf.R"]')).to_contain_text("Probe")
    with hands.nothing_sent():
        rows.locator('[data-row="xf.R"]').tap()
        rows.locator('[data-row="xf.C"]').tap()
        expect(words(hands)).to_contain_text("V should read.")


def test_probes_are_seen_and_set_on_the_ladder_too(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(COOLING, *COOLING_WIRES)
    hands.page.click("#meter-toggle")
    hands.page.mouse.click(*hands.at_screw("tc.R"))
    expect(hands.page.locator('[data-probe="1"]')).to_be_attached()
    hands.page.click('[data-view-choice="ladder"]')
    expect(hands.page.locator("#sheet-heading")).to_have_text("Ladder diagram")
    spot = hands.page.locator('#sheet .drawing [data-terminal="tc.W"]').first
    expect(spot).to_be_visible()
    expect(hands.page.locator('[data-probe="1"]')).to_be_attached()
    hands.page.locator('[data-key="terminal:tc.W"]').focus()
    hands.press("Shift+Enter")
    expect(hands.page.locator("[data-probe]")).to_have_count(2)
    expect(words(hands)).to_contain_text("P2 W, thermostat: ")
