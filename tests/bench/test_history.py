"""Every step by its name and back to any of them; title, notes and units of the job; the screen that stays awake."""

from __future__ import annotations

import json
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import expect

from tests.bench.conftest import LAPTOP, PHONE, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.soundness import is_sound_in_both_themes, no_sideways_scroll


def edited(opens: Open) -> tuple[Hands, list[object]]:
    """Pull three conductors and undo the last; return the document after each step, the beginning first."""
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    seen = [hands.document()]
    for screw in ("G", "Y", "W"):
        hands.pull("fb.C", f"tc.{screw}")
        seen.append(hands.document())
    hands.undo()
    seen.append(hands.document())
    return hands, seen


def open_history(hands: Hands) -> None:
    hands.page.click("#more summary")
    hands.page.click("#history-open")
    expect(hands.page.locator("#history-rows li").first).to_be_visible()


def test_every_step_is_named_the_newest_first(opens: Open) -> None:
    hands, _ = edited(opens)
    open_history(hands)
    steps = hands.page.locator("#history-rows .history-step")
    expect(steps).to_have_count(5)
    assert steps.nth(0).inner_text().startswith("undo: pull")
    assert "to W, thermostat" in steps.nth(1).inner_text()
    assert steps.nth(4).inner_text() == "as it was begun"
    assert hands.page.locator("#history-rows li").nth(0).locator("button").count() == 0, "that is now"
    is_sound_in_both_themes(hands, "history")


def test_back_to_any_point_is_one_step_and_can_be_undone(opens: Open) -> None:
    hands, seen = edited(opens)
    open_history(hands)
    for revision, document in ((2, seen[1]), (1, seen[0])):
        with hands.saved():
            hands.page.click(f'#history-rows [data-revision="{revision}"] button')
        assert hands.document() == document
        expect(hands.page.locator("#history-said")).to_contain_text("Undo takes you forth again.")
    expect(hands.page.locator("#history-rows .history-step").first).to_have_text("go back to: as it was begun")
    hands.page.click("#history-close")
    hands.undo()
    hands.undo()
    assert hands.document() == seen[-1]


def change_often(hands: Hands, gestures: list[str]) -> None:
    """Change the job as this browser would have, one change for each gesture that is named, without its hands."""
    job = hands.page.locator("#bench").get_attribute("data-job")
    editor = hands.page.evaluate("JSON.parse(localStorage['rungwright:editor'])")
    for revision, gesture in enumerate(gestures, start=1):
        patch = [{"op": "add", "path": "/layouts/as-left/parts/xf/note", "value": f"note {revision}"}]
        headers = {
            "Content-Type": "application/json-patch+json",
            "If-Match": f'"{revision}"',
            "Rungwright-Editor": editor,
            "Rungwright-Gesture": gesture,
            "Rungwright-Step": gesture,
        }
        request = Request(f"{hands.server}/api/jobs/{job}", json.dumps(patch).encode(), headers, method="PATCH")
        urlopen(request).close()


@pytest.mark.slow
def test_a_long_history_comes_a_page_at_a_time_and_undo_reaches_its_beginning(opens: Open) -> None:
    """The second gesture is longer than what is fetched at a time, and has to be undone whole all the same."""
    hands = opens(LAPTOP)
    hands.open_parts({"xf": HEATING["xf"]})
    begun = hands.document()
    change_often(hands, ["first"] * 2 + ["second"] * 101 + ["third"])
    asked: list[str] = []
    hands.page.on("request", lambda request: asked.append(request.url) if "/history?" in request.url else None)
    hands.page.reload()
    hands.wait_ready()
    assert len(asked) == 1
    assert "most=100" in asked[0]
    open_history(hands)
    steps = hands.page.locator("#history-rows .history-step")
    expect(steps).to_have_text(["third", "second"])
    hands.page.click("#history-more")
    hands.page.click("#history-more")
    expect(steps).to_have_text(["third", "second", "first", "as it was begun"])
    expect(hands.page.locator("#history-more")).to_be_hidden()
    hands.page.click("#history-close")
    undo = hands.page.locator("[data-action=undo]")
    for step, left in (("third", "note 103"), ("second", "note 2"), ("first", None)):
        expect(undo).to_contain_text(step)
        expect(undo).to_have_attribute("aria-disabled", "false")
        hands.undo()
        assert hands.layout()["parts"]["xf"].get("note") == left
    expect(undo).to_have_attribute("aria-disabled", "true")
    assert hands.document() == begun


def test_title_notes_and_units_are_one_step(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    before = hands.document()
    hands.page.click("#more summary")
    hands.page.click("#about-open")
    expect(hands.page.locator("#about-title")).to_have_value("Trial")
    is_sound_in_both_themes(hands, "title, notes and units")
    hands.page.fill("#about-title", "Mill house")
    hands.page.fill("#about-notes", "Key is under the stone.\nSecond line.")
    hands.page.select_option("#about-units", "si")
    with hands.saved():
        hands.page.click("#about-keep")
    job = hands.document()
    assert job["title"] == "Mill house"
    assert job["notes"] == "Key is under the stone.\nSecond line."
    assert job["settings"] == {"units": "si"}
    expect(hands.page.locator("#job-title")).to_have_text("Mill house")
    expect(hands.page.locator("#about")).to_be_hidden()
    hands.undo()
    assert hands.document() == before


def test_both_fit_a_phone(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_parts(HEATING, *HEATING_WIRES)
    open_history(hands)
    no_sideways_scroll(hands, "history")
    hands.page.click("#history-close")
    hands.page.click("#more summary")
    hands.page.click("#about-open")
    expect(hands.page.locator("#about")).to_be_visible()
    no_sideways_scroll(hands, "about")


LOCKS = """() => {
  window.locks = [];
  const usual = WakeLock.prototype.request;
  WakeLock.prototype.request = async function (sort) {
    const lock = await usual.call(this, sort);
    window.locks.push(lock);
    return lock;
  };
}"""


def test_the_screen_stays_awake_once_something_is_touched(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.page.add_init_script(f"({LOCKS})()")
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.wait_for_timeout(100)
    assert hands.page.evaluate("locks.length") == 0, "looking alone keeps nothing awake"
    hands.press("Tab")
    hands.page.wait_for_function("() => locks.length === 1 && !locks[0].released")
    hands.press("Tab", "Tab")
    assert hands.page.evaluate("locks.length") == 1, "one is enough"
    hands.page.evaluate("locks[0].release()")
    hands.press("Tab")
    hands.page.wait_for_function("() => locks.length === 2 && !locks[1].released")
