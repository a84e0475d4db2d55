"""Two browsers edit one job at random: both end alike, nothing acknowledged is lost, each refusal is said."""

from __future__ import annotations

import json
import re
from pathlib import Path
from urllib.request import urlopen

import pytest
from playwright.sync_api import Response, expect

from app.job.patch import apply_patch
from tests.bench.conftest import Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.serving import Serving, history_of

EDITING = (Path(__file__).parent / "editing.js").read_text(encoding="utf-8")
MOST_CONDUCTORS = 14


class Answers:
    """What the server answered to the edits of one page, by their keys."""

    def __init__(self, hands: Hands) -> None:
        self.saved: dict[str, tuple[int, str]] = {}
        self.refused: set[str] = set()
        self.stale = 0
        hands.page.on("response", self._note)

    def _note(self, reply: Response) -> None:
        if reply.request.method != "PATCH":
            return
        key = reply.request.headers["idempotency-key"]
        if reply.status == 412:
            self.stale += 1
        elif reply.status == 200:
            assert key not in self.saved, "each edit is acknowledged once"
            self.saved[key] = (int(reply.headers["etag"].strip('"')), reply.request.post_data or "")
            self.refused.discard(key)
        else:
            self.refused.add(key)


def lost(sentence: str) -> int:
    """Return how many refused edits a sentence of the state line tells of."""
    counted = re.match(r"(\d+) of your", sentence)
    return int(counted.group(1)) if counted else 1


def drawn(hands: Hands) -> list[list[str]]:
    """Return where every part and conductor stands on a page."""
    found: list[list[str]] = hands.page.evaluate(
        "() => [...document.querySelectorAll('#sheet [data-box], #sheet [data-path]')]"
        ".map(({dataset: d}) => [d.part ?? d.conductor, d.box ?? d.path]).sort()"
    )
    return found


def edit_together(visits: Visit, serving: Serving, patches: int) -> str:
    """Let two browsers edit at random until each has sent half of the patches; return the figures."""
    ada, ben = visits(), visits()
    for hands in (ada, ben):
        hands.page.add_init_script(EDITING)
    job = ada.open_parts(HEATING, *HEATING_WIRES)
    ben.open_job(job)
    answers = [Answers(ada), Answers(ben)]
    start = ada.document()
    for seed, hands in enumerate((ada, ben), start=20261130):
        orders = {"edits": patches // 2, "seed": seed, "most": MOST_CONDUCTORS}
        hands.page.evaluate("orders => editAtRandom(orders)", orders)
    for hands in (ada, ben):
        hands.page.wait_for_function("() => window.person.done", timeout=patches * 3_000)
        expect(hands.page.locator("#bench")).to_have_attribute("data-state", "saved")

    log = history_of(ada)
    by_revision = {change["revision"]: change["patch"] for change in log}
    acknowledged = [saved for one in answers for saved in one.saved.values()]
    assert len(acknowledged) == len(log), "what was acknowledged is all there is"
    for revision, body in acknowledged:
        assert by_revision[revision] == json.loads(body), "no acknowledged edit is lost"
    document = start
    for change in log:
        document = apply_patch(document, change["patch"]).document
    assert ada.document() == document

    for hands in (ada, ben):
        hands.page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        expect(hands.page.locator("#bench")).to_have_attribute("data-revision", str(len(log) + 1))
        hands.page.wait_for_timeout(300)
    assert drawn(ada) == drawn(ben), "both pages show the same"
    with urlopen(f"{serving.address}/api/jobs/{job}/drawing.svg?layout=as-left") as reply:
        svg = reply.read().decode()
    boxes = re.findall(r'data-box="([^"]*)"[^>]*data-part="([^"]*)"', svg)
    paths = re.findall(r'data-conductor="([^"]*)"[^>]*data-path="([^"]*)"', svg)
    assert drawn(ada) == sorted([[part, box] for box, part in boxes] + [list(path) for path in paths])

    said = [sum(map(lost, hands.page.evaluate("person.said"))) for hands in (ada, ben)]
    assert said == [len(one.refused) for one in answers], "each refused edit is said"
    sent = sum(hands.page.evaluate("patchesSent.size") for hands in (ada, ben))
    assert sent >= patches
    stale, refused = sum(one.stale for one in answers), sum(said)
    return f"{sent} edits by two browsers: {len(log)} saved, {refused} refused and said, {stale} put on top of others"


def test_two_browsers_editing_at_random(visits: Visit, serving: Serving) -> None:
    edit_together(visits, serving, 30)


@pytest.mark.slow
def test_two_browsers_editing_at_random_for_2000_patches(visits: Visit, serving: Serving) -> None:
    print(edit_together(visits, serving, 2000))
