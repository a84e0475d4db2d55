"""A heat pump system from an empty layout, over and over: by dragging, by taps, by rows, by keyboard, on a phone."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from playwright.sync_api import Locator, expect

from tests.bench.conftest import LAPTOP, PHONE, TABLET, Open
from tests.bench.hands import HEAT_PUMP_KINDS, HEAT_PUMP_WIRES, Hands, take_svg, try_each_call, wire_heat_pump


def is_whole(hands: Hands) -> None:
    """No danger is left, every call does what it should, and the drawing can be taken away."""
    assert hands.rules("danger") == []
    assert hands.rules("warning") == []
    try_each_call(hands)
    drawing = ElementTree.fromstring(take_svg(hands))
    assert len(drawing.findall(".//*[@data-conductor]")) == len(HEAT_PUMP_WIRES)
    assert len(drawing.findall(".//*[@data-part]")) == len(HEAT_PUMP_KINDS)
    assert len(drawing.findall(".//*[@data-end]")) == 2 * len(HEAT_PUMP_WIRES)


def test_by_dragging_with_a_mouse(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    expect(hands.page.locator("#empty")).to_contain_text(
        "Empty layout. Add a part to begin, or start from a common system."
    )
    for kind in HEAT_PUMP_KINDS:
        hands.add_part(kind)
    wire_heat_pump(hands, hands.pull)
    is_whole(hands)


@pytest.mark.slow
def test_by_single_taps_on_a_tablet(opens: Open) -> None:
    hands = opens(TABLET)
    hands.open_empty()
    hands.page.tap("#start-system")
    with hands.saved():
        hands.page.tap('[data-add-system="heat-pump"]')

    def tap_tap(start: str, end: str) -> None:
        with hands.nothing_sent():
            hands.tap(hands.at_screw(start))
            expect(hands.page.locator("#in-hand")).to_be_visible()
        with hands.saved():
            hands.tap(hands.at_screw(end))
        expect(hands.page.locator("#in-hand")).to_be_hidden()

    wire_heat_pump(hands, tap_tap)
    is_whole(hands)


@pytest.mark.slow
def test_by_rows_alone_with_a_glove(opens: Open) -> None:
    """Tap a part, tap the row of its screw, tap the other part, tap the row where it lands."""
    hands = opens(TABLET)
    hands.open_empty()
    hands.page.tap("#start-system")
    with hands.saved():
        hands.page.tap('[data-add-system="heat-pump"]')
    hands.page.tap("#more summary")
    hands.page.check("#glove")
    hands.page.tap("#more summary")
    hands.page.tap("#fit")

    def by_rows(start: str, end: str) -> None:
        with hands.nothing_sent():
            tap_row(hands, start)
            expect(hands.page.locator("#in-hand")).to_be_visible()
        with hands.saved():
            tap_row(hands, end)
        expect(hands.page.locator("#in-hand")).to_be_hidden()

    wire_heat_pump(hands, by_rows)
    is_whole(hands)


def tap_row(hands: Hands, screw: str) -> None:
    """Tap a part on the sheet, then the row of its screw in *Picked*, which is as large as a gloved finger."""
    part, letter = hands.screw(screw).split(".", 1)
    box = hands.page.locator(f'#sheet [data-part="{part}"] > rect').first.bounding_box()
    assert box
    hands.tap((box["x"] + box["width"] / 2, box["y"] + box["height"] / 2))
    row = hands.page.locator(f'#picked-content [data-row="{part}.{letter}"]')
    size = row.bounding_box()
    assert size
    assert size["height"] >= 56
    row.tap()


@pytest.mark.slow
def test_at_390_px_wide(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_empty()
    page = hands.page
    page.locator("#add-open").tap()
    with hands.saved():
        page.locator('[data-add-system="heat-pump"]').tap()
    parts = {re.sub(r"-[a-z0-9]{5}$", "", name): name for name in hands.layout()["parts"]}

    def row(screw: str) -> Locator:
        kind, letter = screw.split(".", 1)
        found = page.locator(f'#words-content [data-row="{parts[kind]}.{letter}"]')
        # A row may just be replaced by what the last answer brought: this waits for it.
        assert found.evaluate("row => row.getBoundingClientRect().height") >= 44
        return found

    def by_rows(start: str, end: str) -> None:
        with hands.nothing_sent():
            row(start).tap()
            expect(page.locator("#in-hand")).to_be_visible()
        with hands.saved():
            row(end).tap()
        assert page.evaluate("document.documentElement.scrollWidth") <= 390

    wire_heat_pump(hands, by_rows)
    assert hands.rules("danger") == []
    assert hands.rules("warning") == []
    page.tap('[data-region="calls"]')
    try_each_call(hands)
    page.tap('[data-region="sheet"]')
    page.locator('[data-view-choice="connection"]').tap()
    expect(page.locator("#sheet [data-conductor]")).to_have_count(len(HEAT_PUMP_WIRES))


@pytest.mark.slow
def test_by_keyboard_alone(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_empty()
    for kind in HEAT_PUMP_KINDS:
        if not hands.page.locator(f'[data-add-kind="{kind}"]').is_visible():
            hands.page.locator("#add-toggle").focus()
            hands.press("Enter")
        hands.page.locator(f'[data-add-kind="{kind}"]').focus()
        with hands.saved():
            hands.press("Enter")
    tab_to_sheet(hands)
    labels = {part: one["label"] for part, one in hands.layout()["parts"].items()}

    def by_keys(start: str, end: str) -> None:
        go_to(hands, start, labels)
        hands.press("Enter")
        go_to(hands, end, labels)
        with hands.saved():
            hands.press("Enter")
        assert hands.focused() == f"terminal:{hands.screw(end)}", "focus stays where the hand is"

    wire_heat_pump(hands, by_keys)
    is_whole(hands)


def tab_to_sheet(hands: Hands) -> None:
    """Come to the sheet with Tab alone; it is one stop."""
    hands.page.locator("#go-to-open").focus()
    for _ in range(4):
        hands.press("Tab")
        if hands.focused().startswith("part:"):
            return
    raise AssertionError("Tab comes to the sheet")


def go_to(hands: Hands, screw: str, labels: dict[str, str]) -> None:
    """Go to a part by slash and its name, then to the screw by its letter."""
    part, letter = hands.screw(screw).split(".", 1)
    hands.press("/")
    hands.page.keyboard.type(labels[part])
    hands.press("Enter")
    assert hands.focused() == f"part:{part}"
    for key in letter:
        if key.isalnum():
            hands.press(key)
    if hands.focused() != f"terminal:{part}.{letter}":
        hands.press(letter[-1])
    assert hands.focused() == f"terminal:{part}.{letter}"
