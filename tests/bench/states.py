"""A walk through the states of the bench, each as a person comes to it; a test stops at every one and looks."""

from __future__ import annotations

from collections.abc import Iterator

from playwright.sync_api import expect

from tests.bench.hands import Hands
from tests.bench.layouts import COOLING, COOLING_WIRES

DEMO = "counting-house-joined-supplies"
"""It has dangers, warnings and several controls."""


def walk_beginning(hands: Hands) -> Iterator[str]:
    """From nothing on the sheet to a layout that is wired by half."""
    hands.open_empty()
    yield "empty"
    opener = hands.page.locator("#add-open:visible, #start-add:visible").first
    opener.click()
    yield "adding a part"
    if hands.page.locator("#add-close").is_visible():
        hands.page.click("#add-close")
    _wire_half(hands)
    yield "wired by half"


def walk_sheet(hands: Hands) -> Iterator[str]:
    """What stands on the sheet and around it while one works, where the whole bench is on the screen."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    yield "as opened"
    page.locator("[data-call]:not([aria-pressed=true])").first.click()
    hands.wait_ready()
    yield "live"
    _show_first_finding(hands)
    yield "a finding shown"
    page.locator('[data-key="part:tc"]').focus()
    hands.press("Space")
    expect(page.locator("#picked-heading")).to_contain_text("Thermostat")
    yield "a part picked"
    hands.press("Enter")
    hands.press("Enter")
    expect(page.locator("#in-hand")).to_be_visible()
    yield "in hand"
    hands.press("Escape")
    page.locator('#sheet [data-key^="conductor:"]').first.focus()
    hands.press("Space")
    yield "a conductor picked"
    page.click("#more summary")
    yield "More open"
    hands.press("Escape")


def walk_live(hands: Hands) -> Iterator[str]:
    """What happens now: a path that is followed, the meter, the time line, a finding that is set aside."""
    page = hands.page
    hands.open_parts(COOLING, *(wire for wire in COOLING_WIRES if wire != ("fb.Y", "tc.Y")), ("fb.Y", None))
    page.click('[data-call="tc=cool-1"]')
    page.click('[data-why="ou:compressor"]')
    expect(page.locator(".mark-stop")).to_be_attached()
    page.click("#why-panel summary")
    yield "a path followed"
    hands.press("Escape")
    page.click("#meter-toggle")
    for screw in ("xf.R", "xf.C"):
        page.locator(f'[data-key="terminal:{screw}"]').focus()
        hands.press("Shift+Enter")
    expect(page.locator("#meter-words")).to_contain_text("should read.")
    page.fill("#meter-read", "25.8")
    hands.press("Enter")
    page.click("#meter-panel summary")
    yield "the meter"
    page.click("#meter-toggle")
    page.click("#time-toggle")
    expect(page.locator("#time-last")).to_contain_text("calls cool 1.")
    page.click("#time-on")
    page.click("#time-panel summary")
    yield "the time line"
    page.click("#time-toggle")
    row = page.locator('[data-rule="conductor-end-unlanded"]')
    row.get_by_role("button", name="Set aside").click()
    yield "a reason asked for"
    page.keyboard.type("for the fan")
    hands.press("Enter")
    expect(row).to_contain_text("Set aside: for the fan")
    page.locator('[data-key^="conductor:"]').last.focus()
    hands.press("Space")
    yield "a finding set aside"


def walk_phone(hands: Hands) -> Iterator[str]:
    """The regions of a phone, one at a time."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    yield "as opened"
    page.locator('[data-view-choice="words"]').click()
    page.locator("#words-content .row.screw").first.click()
    yield "in words, in hand"
    for region in ("calls", "picked", "findings"):
        page.click(f'[data-region="{region}"]')
        yield region
    _show_first_finding(hands)
    yield "a finding shown"


def walk_around(hands: Hands) -> Iterator[str]:
    """Dialogs, and the views that are only looked at."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    page.click("#take-open")
    yield "take away"
    page.click("#take-close")
    if page.locator("#go-to-open").is_visible():
        page.click("#go-to-open")
        page.locator("#go-to-field").fill("t")
        yield "go to"
        hands.press("Escape")
    for view in ("ladder", "timing", "wires", "terminals", "words"):
        page.click(f'[data-view-choice="{view}"]')
        expect(page.locator("#bench")).to_have_attribute("data-view", view)
        page.wait_for_function("document.querySelector('#state-words').textContent !== 'Loading...'")
        yield view


def walk_hands(hands: Hands) -> Iterator[str]:
    """Cables, the menu of what can be done, swapping, what a conductor is for, the legend."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    page.locator('[data-view-choice="words"]').click()
    page.locator("#words-content [data-action=add-cable]").click()
    page.locator("#cable-codes").fill("RD 5")
    page.locator("#cable-add").click()
    expect(page.locator("#cable-wrong li")).to_have_count(1)
    yield "adding a cable, a code is none"
    page.locator("#cable-cancel").click()
    page.locator("#words-content .row.cable-row").first.click()
    page.locator("[data-strip='0']").fill("Q7=RD")
    hands.expects_refusal = True
    page.locator("[data-action=land-strip]").first.click()
    expect(page.locator("#wrong-0 li")).to_have_count(1)
    yield "a cable picked, its strip refused"
    page.click("#acts-open")
    yield "what can be done with a cable"
    hands.press("Escape")
    _to_region(hands, "sheet")
    page.locator("#words-content .landed .small").first.click()
    expect(page.locator("#words-content [data-swap]").first).to_be_visible()
    yield "an end in hand, to land or to swap"
    page.click("#put-back")
    page.locator("#words-content .landed .link").first.click()
    _to_region(hands, "picked")
    expect(page.locator("[data-what-for=known]")).to_be_visible()
    yield "what a conductor is for"
    _to_region(hands, "sheet")
    page.locator('[data-view-choice="connection"]').click()
    page.click("#legend-open")
    yield "the legend open"


def walk_following(hands: Hands) -> Iterator[str]:
    """The path, the meter and the time line where one region is seen at a time."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    _turn_to(hands, "calls")
    page.locator('[data-call$="cool-1"]').first.click()
    page.locator("#effects [data-why]").first.click()
    yield "a path followed"
    page.click("#why-leave")
    _turn_to(hands, "calls")
    page.click("#meter-toggle")
    yield "meter"
    _turn_to(hands, "calls")
    page.click("#meter-toggle")
    page.click("#time-toggle")
    yield "over time"


def walk_dialogs(hands: Hands) -> Iterator[str]:
    """What is opened and closed again: history, what a job is called, a cable, what can be done, setting aside."""
    page = hands.page
    hands.open_job(hands.copy_demo(DEMO))
    for name in ("history", "about"):
        page.click("#more summary")
        page.click(f"#{name}-open")
        yield name
        page.click(f"#{name}-close")
    hands.press("Escape")
    page.locator("#add-toggle:visible, #add-open:visible").first.click()
    page.locator("#add-cables").get_by_role("button", name="Add a cable").first.click()
    yield "a cable"
    page.click("#cable-cancel")


def _turn_to(hands: Hands, region: str) -> None:
    """Come to a region where a small screen shows one at a time."""
    button = hands.page.locator(f'.bar [data-region="{region}"]')
    if button.is_visible():
        button.click()


def walk_crowded(hands: Hands) -> Iterator[str]:
    """Two screws that a finger cannot tell apart."""
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    (x, first), (_, second) = hands.at_screw("tc.Y1"), hands.at_screw("tc.Y2")
    hands.tap((x, (first + second) / 2))
    expect(hands.page.locator("dialog.which-one")).to_be_visible()
    yield "which one"


def _to_region(hands: Hands, region: str) -> None:
    """On a phone one region is shown at a time."""
    button = hands.page.locator(f'[data-region="{region}"]:visible')
    if button.count() > 0:
        button.first.click()


def _wire_half(hands: Hands) -> None:
    hands.page.click("#start-system")
    with hands.saved():
        hands.page.click('[data-add-system="heat-and-cooling"]')
    for start, end in (("control-transformer.R", "furnace-board.XF"), ("furnace-board.R", "thermostat-heat-cool.R")):
        for screw in (start, end):
            hands.page.locator(f'[data-key="terminal:{hands.screw(screw)}"]').focus()
            hands.press("Enter")
        expect(hands.page.locator("#in-hand")).to_be_hidden()


def _show_first_finding(hands: Hands) -> None:
    hands.page.locator(".finding").first.get_by_role("button", name="Show me").click()
    expect(hands.page.locator(".finding[aria-current=true]")).to_have_count(1)
