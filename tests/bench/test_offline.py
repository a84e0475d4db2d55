"""The server is away: edits are kept on the device, marked as not checked, and sent when it is back.

Everything is real: the server is a process that is stopped, killed and started again.
"""

from __future__ import annotations

import json
import re

import pytest
from playwright.sync_api import Dialog, Page, expect

from tests.bench.conftest import Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.serving import AWAY, Serving, away, history_of, start_pull

NOT_KNOWN = "What runs is not known until your edits are checked."


def opened(hands: Hands) -> Hands:
    hands.open_parts(HEATING, *HEATING_WIRES)
    expect(hands.state()).to_have_text("Saved and checked.")
    return hands


def pick(hands: Hands, key: str) -> None:
    hands.page.locator(f'#sheet [data-key="{key}"]').focus()
    hands.press("Space")


def live_marks(page: Page) -> int:
    """Count arrows, volts and heavy lines that can be seen."""
    heavy: int = page.eval_on_selector_all(
        "#sheet .drawing .wire",
        "lines => lines.filter(line => parseFloat(getComputedStyle(line).strokeWidth) > 2).length",
    )
    return heavy + page.locator("#sheet .head:visible, #sheet .volts:visible, #effects:visible").count()


def kept_words(page: Page) -> list[str]:
    """Return what the sheet says beside edits that wait."""
    return page.locator('[data-hand="pending"] .mark-words').all_text_contents()


def test_three_edits_without_a_server_are_kept_over_a_reload_and_saved_when_it_is_back(
    visits: Visit, serving: Serving
) -> None:
    hands = opened(visits())
    page = hands.page
    page.click('[data-call$="=heat-1"]')
    expect(page.locator("#effects")).to_contain_text("furnace heat")
    assert live_marks(page) > 0
    serving.stop()

    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    expect(page.locator("#not-known span")).to_have_text(NOT_KNOWN)
    start_pull(hands, "fb.Y", "tc.Y")
    pick(hands, "conductor:w3")
    hands.press("Delete")
    away(hands, "3 edits")
    assert live_marks(page) == 0
    expect(page.locator("#bench")).to_have_attribute("data-state", "offline")
    assert kept_words(page) == ["not checked yet", "not checked yet", "removed, not checked yet"]

    page.click("#show-checked")
    assert live_marks(page) > 0
    assert kept_words(page) == []
    page.click("#show-checked")
    assert live_marks(page) == 0

    serving.start()
    page.reload()
    hands.wait_ready()
    expect(hands.state()).to_have_text("Saved and checked.")
    expect(page.locator("#bench")).to_have_attribute("data-revision", "4")
    ends = [sorted(one["ends"]) for one in hands.layout()["conductors"].values()]
    assert ["fb.G", "tc.G"] in ends
    assert ["fb.Y", "tc.Y"] in ends
    assert "w3" not in hands.layout()["conductors"]


@pytest.mark.slow
def test_when_the_server_is_back_the_edits_go_out_by_themselves(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    serving.stop()
    for screw in ("G", "Y"):
        start_pull(hands, f"fb.{screw}", f"tc.{screw}")
    away(hands, "2 edits")

    serving.start()

    expect(hands.state()).to_have_text("Back. 2 edits saved and checked.")
    expect(hands.page.locator("#bench")).to_have_attribute("data-state", "saved")
    expect(hands.page.locator('[data-hand="pending"] *')).to_have_count(0)
    expect(hands.page.locator("#not-known")).to_be_hidden()
    assert len(hands.layout()["conductors"]) == 6


def test_each_edit_starts_from_what_the_ones_before_it_have_made(visits: Visit, serving: Serving) -> None:
    """A part on which something was landed meanwhile is removed whole, although the server has seen none of it."""
    hands = opened(visits())
    page = hands.page
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    pick(hands, "part:xf")
    hands.press("Shift+ArrowDown")
    away(hands, "2 edits")
    hands.press("Shift+ArrowDown")
    away(hands, "3 edits")
    pick(hands, "terminal:tc.W")
    expect(page.locator("#picked-content")).to_contain_text("w4")
    hands.press("Delete")
    away(hands, "4 edits")
    pick(hands, "part:tc")
    hands.press("Delete")
    away(hands, "5 edits")
    assert page.locator('#sheet [data-part="tc"]').evaluate("node => getComputedStyle(node).opacity") == "0"

    serving.start()

    expect(hands.state()).to_have_text("Back. 5 edits saved and checked.")
    layout = hands.layout()
    assert set(layout["parts"]) == {"xf", "fb"}
    assert layout["parts"]["xf"]["at"] == [0, 144]
    landed = [end for one in layout["conductors"].values() for end in one["ends"] if end]
    assert not [end for end in landed if end.startswith("tc.")]


@pytest.mark.slow
def test_an_end_that_was_taken_off_hangs_beside_its_screw(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    serving.stop()
    pick(hands, "terminal:tc.W")
    hands.press("Delete")
    away(hands, "1 edit")
    expect(hands.page.locator('[data-hand="pending"] .mark-open-end')).to_have_count(1)
    assert kept_words(hands.page) == ["not checked yet"]
    x, y = hands.at_screw("tc.W")
    hung = hands.page.locator('[data-hand="pending"] .mark-open-end').bounding_box()
    assert hung
    assert 0 < abs(hung["x"] - x) + abs(hung["y"] - y) < 120
    serving.start()
    expect(hands.state()).to_have_text("Back. 1 edit saved and checked.")
    assert hands.layout()["conductors"]["w4"]["ends"] == ["fb.W", None]


def test_undo_takes_back_edits_that_wait(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    undo = hands.page.locator("[data-action=undo]")
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    start_pull(hands, "fb.Y", "tc.Y")
    away(hands, "2 edits")
    undo.click()
    away(hands, "1 edit")
    expect(undo).to_contain_text("G, furnace board to G")
    # The first one may have reached the server, so it is sent with its key and undone.
    undo.click()
    expect(hands.state()).to_have_text(re.compile(AWAY.format("No edit")))
    serving.start()
    expect(hands.page.locator("#bench")).to_have_attribute("data-revision", "3")
    expect(hands.state()).to_have_text("Back. Saved and checked.")
    assert len(hands.layout()["conductors"]) == 4
    expect(hands.page.locator("[data-action=redo]")).to_contain_text("G, furnace board to G")


def test_an_edit_that_no_longer_fits_is_told_and_can_be_kept_as_a_note(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    page = hands.page
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    pick(hands, "terminal:fb.W")
    hands.press("Delete")
    pick(hands, "part:xf")
    hands.press("Shift+ArrowDown")
    away(hands, "3 edits")
    page.context.set_offline(True)
    serving.start()
    remove = ("conductors/w3", "conductors/w4", "parts/tc")
    hands.change_elsewhere(*({"op": "remove", "path": f"/layouts/as-left/{path}"} for path in remove))
    page.context.set_offline(False)

    expect(hands.state()).to_have_text(
        re.compile(
            r"^2 of your 3 edits no longer fit: pull w\d+ from G, furnace board to G, thermostat, because thermostat tc"
            r" was removed; take w4 off W, because w4 was removed\. The other is saved\.$"
        )
    )
    assert hands.layout()["parts"]["xf"]["at"] == [0, 132]
    page.get_by_role("button", name="Show", exact=True).click()
    page.get_by_role("button", name="Keep it as a note").click()
    expect(hands.state()).to_have_text("Saved and checked.")
    notes = hands.document()["notes"].splitlines()
    assert re.fullmatch(r"Not done: pull w\d+ from G, .* because thermostat tc was removed\.", notes[0])
    assert notes[1] == "Not done: take w4 off W, because w4 was removed."


@pytest.mark.slow
def test_a_refusal_of_one_of_three_in_the_exact_sentence(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    serving.stop()
    hands.page.locator('#sheet [data-key="conductor:w4"]').focus()
    pick(hands, "part:xf")
    hands.press("Shift+ArrowDown")
    pick(hands, "terminal:tc.W")
    hands.press("Delete")
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "3 edits")
    hands.page.context.set_offline(True)
    serving.start()
    hands.change_elsewhere({"op": "remove", "path": "/layouts/as-left/conductors/w4"})
    hands.page.context.set_offline(False)
    expect(hands.state()).to_have_text(
        "1 of your 3 edits no longer fits: take w4 off W, because w4 was removed. The others are saved."
    )
    hands.page.get_by_role("button", name="Leave it out").click()
    expect(hands.state()).to_have_text("Saved and checked.")


@pytest.mark.slow
def test_edits_elsewhere_while_one_was_away_are_told_and_listed(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    hands.page.context.set_offline(True)
    serving.start()
    for note in ("one", "two"):
        hands.change_elsewhere({"op": "add", "path": "/layouts/as-left/parts/xf/note", "value": note})
    hands.page.context.set_offline(False)
    expect(hands.state()).to_have_text("This job was also changed elsewhere (2 edits). Yours were put on top.")
    hands.page.get_by_role("button", name="What changed").click()
    expect(hands.page.locator("#history-rows .is-news")).to_have_count(2)
    expect(hands.page.locator("#history-rows li")).to_have_count(4)


@pytest.mark.slow
def test_a_server_that_is_killed_in_the_middle_of_editing_loses_nothing(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    keys: set[str] = set()
    hands.page.on("request", lambda sent: keys.add(sent.headers["idempotency-key"]) if sent.method == "PATCH" else None)
    for _ in range(3):
        pick(hands, "part:xf")
        for _ in range(3):
            hands.press("Shift+ArrowDown")
            # Whether this one was answered, is on its way or is not made yet is left to chance.
            hands.page.wait_for_timeout(30)
        serving.kill()
        hands.press("Shift+ArrowDown")
        expect(hands.state()).to_have_text(re.compile(r"^Server away since"))
        hands.press("Shift+ArrowDown")
        serving.start()
        expect(hands.state()).to_have_text(re.compile(r"^Back\. \d+ edits? saved and checked\.$"))
    log = history_of(hands)
    assert len(keys) >= 6
    assert len(log) == len(keys), "each edit is applied, and once"
    assert hands.layout()["parts"]["xf"]["at"] == [0, 120 + 12 * len(keys)]


@pytest.mark.slow
def test_a_network_that_is_gone_for_a_minute_loses_nothing(visits: Visit) -> None:
    hands = opened(visits())
    hands.page.context.set_offline(True)
    for screw in ("G", "Y"):
        start_pull(hands, f"fb.{screw}", f"tc.{screw}")
    away(hands, "2 edits")
    # A minute, which is longer than the longest pause after which it is tried again.
    hands.page.wait_for_timeout(60_000)
    away(hands, "2 edits")
    assert len(hands.layout()["conductors"]) == 4
    hands.page.context.set_offline(False)
    expect(hands.state()).to_have_text("Back. 2 edits saved and checked.")
    assert len(hands.layout()["conductors"]) == 6
    assert len(history_of(hands)) == 2


FILL = """() => {
  let piece = "x".repeat(1 << 20);
  for (let n = 0; piece.length > 0; n += 1) {
    try { localStorage.setItem(`filler${n}`, piece); } catch { piece = piece.slice(0, piece.length >> 1); }
  }
}"""


def test_a_device_that_is_full_says_so_and_gives_the_job_away(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    page = hands.page
    # The copy of the document is fetched once the page is at rest, which it may be already.
    page.wait_for_function(
        r"() => performance.getEntriesByType('resource').some(({name}) => /\/api\/jobs\/[^/?]+$/.test(name))"
    )
    page.evaluate(FILL)
    with hands.saved():
        start_pull(hands, "fb.G", "tc.G")
    serving.stop()
    start_pull(hands, "fb.Y", "tc.Y")
    full = "This device cannot keep more edits. Download the job now so that nothing is lost."
    expect(hands.state()).to_have_text(full)
    start_pull(hands, "fb.C", "tc.W")
    expect(hands.state()).to_have_text(full)
    with page.expect_download() as download:
        page.get_by_role("button", name="Download").click()
    job = json.loads(download.value.path().read_text(encoding="utf-8"))
    ends = [sorted(one["ends"]) for one in job["layouts"]["as-left"]["conductors"].values()]
    assert ["fb.G", "tc.G"] in ends
    assert ["fb.Y", "tc.Y"] in ends
    assert ["fb.C", "tc.W"] not in ends, "what was refused is not in it"
    serving.start()
    expect(hands.state()).to_have_text("Back. 1 edit saved and checked.")
    opened_again = page.context.request.post(f"{serving.address}/api/jobs", data=job)
    assert opened_again.status == 201, "what was taken away opens again"


@pytest.mark.slow
def test_the_browser_asks_before_it_loses_what_the_device_could_not_keep(visits: Visit, serving: Serving) -> None:
    hands = opened(visits())
    serving.stop()
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    asked: list[str] = []

    def stay(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    hands.page.on("dialog", stay)
    assert prevents_leaving(hands.page) is False, "kept edits are not lost by leaving"
    hands.page.evaluate(FILL)
    start_pull(hands, "fb.Y", "tc.Y")
    expect(hands.state()).to_contain_text("This device cannot keep more edits.")
    assert prevents_leaving(hands.page) is False, "what was refused was said"


def prevents_leaving(page: Page) -> bool:
    prevented: bool = page.evaluate(
        "() => { const event = new Event('beforeunload', {cancelable: true}); dispatchEvent(event);"
        " return event.defaultPrevented; }"
    )
    return prevented


def test_a_job_that_was_opened_before_opens_without_the_server(visits: Visit, serving: Serving) -> None:
    hands = opened(visits(service_workers="allow"))
    page = hands.page
    job = page.url
    look = f"/jobs/{job.rsplit('/', 1)[1]}/shown?layout=as-left"
    kept = "async look => !!(navigator.serviceWorker.controller && await caches.match(location.pathname)"
    kept += " && await caches.match(look))"
    while not page.evaluate(kept, look):
        page.wait_for_timeout(200)
    serving.stop()

    page.reload()
    hands.wait_ready()
    expect(hands.state()).to_have_text("Kept on this device. Not connected.")
    expect(page.locator('#sheet [data-part="fb"]')).to_be_visible()
    start_pull(hands, "fb.G", "tc.G")
    away(hands, "1 edit")
    page.reload()
    hands.wait_ready()
    away(hands, "1 edit")
    assert kept_words(page) == ["not checked yet"]

    page.goto("/jobs/AAAAAAAAAAAAAAAAAAAAAA")
    expect(page.locator("main")).to_contain_text(
        "This job is not on this device and the server cannot be reached. Try again when connected."
    )
    page.goto(job)
    hands.wait_ready()
    serving.start()
    expect(hands.state()).to_have_text("Back. 1 edit saved and checked.")
    assert len(hands.layout()["conductors"]) == 5
