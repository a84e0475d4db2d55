"""Weather and mains on the bench: for the look only, until all is as usual again."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open
from tests.bench.hands import Hands
from tests.bench.soundness import is_sound_in_both_themes


def with_conditions(opens: Open, screen: dict[str, object], demo: str = "post-office-dual-fuel") -> Hands:
    hands = opens(screen)
    hands.open_job(hands.copy_demo(demo))
    hands.page.click("#conditions-open")
    expect(hands.page.locator("#conditions")).to_be_visible()
    return hands


def test_cold_weather_changes_what_a_call_runs(opens: Open) -> None:
    hands = with_conditions(opens, LAPTOP)
    is_sound_in_both_themes(hands, "conditions")
    hands.press("Escape")
    hands.page.click('[data-call="tc=heat-1"]')
    expect(hands.page.locator('[data-effect="ou:compressor"]').first).to_be_visible()
    hands.page.click("#conditions-open")
    with hands.nothing_sent():
        expect(hands.page.locator("#outdoor")).to_have_value("68")
        hands.page.fill("#outdoor", "-4")
        hands.press("Tab")
        expect(hands.page.locator("#outdoor-too")).to_have_text("(-20 °C)")
        expect(hands.spoken()).to_contain_text("-4 °F outdoors")
        expect(hands.page.locator('[data-effect="ou:compressor"]')).to_have_count(0)
        expect(hands.page.locator("#conditions-open")).to_have_attribute("aria-pressed", "true")
        hands.page.click("#conditions-usual")
        expect(hands.page.locator('[data-effect="ou:compressor"]').first).to_be_visible()
    expect(hands.page.locator("#conditions-open")).to_have_attribute("aria-pressed", "false")


def test_a_job_in_metres_is_told_celsius(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.change_elsewhere({"op": "add", "path": "/settings", "value": {"units": "si"}})
    hands.page.reload()
    hands.wait_ready()
    hands.page.click("#conditions-open")
    expect(hands.page.locator("#outdoor-unit")).to_have_text("°C")
    with hands.nothing_sent():
        hands.page.fill("#outdoor", "-20")
        hands.press("Tab")
        expect(hands.page.locator("#outdoor-too")).to_have_text("(-4 °F)")
        expect(hands.spoken()).to_contain_text("-20 °C outdoors")


def test_a_setting_that_is_a_temperature_is_typed_in_the_unit_of_the_job(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts({"ot": "outdoor-temperature-switch"})
    hands.page.locator('#sheet [data-part="ot"]').click()
    field = hands.page.locator('[data-setting="switches_at_c"]')
    expect(field).to_have_value("30.2")
    with hands.saved():
        field.fill("23")
        hands.press("Tab")
    assert hands.layout()["parts"]["ot"]["settings"]["switches_at_c"] == -5
    row = hands.page.locator("label", has=field)
    expect(row).to_contain_text("(°F)")
    expect(row).to_contain_text("(-5 °C)")
    expect(hands.page.locator("[data-action=undo]")).to_contain_text("to 23 °F")


def test_each_disconnect_opens_by_itself(opens: Open) -> None:
    hands = with_conditions(opens, TABLET, "chapel-two-supplies")
    expect(hands.page.locator("#disconnects")).to_contain_text("Furnace transformer")
    hands.page.tap('[data-supply="outdoor"]')
    expect(hands.page.locator('[data-volts="xc.R"]')).to_have_text("floating")
    expect(hands.page.locator('[data-volts="xh.R"]')).to_contain_text("V")
    hands.press("Escape")
    hands.page.locator('[data-key="terminal:xc.R"]').focus()
    hands.press("Space")
    expect(hands.page.locator("#picked-content")).to_contain_text("The mains of Cooling transformer are off.")
    hands.page.tap("#conditions-open")
    hands.page.tap('[data-supply="furnace"]')
    expect(hands.page.locator('[data-volts="xh.R"]')).to_have_text("floating")
    hands.page.tap('[data-supply="outdoor"]')
    expect(hands.page.locator('[data-volts="xc.R"]')).to_contain_text("V")
