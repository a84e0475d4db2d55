"""The list of jobs: small drawings, search, copy, export, files that are dropped, and the ways to begin."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from playwright.sync_api import Route, expect

from tests.bench.conftest import LAPTOP, PHONE, Open, Visit
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES
from tests.bench.soundness import is_sound_in_both_themes, no_sideways_scroll

CONDUCTORS = {f"w{number}": {"ends": list(ends)} for number, ends in enumerate(HEATING_WIRES, start=1)}
LAYOUTS = {"as-left": {"parts": HEATING, "conductors": CONDUCTORS}}


def job_in_list(hands: Hands, title: str) -> str:
    job = hands.make_job(LAYOUTS, title)
    hands.page.goto("/")
    return job


def test_a_job_shows_its_drawing(opens: Open) -> None:
    hands = opens(LAPTOP)
    job = job_in_list(hands, "Drawn small")
    row = hands.page.locator(f'[data-job-row="{job}"]')
    expect(row.locator("[data-drawing] svg rect").first).to_be_attached()
    assert row.locator("[data-drawing] svg").get_attribute("aria-hidden") == "true"
    assert row.locator("[data-drawing] text").count() == 0, "nobody could read it"


def test_a_small_drawing_is_sent_again_only_when_the_job_has_changed(opens: Open) -> None:
    hands = opens(LAPTOP)
    job = hands.make_job(LAYOUTS, "Drawn once")
    ask = hands.page.context.request
    first = ask.get(f"/jobs/{job}/small.svg")
    assert ask.get(f"/jobs/{job}/small.svg", headers={"If-None-Match": first.headers["etag"]}).status == 304
    patch = [{"op": "remove", "path": "/layouts/as-left/conductors/w4"}]
    ask.patch(
        f"/api/jobs/{job}",
        data=json.dumps(patch),
        headers={"If-Match": '"1"', "Content-Type": "application/json-patch+json"},
    )
    changed = ask.get(f"/jobs/{job}/small.svg", headers={"If-None-Match": first.headers["etag"]})
    assert changed.status == 200
    assert changed.text() != first.text()


def test_a_job_is_found_by_words_of_its_title(visits: Visit) -> None:
    hands = visits()
    hands.page.goto("/")
    before = hands.page.locator("[data-job-row]").count()
    for number in range(11):
        hands.make_job(LAYOUTS, f"House {number} at the mill")
    wanted = hands.make_job(LAYOUTS, "Chapel by the weir")
    hands.page.goto("/")
    hands.page.fill("#job-query", "weir chapel")
    expect(hands.page.locator("[data-job-row]:visible")).to_have_count(1)
    expect(hands.page.locator(f'[data-job="{wanted}"]')).to_be_visible()
    expect(hands.page.locator("#job-found")).to_have_text("1 job found.")
    hands.page.fill("#job-query", "house 10")
    expect(hands.page.locator("[data-job-row]:visible a[data-job]")).to_have_text("House 10 at the mill")
    hands.page.fill("#job-query", "")
    expect(hands.page.locator("[data-job-row]:visible")).to_have_count(before + 12)


def test_a_copy_is_another_job_with_the_same_wiring(opens: Open) -> None:
    hands = opens(LAPTOP)
    job = job_in_list(hands, "The first")
    hands.page.click(f'[data-job-row="{job}"] [data-action=copy]')
    hands.wait_ready()
    expect(hands.page.locator("#job-title")).to_have_text("The first (copy)")
    assert hands.page.locator("#bench").get_attribute("data-job") != job
    assert hands.layout()["conductors"] == CONDUCTORS


def test_a_job_is_exported_under_its_title_and_opens_again(opens: Open, tmp_path: Path) -> None:
    hands = opens(LAPTOP)
    job = job_in_list(hands, "Out & in, again")
    with hands.page.expect_download() as download:
        hands.page.click(f'[data-job-row="{job}"] [data-action=export-job]')
    assert download.value.suggested_filename == "out-in-again.json"
    file = tmp_path / "job.json"
    download.value.save_as(file)
    drop(hands, "job.json", file.read_text())
    hands.wait_ready()
    with urlopen(f"{hands.server}/api/jobs/{job}") as reply:
        assert hands.document() == json.load(reply)


def drop(hands: Hands, name: str, text: str) -> None:
    """Drop a file on the page, somewhere beside the panels."""
    hands.page.evaluate(
        """([name, text]) => {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(new File([text], name));
          const at = document.querySelector("h1");
          for (const type of ["dragover", "drop"])
            at.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }));
        }""",
        [name, text],
    )


def test_a_wire_list_may_be_dropped_anywhere(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.page.goto("/")
    drop(hands, "mill.csv", "wire,from,to\nw1,fb.R,tc.R\n")
    expect(hands.page.locator("#ask-kinds")).to_be_visible()


@pytest.mark.parametrize(
    ("document", "said"),
    [
        (
            {"format": "rungwright-job", "version": 2, "title": "Later"},
            "This job was written by a newer version (2). This one reads up to 1. Nothing was changed.",
        ),
        (
            {
                "format": "rungwright-job",
                "version": 1,
                "title": "Wrong",
                "layouts": {
                    "as-found": {
                        "parts": {"tc": {"kind": "thermostat-heat-cool"}},
                        "conductors": {"w3": {"ends": [None, "tc.Q"]}},
                    }
                },
            },
            "Not opened: line /layouts/as-found/conductors/w3/ends/1: there is no terminal tc.Q. It has R, Y, G, W.",
        ),
    ],
    ids=["newer", "no-such-terminal"],
)
def test_a_file_that_cannot_be_opened_is_told_in_exact_words(opens: Open, document: Any, said: str) -> None:
    hands = opens(LAPTOP)
    hands.expects_refusal = True
    hands.page.goto("/")
    drop(hands, "job.json", json.dumps(document))
    expect(hands.page.locator("#begin-words")).to_have_text(said)


def test_a_job_begins_with_the_parts_of_a_common_system(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.page.goto("/")
    hands.page.select_option("#new-parts", label="Heat pump with electric heat")
    hands.page.click("[data-action=start-empty]")
    hands.wait_ready()
    layout = hands.layout()
    assert sorted(part["kind"] for part in layout["parts"].values()) == [
        "air-handler-board",
        "control-transformer",
        "heat-pump-unit",
        "thermostat-heat-pump",
    ]
    assert layout["conductors"] == {}
    expect(hands.page.locator("#sheet [data-part]")).to_have_count(4)


def test_a_list_with_drawings_is_sound_and_fits_a_phone(opens: Open) -> None:
    hands = opens(LAPTOP)
    job_in_list(hands, "A title that is so long that it has to be broken over several lines of a narrow screen, surely")
    expect(hands.page.locator("[data-drawing] svg").first).to_be_attached()
    is_sound_in_both_themes(hands, "list of jobs")
    phone = opens(PHONE)
    phone.page.goto("/")
    no_sideways_scroll(phone, "list of jobs")


def test_a_button_can_be_pressed_only_when_its_script_is_there(opens: Open) -> None:
    hands = opens(LAPTOP)
    held: list[Route] = []
    hands.page.route("**/jobs/search.js", lambda route: held.append(route))
    with hands.page.expect_request("**/jobs/search.js"):
        hands.page.goto("/", wait_until="commit")
    start = hands.page.locator("[data-action=start-empty]")
    expect(start).to_be_disabled()
    assert hands.page.locator("button[data-waits]:not([disabled])").count() == 0
    expect(hands.page.locator("#begin")).to_be_visible()
    held[0].continue_()
    expect(start).to_be_enabled()
