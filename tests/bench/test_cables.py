"""Cables as they are pulled: added in one edit, landed one by one or as a whole strip, with what is spare or unseen."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, SCREENS, TABLET, Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING

EIGHT = ["RD", "WH", "GN", "YE", "BU", "OG", "BN", "BK"]
FIVE = ("RD", "WH", "GN", "YE", "BU")


def cable_job(hands: Hands, *ends: tuple[Any, Any]) -> None:
    """Open a furnace and a thermostat with a cable of five between them; ``ends`` of its conductors, else loose."""
    said = [*ends, *[(None, None)] * (5 - len(ends))]
    conductors = {
        f"w{number}": {"ends": list(two), "cable": "cb1", "insulation": code}
        for number, (two, code) in enumerate(zip(said, FIVE, strict=True), start=1)
    }
    cables = {"cb1": {"label": "5-conductor to hall", "length_m": 15.24}}
    hands.open_job(hands.make_job({"as-left": {"parts": HEATING, "cables": cables, "conductors": conductors}}))


def pick_cable(hands: Hands) -> None:
    """Pick the cable from the list in words, as anybody can."""
    words = hands.page.locator('[data-view-choice="words"]')
    if not words.is_visible():
        hands.page.click('[data-region="sheet"]')
    words.click()
    hands.page.locator("#words-content [data-pick-cable]").click()


def by_code(hands: Hands) -> dict[str, list[Any]]:
    """Return the ends of the cable's conductors by insulation."""
    return {one["insulation"]: one["ends"] for one in hands.layout()["conductors"].values() if one.get("cable")}


@pytest.mark.parametrize("how", ["mouse", *in_the_long_run("finger", "keys")])
def test_a_cable_of_eight_is_one_edit_with_the_customary_codes(opens: Open, how: str) -> None:
    hands = opens(TABLET if how == "finger" else LAPTOP)
    hands.open_parts(HEATING)
    page = hands.page
    page.locator('[data-view-choice="words"]').click()
    add = page.locator("#words-content [data-action=add-cable]")
    if how == "keys":
        add.focus()
        hands.press("Enter")
        assert page.evaluate("document.activeElement.name") == "first"
    elif how == "finger":
        add.tap()
    else:
        add.click()
    expect(page.locator("#cable-dialog")).to_be_visible()
    page.locator("[name=count]").select_option("8")
    expect(page.locator("#cable-codes")).to_have_value(" ".join(EIGHT))
    page.locator("[name=length]").fill("50")
    with hands.saved():
        if how == "keys":
            page.locator("[name=length]").focus()
            hands.press("Enter")
        else:
            page.locator("#cable-add").click()
    layout = hands.layout()
    (cable,) = layout["cables"].values()
    assert cable == {"label": "8-conductor, furnace board to thermostat", "size_awg": 18, "length_m": 15.24}
    assert list(by_code(hands)) == EIGHT
    assert all(ends == [None, None] for ends in by_code(hands).values())
    expect(page.locator("#picked-heading")).to_have_text("Cable 8-conductor, furnace board to thermostat")
    expect(page.locator(".cable-summary")).to_contain_text("8 conductors: 8 spare. 50 ft, 18 AWG.")
    hands.undo()
    assert not hands.layout().get("cables")
    assert hands.layout()["conductors"] == {}
    hands.redo()
    assert list(by_code(hands)) == EIGHT


def test_ends_that_nobody_has_looked_at_are_said_so(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING)
    hands.page.locator('[data-view-choice="words"]').click()
    hands.page.locator("#words-content [data-action=add-cable]").click()
    hands.page.locator("[name=count]").select_option("2")
    hands.page.locator("[name=second-ends]").select_option("unseen")
    with hands.saved():
        hands.page.locator("#cable-add").click()
    assert by_code(hands) == {
        "RD": [None, {"unknown": "not looked at yet"}],
        "WH": [None, {"unknown": "not looked at yet"}],
    }
    expect(hands.page.locator(".cable-summary")).to_contain_text("2 conductors: 2 not looked at.")
    end = hands.page.locator("[data-core-end]").nth(1)
    expect(end).to_have_value("?")
    with hands.saved():
        end.select_option("-")
    assert by_code(hands)["RD"] == [None, None]
    with hands.saved():
        end.select_option("?")
    assert by_code(hands)["RD"][1] == {"unknown": "not looked at yet"}


def test_a_code_that_is_none_is_told_and_nothing_is_sent(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING)
    hands.page.locator('[data-view-choice="words"]').click()
    hands.page.locator("#words-content [data-action=add-cable]").click()
    hands.page.locator("#cable-codes").fill("RD W1 BU x")
    with hands.nothing_sent():
        hands.page.locator("#cable-add").click()
    wrong = hands.page.locator("#cable-wrong li")
    expect(wrong).to_have_count(2)
    expect(wrong.first).to_contain_text("“W1” is no insulation code. Right would be two to eight capitals such as RD")
    expect(hands.page.locator("#cable-dialog")).to_be_visible()


@pytest.mark.parametrize("screen", ["phone", *in_the_long_run("laptop", "tablet")])
def test_conductors_are_landed_one_by_one(opens: Open, screen: str) -> None:
    hands = opens(SCREENS[screen])
    cable_job(hands, ("fb.R", "tc.R"))
    pick_cable(hands)
    expect(hands.page.locator(".cable-summary")).to_contain_text("1 landed at both ends, 4 spare")
    expect(hands.page.locator('[data-core-end="w2.0"] option')).not_to_have_count(2)
    with hands.saved():
        hands.page.locator('[data-core-end="w2.0"]').select_option("fb.W")
    with hands.saved():
        hands.page.locator('[data-core-end="w2.1"]').select_option("tc.W")
    assert by_code(hands)["WH"] == ["fb.W", "tc.W"]
    expect(hands.page.locator('[data-core="w2"]')).to_have_attribute("data-core-state", "both ends landed")
    with hands.saved():
        hands.page.locator('[data-core-end="w2.0"]').select_option("-")
    assert by_code(hands)["WH"] == [None, "tc.W"]
    for _ in range(3):
        hands.undo()
    assert by_code(hands)["WH"] == [None, None]
    for _ in range(3):
        hands.redo()
    assert by_code(hands)["WH"] == [None, "tc.W"]


@pytest.mark.parametrize("how", ["keys", *in_the_long_run("mouse", "finger")])
def test_a_whole_strip_is_one_edit(opens: Open, how: str) -> None:
    hands = opens(TABLET if how == "finger" else LAPTOP)
    cable_job(hands, ("fb.R", None))
    pick_cable(hands)
    page = hands.page
    first = page.locator('[data-strip="0"]')
    expect(first).to_have_value("R=RD")
    page.locator('[data-strip-part="1"]').select_option("tc")
    second = page.locator('[data-strip="1"]')
    second.fill("R=RD W=WH g=green Y=YE -=BU")
    with hands.saved():
        if how == "keys":
            second.focus()
            hands.press("Enter")
        elif how == "finger":
            page.locator("[data-action=land-strip]").nth(1).tap()
        else:
            page.locator("[data-action=land-strip]").nth(1).click()
    wired = {"RD": ["fb.R", "tc.R"], "WH": [None, "tc.W"], "GN": [None, "tc.G"], "YE": [None, "tc.Y"]}
    assert by_code(hands) == wired | {"BU": [None, None]}
    expect(hands.spoken()).to_contain_text("Landed RD on R, WH on W, GN on G, YE on Y.")
    expect(second).to_have_value("R=RD Y=YE G=GN W=WH")
    hands.undo()
    assert by_code(hands)["WH"] == [None, None]
    hands.redo()
    assert by_code(hands)["WH"] == [None, "tc.W"]


def test_what_is_wrong_in_a_strip_is_told_by_item_and_nothing_is_applied(opens: Open) -> None:
    hands = opens(LAPTOP)
    cable_job(hands)
    pick_cable(hands)
    hands.page.locator('[data-strip-part="0"]').select_option("fb")
    strip = hands.page.locator('[data-strip="0"]')
    strip.fill("R=RD Q=WH G=VT")
    hands.expects_refusal = True
    with hands.nothing_sent():
        hands.page.locator("[data-action=land-strip]").first.click()
        wrong = hands.page.locator("#wrong-0 li")
        expect(wrong).to_have_count(2)
    expect(wrong.first).to_contain_text("There is no screw “Q” on Furnace board. Right would be one of ")
    expect(wrong.nth(1)).to_contain_text(
        "No conductor of this cable is “VT”. Right would be one of RD, WH, GN, YE, BU."
    )
    expect(strip).to_have_value("R=RD Q=WH G=VT")
    expect(strip).to_have_attribute("aria-invalid", "true")
    assert all(ends == [None, None] for ends in by_code(hands).values())
    strip.fill("R=RD")
    with hands.saved():
        hands.page.locator("[data-action=land-strip]").first.click()
    assert by_code(hands)["RD"] == ["fb.R", None]
    expect(wrong).to_have_count(0)


def test_a_cable_is_removed_with_its_conductors_and_comes_back(opens: Open) -> None:
    hands = opens(LAPTOP)
    cable_job(hands, ("fb.R", "tc.R"))
    pick_cable(hands)
    with hands.saved():
        hands.page.click("[data-action=delete]")
    assert hands.layout()["cables"] == {}
    assert hands.layout()["conductors"] == {}
    hands.undo()
    assert by_code(hands)["RD"] == ["fb.R", "tc.R"]


def test_length_and_gauge_of_a_cable_are_edits_of_their_own(opens: Open) -> None:
    hands = opens(LAPTOP)
    cable_job(hands)
    pick_cable(hands)
    length = hands.page.locator('[data-f="cb1:length_m"]')
    expect(length).to_have_value("50")
    with hands.saved():
        length.fill("100")
        hands.press("Tab")
    assert hands.layout()["cables"]["cb1"]["length_m"] == 30.48
    with hands.saved():
        hands.page.locator('[data-f="cb1:size_awg"]').select_option("20")
    assert hands.layout()["cables"]["cb1"]["size_awg"] == 20
    expect(hands.page.locator(".cable-summary")).to_contain_text("100 ft, 20 AWG.")


def test_a_layout_that_never_had_a_cable_gets_its_first(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.make_job({"as-left": {"parts": HEATING}}))
    hands.page.locator('[data-view-choice="words"]').click()
    hands.page.locator("#words-content [data-action=add-cable]").click()
    hands.page.locator("[name=count]").select_option("2")
    with hands.saved():
        hands.page.locator("#cable-add").click()
    assert sorted(by_code(hands)) == ["RD", "WH"]
