"""Two pages of one browser on one job: each edit is sent once, in order, also those of a page that is gone."""

from __future__ import annotations

import re
from collections import Counter
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Error, Request, expect

from tests.bench.conftest import Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.serving import Serving, away, history_of, start_pull


class Sent:
    """Which edits have been answered with yes, by their keys, whichever page sent them."""

    def __init__(self, context: BrowserContext) -> None:
        self.saved: Counter[str] = Counter()
        context.on("requestfinished", self._note)

    def _note(self, request: Request) -> None:
        reply = request.response() if request.method == "PATCH" else None
        if reply is not None and reply.status == 200:
            self.saved[request.headers["idempotency-key"]] += 1


def two_pages(visits: Visit) -> tuple[Hands, Hands, Sent]:
    first = visits()
    job = first.open_parts(HEATING, *HEATING_WIRES)
    second = visits(first.page.context)
    second.open_job(job)
    return first, second, Sent(first.page.context)


def names(log: list[dict[str, Any]]) -> list[str]:
    """Return which screw each edit of a log pulls from."""
    return [re.findall(r"from (\w+),", change["step"])[0] for change in log]


@pytest.mark.slow
def test_pages_that_edit_at_the_same_time_lose_nothing_and_send_nothing_twice(visits: Visit) -> None:
    first, second, sent = two_pages(visits)
    for mine, theirs in (("G", "Y"), ("C", "HUM")):
        start_pull(first, f"fb.{mine}", "tc.G")
        start_pull(second, f"fb.{theirs}", "tc.Y")
    for page in (first, second):
        expect(page.page.locator("#bench")).to_have_attribute("data-revision", "5")
        expect(page.page.locator("#bench")).to_have_attribute("data-state", "saved")
        expect(page.page.locator("#sheet [data-conductor]")).to_have_count(8)
    log = history_of(first)
    assert sorted(names(log)) == ["C", "G", "HUM", "Y"]
    assert names(log).index("G") < names(log).index("C"), "in order"
    assert names(log).index("Y") < names(log).index("HUM"), "in order"
    assert set(sent.saved.values()) == {1}


def test_what_one_page_has_saved_is_shown_on_the_other_and_undone_there(visits: Visit) -> None:
    first, second, _ = two_pages(visits)
    first.pull("fb.G", "tc.G")
    expect(second.page.locator("#bench")).to_have_attribute("data-revision", "2")
    expect(second.page.locator("[data-action=undo]")).to_contain_text("G, furnace board to G")
    second.undo()
    expect(first.page.locator("#bench")).to_have_attribute("data-revision", "3")
    assert len(first.layout()["conductors"]) == 4


def test_the_edits_of_a_page_that_is_closed_go_out_from_the_other(visits: Visit, serving: Serving) -> None:
    first, second, sent = two_pages(visits)
    serving.stop()
    start_pull(first, "fb.G", "tc.G")
    away(first, "1 edit")
    start_pull(second, "fb.Y", "tc.Y")
    away(second, "1 edit")
    start_pull(first, "fb.C", "tc.W")
    away(first, "2 edits")
    first.page.close()
    away(second, "3 edits")
    serving.start()
    expect(second.state()).to_have_text("Back. 3 edits saved and checked.")
    assert names(history_of(second)) == ["G", "Y", "C"], "in the order in which they were made"
    assert sorted(sent.saved.values()) == [1, 1, 1]


@pytest.mark.slow
def test_the_edits_of_pages_that_crashed_go_out_with_the_next_one(visits: Visit, serving: Serving) -> None:
    """Pages of one address may share a process, so that all of them crash; none of them says goodbye."""
    first, second, sent = two_pages(visits)
    address, context = first.page.url, first.page.context
    serving.stop()
    start_pull(first, "fb.G", "tc.G")
    away(first, "1 edit")
    for hands in (first, second):
        with suppress(Error):
            hands.page.goto("chrome://crash", timeout=3000)
    serving.start()
    later = visits(context)
    later.page.goto(address)
    later.wait_ready()
    expect(later.page.locator("#bench")).to_have_attribute("data-revision", "2")
    assert names(history_of(later)) == ["G"]
    assert sorted(sent.saved.values()) == [1]


@pytest.mark.slow
def test_a_page_that_lives_keeps_its_edits_to_itself(visits: Visit, serving: Serving) -> None:
    """The other page calls, is answered, and leaves them alone."""
    first, second, sent = two_pages(visits)
    serving.stop()
    start_pull(first, "fb.G", "tc.G")
    away(first, "1 edit")
    second.page.wait_for_timeout(11_000)
    expect(second.state()).to_have_text("Saved and checked.")
    serving.start()
    expect(first.state()).to_have_text("Back. 1 edit saved and checked.")
    assert sorted(sent.saved.values()) == [1]
    assert names(history_of(first)) == ["G"]


@pytest.mark.slow
def test_all_pages_closed_the_edits_go_out_with_the_next_one(visits: Visit, serving: Serving) -> None:
    first, second, sent = two_pages(visits)
    address, context = first.page.url, first.page.context
    serving.stop()
    for hands, screw in ((first, "G"), (second, "Y")):
        start_pull(hands, f"fb.{screw}", f"tc.{screw}")
        away(hands, "1 edit")
    keeper = context.new_page()
    first.page.close()
    second.page.close()
    serving.start()
    later = visits(context)
    later.page.goto(address)
    later.wait_ready()
    expect(later.page.locator("#bench")).to_have_attribute("data-revision", "3")
    assert names(history_of(later)) == ["G", "Y"]
    assert sorted(sent.saved.values()) == [1, 1]
    keeper.close()


def test_at_an_address_that_is_not_secure_all_of_it_holds_too(visits: Visit, tmp_path: Path) -> None:
    """On plain HTTP browsers give no locks, no worker and no wake lock; the key is given once, by the scanned code."""
    serving = Serving(tmp_path / "reached", host="0.0.0.0")
    try:
        first = visits(base_url=serving.address)
        first.server = serving.address
        first.page.goto("/")
        expect(first.page.locator("h1")).to_have_text("The key of this server")
        first.page.fill("#key-field", "WRONG-WRONG")
        first.page.click("#key-form button")
        expect(first.page.locator("#key-said")).to_have_text(
            "This is not the key. It stands where the server was started."
        )
        first.page.goto(f"/key#{serving.key}")
        expect(first.page.locator("h1")).to_have_text("Jobs")
        first.page.select_option("#new-parts", label="Heat only")
        first.page.click("[data-action=start-empty]")
        first.wait_ready()
        assert first.page.evaluate("[isSecureContext, 'locks' in navigator, 'wakeLock' in navigator]") == [False] * 3
        second = visits(first.page.context)
        second.page.goto(first.page.url)
        second.wait_ready()
        serving.stop()
        first.page.locator("#sheet [data-part]").first.focus()
        first.press("Shift+ArrowDown")
        away(first, "1 edit")
        first.page.close()
        away(second, "1 edit")
        serving.start()
        expect(second.state()).to_have_text("Back. 1 edit saved and checked.")
    finally:
        serving.stop()
