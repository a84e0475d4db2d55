"""A job begun from a spreadsheet: kinds are asked for, refusals name row and column, the job opens."""

from __future__ import annotations

from playwright.sync_api import FilePayload, expect

from tests.bench.conftest import LAPTOP, PHONE, Open
from tests.bench.hands import Hands
from tests.bench.soundness import is_sound_in_both_themes, no_sideways_scroll

WIRES = "Wire;From;To;Colour\nw1;fb.R;tc.R;red\nw2;fb.W;tc.W;white\nw3;fb.C;not landed;blue\n"


def csv(name: str, text: str, encoding: str = "utf-8") -> FilePayload:
    return {"name": name, "mimeType": "text/csv", "buffer": text.encode(encoding)}


def open_list(hands: Hands, text: str, encoding: str = "utf-8") -> None:
    hands.page.goto("/")
    hands.page.set_input_files("#wires-file", csv("old-mill_cellar.csv", text, encoding))
    hands.page.click("[data-action=open-wires]")


def test_kinds_are_asked_for_and_the_job_opens(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    open_list(hands, WIRES)
    fb, tc = (hands.page.locator(f'#ask-kinds select[name="{part}"]') for part in ("fb", "tc"))
    expect(fb).to_be_focused()
    expect(fb.locator("optgroup").first).to_have_attribute("label", "Fits")
    expect(fb.locator("optgroup").first.locator('[value="furnace-board"]')).to_be_attached()
    is_sound_in_both_themes(hands, "kinds asked for")
    fb.select_option("furnace-board")
    tc.select_option("float-switch")
    hands.page.get_by_role("button", name="Open the job").click()
    expect(hands.page.locator("#ask-kinds-said")).to_contain_text("Wire list: Row 2, column “To”: tc is a float-switch")
    tc.select_option("thermostat-heat-cool")
    hands.page.get_by_role("button", name="Open the job").click()
    hands.wait_ready()
    expect(hands.page.locator("#job-title")).to_have_text("old mill cellar")
    layout = hands.layout("as-found")
    assert layout["parts"]["tc"]["kind"] == "thermostat-heat-cool"
    assert {name: wire["ends"] for name, wire in layout["conductors"].items()} == {
        "w1": ["fb.R", "tc.R"],
        "w2": ["fb.W", "tc.W"],
        "w3": ["fb.C", None],
    }


def test_a_list_that_is_wrong_is_refused_with_row_and_column(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    open_list(hands, WIRES.replace("white", "gelblich ü"), "windows-1252")
    words = hands.page.locator("#begin-words")
    expect(words).to_contain_text("Not opened. Wire list: Row 3, column “Colour”: “gelblich ü” is no colour")
    expect(words).to_contain_text("Right would be:")
    hands.page.set_input_files("#wires-file", csv("list.csv", WIRES))
    hands.page.set_input_files("#parts-file", csv("parts.csv", "part,kind\nfb,furnace-board\ntc,perpetual-motion\n"))
    hands.page.click("[data-action=open-wires]")
    expect(words).to_contain_text("Not opened. Parts: Row 3, column “kind”: there is no kind")


def test_a_dropped_list_with_its_parts_opens_at_once(opens: Open) -> None:
    hands = opens(PHONE)
    hands.page.goto("/")
    no_sideways_scroll(hands, "the list of jobs")
    parts = "part,kind,label\nfb,furnace-board,Furnace\ntc,thermostat-heat-cool,Thermostat\n"
    hands.page.set_input_files("#parts-file", csv("parts.csv", parts))
    hands.page.evaluate(
        "text => { const data = new DataTransfer(); data.items.add(new File([text], 'dropped.csv'));"
        " document.querySelector('#from-wires h3').dispatchEvent("
        " new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data })); }",
        WIRES,
    )
    expect(hands.page.locator("#begin-words")).to_have_text("Wire list: dropped.csv")
    hands.page.click("[data-action=open-wires]")
    hands.wait_ready()
    assert hands.layout("as-found")["parts"]["fb"]["label"] == "Furnace"
