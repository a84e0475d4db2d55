"""What the page says and shows so that a new person goes on: the next step, whole names, the whole sheet."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.layouts import HEATING, HEATING_WIRES


def test_how_to_pull_is_said_until_something_is_pulled(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING)
    edge = hands.page.locator("#edge-line")
    expect(edge).to_contain_text("Drag from screw to screw")
    hands.pull("xf.R", "fb.XF")
    expect(edge).to_have_text("")


def test_an_empty_sheet_is_not_called_sound(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    expect(hands.page.locator("#no-findings")).to_have_text("Nothing is on the sheet yet.")
    hands.open_parts(HEATING, *HEATING_WIRES)
    expect(hands.page.locator("#no-findings")).to_contain_text("Try each call")


def test_a_name_of_two_words_is_whole_and_clear_of_the_screws(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    name = hands.page.locator('[data-part="xf"] text.name')
    expect(name.locator("tspan")).to_have_text(["Furnace", "transformer"])
    below = name.bounding_box()
    letter = hands.page.locator('[data-terminal="xf.L1"] text.letter').bounding_box()
    assert below
    assert letter
    # Boxes of text hold room for accents and tails: two pixels of each are empty.
    assert below["y"] + below["height"] - 2 <= letter["y"] + 2


def test_a_newly_picked_part_is_read_from_its_beginning(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    region = hands.page.locator("#picked-content")
    for part, scroll in (("tc", 200), ("fb", 0)):
        hands.page.locator(f'[data-key="part:{part}"]').focus()
        hands.press("Space")
        expect(hands.page.locator("#picked-heading")).to_contain_text("Thermostat" if part == "tc" else "Furnace")
        if scroll:
            region.evaluate("(node, top) => { node.scrollTop = top; }", scroll)
            assert region.evaluate("node => node.scrollTop") == scroll
    assert region.evaluate("node => node.scrollTop") == 0
