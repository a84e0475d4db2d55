"""The legend under the sheet lists exactly the marks that are there now: no more, no less."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES


def listed(hands: Hands) -> set[str]:
    """Return what the legend says, once the sheet is drawn."""
    hands.page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    return {words.strip() for words in hands.page.locator("#legend li > span").all_text_contents()}


def drawn(hands: Hands) -> set[str]:
    """Return the marks that the drawing itself lists."""
    found = hands.page.locator("#sheet .legend [data-mark] > text:last-of-type").all_text_contents()
    return {words.strip() for words in found}


def test_it_says_what_the_drawing_shows(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    expect(hands.page.locator("#legend")).to_be_hidden()
    hands.page.click("#legend-open")
    expect(hands.page.locator("#legend-open")).to_have_attribute("aria-expanded", "true")
    assert drawn(hands) < listed(hands), "the marks of findings are there too"
    assert "end that is landed nowhere" not in listed(hands)
    with hands.saved():
        hands.page.locator('[data-key="terminal:tc.W"]').focus()
        hands.press("Delete")
    assert "end that is landed nowhere" in listed(hands)
    hands.undo()
    assert "end that is landed nowhere" not in listed(hands)


def test_marks_of_the_hand_come_and_go(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#legend-open")
    before = listed(hands)
    hands.page.locator('[data-key="terminal:fb.W"]').focus()
    hands.press(",")
    assert hands.focused() == "conductor:w4"
    assert listed(hands) - before == {"the keyboard is here"}
    hands.press("Space")
    assert listed(hands) - before == {"the keyboard is here", "picked conductor", "grab here to move this end"}
    hands.page.locator('[data-key="terminal:fb.R"]').focus()
    hands.press("Space", "Enter")
    expect(hands.page.locator(".mark-advice.danger").first).to_be_attached()
    assert {"picked", "landing here would be a danger"} <= listed(hands)
    assert "picked conductor" not in listed(hands)
    hands.press("Escape")
    expect(hands.page.locator(".mark-advice")).to_have_count(0)
    assert "landing here would be a danger" not in listed(hands)


def test_findings_have_their_marks_in_it(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#legend-open")
    assert "danger, with its number in Findings" not in listed(hands)
    hands.pull("fb.R", "fb.C")
    assert "danger, with its number in Findings" in listed(hands)


def test_every_mark_on_the_sheet_has_its_line(opens: Open) -> None:
    """What is drawn by the page itself carries a class of its own; none of them is left out of the legend."""
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("counting-house-joined-supplies"))
    hands.page.click("#legend-open")
    hands.page.locator("#sheet [data-terminal]").first.focus()
    hands.press("Space", "Enter")
    expect(hands.page.locator(".mark-advice").first).to_be_attached()
    listed(hands)
    unlisted = hands.page.evaluate(
        "() => { const lines = [...document.querySelectorAll('#legend .sample.hand *')].flatMap(n => [...n.classList]);"
        " const on = [...document.querySelectorAll('#sheet .hand [class*=mark-]')].flatMap(n => [...n.classList]);"
        " return [...new Set(on)].filter(name => name.startsWith('mark-') && !lines.includes(name)); }"
    )
    assert unlisted == []


def test_it_stays_open_over_a_reload(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#legend-open")
    hands.page.reload()
    hands.wait_ready()
    expect(hands.page.locator("#legend")).to_be_visible()
    hands.page.click("#legend-open")
    hands.page.reload()
    hands.wait_ready()
    expect(hands.page.locator("#legend")).to_be_hidden()
