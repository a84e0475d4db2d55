"""What *Picked* tells of a conductor: what it is for, its run, its cable; and that figures there are edits."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def bench(opens: Open) -> Hands:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    return hands


def pick(hands: Hands, conductor: str) -> None:
    hands.page.locator(f'[data-key="conductor:{conductor}"]').focus()
    hands.press("Space")
    expect(hands.page.locator("[data-what-for=known]")).to_be_visible()


def test_a_supply_is_hot_all_the_time_and_everything_is_lost_without_it(opens: Open) -> None:
    hands = bench(opens)
    pick(hands, "w3")
    purpose = hands.page.locator(".what-for p")
    expect(purpose.first).to_have_text("24 V supply.")
    expect(purpose.nth(1)).to_have_text("It is hot all the time.")
    expect(purpose.nth(2)).to_contain_text("Without it heat 1 at Thermostat lacks")
    expect(purpose.nth(2)).to_contain_text("furnace heat")


def test_a_call_names_the_calls_that_make_it_hot(opens: Open) -> None:
    hands = bench(opens)
    pick(hands, "w4")
    purpose = hands.page.locator(".what-for")
    expect(purpose).to_contain_text("Call for furnace heat.")
    expect(purpose).to_contain_text("It is hot with heat 1 at Thermostat.")


def test_what_it_is_for_follows_an_edit(opens: Open) -> None:
    hands = bench(opens)
    pick(hands, "w4")
    with hands.saved():
        hands.page.locator('[data-f="picked:w4.1:off"]').click()
    expect(hands.page.locator(".what-for")).not_to_contain_text("It is hot with")
    expect(hands.page.locator("[data-what-for=known]")).to_be_visible()


def test_length_and_gauge_are_edits_and_come_back(opens: Open) -> None:
    hands = bench(opens)
    pick(hands, "w4")
    run = hands.page.locator(".run-words")
    expect(run).to_have_text("A join without length: no volts are lost in it.")
    with hands.saved():
        hands.page.locator('[data-f="w4:length_m"]').fill("100")
        hands.press("Tab")
    assert hands.layout()["conductors"]["w4"]["length_m"] == 30.48
    expect(run).to_have_text("Run: 100 ft, 18 AWG.")
    with hands.saved():
        hands.page.locator('[data-f="w4:size_awg"]').select_option("20")
    expect(run).to_have_text("Run: 100 ft, 20 AWG.")
    for _ in range(2):
        hands.undo()
    expect(run).to_have_text("A join without length: no volts are lost in it.")
    for _ in range(2):
        hands.redo()
    expect(run).to_have_text("Run: 100 ft, 20 AWG.")


def test_from_a_conductor_to_its_cable_and_back(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    pick(hands, "w3")
    run = hands.page.locator(".run-words")
    expect(run).to_have_text("In cable 10-conductor through the letter chute: 52.5 ft, 18 AWG.")
    run.locator("button").click()
    expect(hands.page.locator("#picked-heading")).to_have_text("Cable 10-conductor through the letter chute")
    hands.page.locator('[data-f="core:w5"]').click()
    expect(hands.page.locator("#picked-heading")).to_have_text("Conductor w5, YE")


def test_where_the_server_does_not_say_it_is_said_so(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    hands.page.route("**/explain?**", lambda route: route.abort())
    hands.page.locator('[data-key="conductor:w4"]').focus()
    hands.press("Space")
    expect(hands.page.locator(".what-for")).to_contain_text("Not known now: the server does not say.")
