"""What the page says and shows so that a new person goes on: the next step, whole names, the whole sheet."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, TABLET, Open
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


def test_a_newcomer_sees_whole_systems_first(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    first = hands.page.locator("#add-kinds h3").first
    expect(first).to_have_text("Common systems, parts only")
    hands.page.click("#start-system")
    with hands.saved():
        hands.page.click('[data-add-system="heat-and-cooling"]')
    expect(hands.page.locator("#bench")).to_have_attribute("data-add", "closed")
    expect(first).to_have_text("In the room")


def test_cables_are_offered_once_there_are_parts_for_their_ends(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    cable = hands.page.locator("#add-cables").get_by_role("button", name="Add a cable")
    expect(hands.page.locator("#add-kinds")).to_be_visible()
    expect(cable).to_have_count(0)
    hands.add_part("control-transformer")
    expect(cable).to_have_count(0)
    hands.add_part("furnace-board")
    hands.page.click("#add-toggle")
    expect(cable).to_have_count(1)


def test_a_glove_is_told_of_rows_since_its_drags_pan(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING)
    hands.page.tap("#more summary")
    hands.page.tap("#glove")
    expect(hands.page.locator("#edge-line")).to_contain_text("Tap a part, then the row of its screw")


def test_a_row_says_before_the_landing_what_it_would_be(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.tap(hands.at_screw("xf.R"))
    expect(hands.page.locator("#edge-line")).to_contain_text("Now the screw where it goes")
    hands.page.locator('[data-key="part:xf"]').focus()
    hands.press("Space")
    rows = hands.page.locator("#picked-content")
    expect(rows.locator('[data-row="xf.C"] .does')).to_have_text("Land heredanger")
    expect(rows.locator('[data-row="xf.R"] .does')).to_have_text("Put back")
    hands.page.tap("#put-back")
    for taken in ("xf.R", "xf.C"):
        rows.locator(f'[data-row="{taken}"]').tap()
        expect(rows.locator(f'[data-row="{taken}"] .does')).to_have_text("Put back")
        rows.locator(f'[data-row="{taken}"]').tap()
        expect(rows.locator(f'[data-row="{taken}"] .does')).to_have_text("Pull")


def test_more_goes_away_by_escape_and_by_a_tap_beside_it(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_parts(HEATING)
    more = hands.page.locator("#more")
    hands.page.tap("#more summary")
    hands.press("Escape")
    expect(more).not_to_have_attribute("open", "")
    expect(hands.page.locator("#more summary")).to_be_focused()
    hands.page.tap("#more summary")
    expect(more).to_have_attribute("open", "")
    hands.tap(hands.paper())
    expect(more).not_to_have_attribute("open", "")


def test_marks_of_crowded_screws_stay_apart_and_at_their_size(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.page.mouse.click(*hands.at_screw("xf.R"))
    marks = hands.page.locator("[data-hand=advice] rect")
    expect(marks.first).to_be_visible()
    boxes = [mark.bounding_box() for mark in marks.all()]
    assert len(boxes) > 20
    whole = [box for box in boxes if box is not None]
    assert min(box["height"] for box in whole) > 13.5
    for index, one in enumerate(whole):
        for other in whole[index + 1 :]:
            apart = max(abs(one["x"] - other["x"]) - one["width"], abs(one["y"] - other["y"]) - one["height"])
            assert apart > -1.5
