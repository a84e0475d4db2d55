"""Is it saved? The state line always says so, in exact words."""

from __future__ import annotations

import re

from playwright.sync_api import Route, expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES

PATCHES = re.compile(r"/api/jobs/[^/]+\?")


def bench(opens: Open) -> Hands:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    expect(hands.state()).to_have_text("Saved and checked.")
    return hands


def start_pull(hands: Hands, start: str, end: str) -> None:
    hands.drag(hands.at_screw(start), hands.at_screw(end))


def test_a_slow_answer_is_waited_for_with_a_dotted_line(opens: Open) -> None:
    hands = bench(opens)
    waiting: list[Route] = []
    hands.page.route(PATCHES, lambda route: waiting.append(route))
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text("Sending...")
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "pending")
    expect(hands.page.locator('[data-hand="pending"] .mark-words')).to_have_text("not checked yet")
    waiting[0].continue_()
    expect(hands.state()).to_have_text("Saved and checked.")
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "saved")
    expect(hands.page.locator('[data-hand="pending"] *')).to_have_count(0)


def test_a_refused_edit_says_what_would_be_right_and_moves_nothing(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    before = hands.document()

    def spoil(route: Route) -> None:
        route.continue_(post_data=(route.request.post_data or "").replace('"tc.G"', '"tc.Q"'))

    hands.page.route(PATCHES, spoil)
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text("Not done: terminal Q does not exist on thermostat. It has R, Y, G, W.")
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "saved")
    assert hands.document() == before
    expect(hands.page.locator("[data-action=undo]")).to_have_attribute("aria-disabled", "true")
    hands.page.unroute(PATCHES)
    hands.pull("fb.G", "tc.G")
    expect(hands.state()).to_have_text("Saved and checked.")


def test_while_the_server_is_away_edits_are_kept_and_nothing_is_claimed(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    hands.page.click('[data-call$="=heat-1"]')
    expect(hands.page.locator("#effects")).to_contain_text("furnace heat")
    hands.page.route(PATCHES, lambda route: route.abort())
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text(
        re.compile(r"^Server away since \d\d:\d\d\. 1 edit kept on this device, not checked yet\.$")
    )
    start_pull(hands, "fb.Y", "tc.Y")
    expect(hands.page.locator("#not-known span")).to_have_text("What runs is not known until your edits are checked.")
    assert hands.page.locator("#sheet .head:visible, #sheet .volts:visible, #effects:visible").count() == 0
    heavy = hands.page.eval_on_selector_all(
        "#sheet .wire", "lines => lines.filter(line => parseFloat(getComputedStyle(line).strokeWidth) > 2).length"
    )
    assert heavy == 0
    assert len(hands.layout()["conductors"]) == 4
    hands.page.unroute(PATCHES)
    hands.page.evaluate("dispatchEvent(new Event('online'))")
    expect(hands.state()).to_have_text("Back. 2 edits saved and checked.")
    assert len(hands.layout()["conductors"]) == 6


def test_edits_kept_on_the_device_are_sent_after_a_reload(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    hands.page.route(PATCHES, lambda route: route.abort())
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_contain_text("1 edit kept on this device")
    hands.page.unroute(PATCHES)
    hands.page.reload()
    hands.wait_ready()
    expect(hands.page.locator("#bench")).to_have_attribute("data-revision", "2")
    assert len(hands.layout()["conductors"]) == 5
    expect(hands.page.locator("[data-action=undo]")).to_contain_text("Undo: pull")


def test_an_edit_on_top_of_one_from_elsewhere_is_told(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    hands.change_elsewhere({"op": "add", "path": "/layouts/as-left/parts/fb/label", "value": "Their furnace"})
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text("This job was also changed elsewhere (1 edit). Yours were put on top.")
    expect(hands.page.locator("#bench")).to_have_attribute("data-revision", "3")
    expect(hands.page.locator('[data-part="fb"] .name')).to_have_text("Their furnace")
    assert len(hands.layout()["conductors"]) == 5


def test_an_edit_is_put_on_top_though_the_page_learned_of_the_other_one_while_it_was_under_way(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    held: list[Route] = []

    def hold_the_first(route: Route) -> None:
        if held:
            route.continue_()
        else:
            held.append(route)

    hands.page.route(PATCHES, hold_the_first)
    start_pull(hands, "fb.G", "tc.G")
    while not held:
        hands.page.wait_for_timeout(20)
    hands.change_elsewhere({"op": "add", "path": "/layouts/as-left/parts/fb/label", "value": "Their furnace"})
    hands.page.click('[data-call="tc=heat-1"]')
    expect(hands.page.locator('[data-part="fb"] .name')).to_have_text("Their furnace")
    held[0].continue_()
    expect(hands.page.locator("#bench")).to_have_attribute("data-revision", "3")
    expect(hands.state()).to_have_text("This job was also changed elsewhere (1 edit). Yours were put on top.")
    assert len(hands.layout()["conductors"]) == 5


def test_an_edit_that_no_longer_fits_is_told_with_the_reason(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    hands.change_elsewhere(
        {"op": "remove", "path": "/layouts/as-left/conductors/w3"},
        {"op": "remove", "path": "/layouts/as-left/conductors/w4"},
        {"op": "remove", "path": "/layouts/as-left/parts/tc"},
    )
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text(
        re.compile(
            r"^Your edit no longer fits: pull w\d+ from G, furnace board to G, thermostat,"
            r" because thermostat tc was removed\.$"
        )
    )
    expect(hands.page.locator('[data-part="tc"]')).to_have_count(0)


def test_what_the_server_cannot_answer_is_kept_and_can_be_left_out(opens: Open) -> None:
    hands = bench(opens)
    hands.expects_refusal = True
    problem = '{"type": "about:blank", "title": "Internal Server Error", "status": 500, "ref": "7f3a"}'
    hands.page.route(PATCHES, lambda route: route.fulfill(status=500, body=problem))
    start_pull(hands, "fb.G", "tc.G")
    expect(hands.state()).to_have_text(
        "The server could not answer (error 500, ref 7f3a). Your edit is kept on this device and will be sent again."
    )
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "offline")
    hands.page.get_by_role("button", name="Leave it out").click()
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "saved")
    assert len(hands.layout()["conductors"]) == 4


def test_a_job_that_is_not_there_is_said(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.page.goto("/jobs/AAAAAAAAAAAAAAAAAAAAAA")
    expect(hands.page.locator("main")).to_contain_text("There is no job with this address. It may have been deleted.")
