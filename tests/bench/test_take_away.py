"""What is taken away: sheets, lists, the job, and the page that is printed."""

from __future__ import annotations

import csv
import json
import subprocess
from pathlib import Path

from playwright.sync_api import Download, expect

from tests.bench.conftest import LAPTOP, PHONE, Open
from tests.bench.hands import Hands
from tests.bench.layouts import HEATING, HEATING_WIRES, layout_of
from tests.bench.soundness import is_sound_in_both_themes, no_sideways_scroll


def words_of(pdf: Path) -> list[str]:
    """Return the words of each page."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    return done.stdout.split("\f")[:-1]


def take(hands: Hands, selector: str) -> Download:
    with hands.page.expect_download() as download:
        hands.page.click(selector)
    return download.value


def test_chosen_views_come_as_one_pdf_with_the_chosen_call(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click('[data-call="tc=heat-1"]')
    expect(hands.page.locator('[data-conductor="w4"]')).to_have_attribute("data-live", "carrying")
    hands.page.click("#take-open")
    is_sound_in_both_themes(hands, "take away")
    expect(hands.page.locator("#take-shown")).to_have_text("As left. Shown: heat 1.")
    for view in ("Ladder diagram", "Timing chart"):
        hands.page.get_by_role("checkbox", name=view).check()
    hands.page.locator("select[name=paper]").select_option("a4")
    hands.page.get_by_label("It lies").select_option("sideways")
    hands.page.get_by_label("Capitals").select_option("1")
    file = take(hands, "#take-pdf")
    assert file.suggested_filename == "trial-as-left.pdf"
    pages = words_of(file.path())
    for view in ("Connection diagram", "Ladder diagram", "Timing chart", "Wire list"):
        assert any(view in page for page in pages), view
    assert not any("Terminal list" in page for page in pages)
    assert any("Shown: heat 1" in page for page in pages)
    assert all("Open every disconnect" in page for page in pages)
    expect(hands.page.locator("#take-said")).to_have_text("Made: trial-as-left.pdf")


def test_paper_that_was_chosen_is_chosen_again(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_job(hands.copy_demo("post-office-dual-fuel"))
    hands.page.click("#take-open")
    hands.page.get_by_role("checkbox", name="Wire list").uncheck()
    chosen = {"Paper size": "tabloid", "It lies": "sideways", "Capitals": "1"}
    for label, value in chosen.items():
        hands.page.get_by_label(label).select_option(value)
    (only,) = words_of(take(hands, "#take-pdf").path())
    assert "Connection diagram, sheet 1 of 1" in only
    hands.page.reload()
    hands.wait_ready()
    hands.page.click("#take-open")
    assert {label: hands.page.get_by_label(label).input_value() for label in chosen} == chosen


def test_changes_are_taken_along_where_there_are_two_layouts(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#take-open")
    expect(hands.page.get_by_role("checkbox", name="Changes")).to_be_disabled()
    layouts = {
        "as-found": layout_of(HEATING, *HEATING_WIRES[:3]),
        "plan": layout_of(HEATING),
        "as-left": layout_of(HEATING, *HEATING_WIRES),
    }
    hands.open_job(hands.make_job(layouts))
    hands.page.click('[data-view-choice="changes"]')
    hands.page.get_by_label("Since").select_option("plan")
    expect(hands.page.locator('#sheet [data-conductor="w1"]')).to_have_attribute("data-change", "new")
    assert 'data-change="new" data-conductor="w1"' in take(hands, "#export").path().read_text()
    hands.page.click("#take-open")
    hands.page.get_by_role("checkbox", name="Changes since “Plan”").check()
    pages = words_of(take(hands, "#take-pdf").path())
    changes = [page for page in pages if "Changes, sheet" in page]
    assert any("4 new" in page for page in changes)
    assert all("what changed since “plan”" in page for page in changes)


def test_a_picture_of_a_sheet_that_is_not_there_is_refused_in_words(opens: Open) -> None:
    hands = opens(LAPTOP)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#take-open")
    assert take(hands, "#take-png").path().read_bytes().startswith(b"\x89PNG")
    hands.expects_refusal = True
    hands.page.fill("#take-sheet", "99")
    hands.page.click("#take-png")
    expect(hands.page.locator("#take-said")).to_contain_text("Not made: There is no sheet 99. Right would be: 1 to")
    for view in ("Connection diagram", "Wire list"):
        hands.page.get_by_role("checkbox", name=view).uncheck()
    hands.page.click("#take-pdf")
    expect(hands.page.locator("#take-said")).to_have_text("Choose what is to be on it first.")


def test_lists_the_drawing_and_the_job_as_files(opens: Open) -> None:
    hands = opens(PHONE)
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.tap("#take-open")
    no_sideways_scroll(hands, "take away")
    wires = list(csv.reader(take(hands, "#take-wires").path().read_text(encoding="utf-8-sig").splitlines()))
    assert len(wires) == 1 + len(HEATING_WIRES)
    terminals = take(hands, "#take-terminals").path().read_text(encoding="utf-8-sig")
    assert "fb.W" in terminals
    assert 'data-conductor="w4"' in take(hands, "#take-svg").path().read_text()
    assert json.loads(take(hands, "#take-job").path().read_text()) == hands.document()
    hands.press("Escape")
    expect(hands.page.locator("#take-open")).to_be_focused()


def test_the_printed_page_is_the_drawing_that_is_looked_at(opens: Open, tmp_path: Path) -> None:
    hands = opens(LAPTOP, color_scheme="dark")
    hands.open_parts(HEATING, *HEATING_WIRES)
    hands.page.click("#zoom-in")
    hands.page.click('[data-view-choice="ladder"]')
    expect(hands.page.locator("#sheet [data-rung]").first).to_be_visible()
    printed = tmp_path / "printed.pdf"
    hands.page.pdf(path=printed, prefer_css_page_size=True)
    (page,) = words_of(printed)
    assert "Ladder diagram" in page
    assert "Open every disconnect" in page
    for around in ("Findings", "Take away", "Add a part"):
        assert around not in page
    expect(hands.page.locator(".on-paper")).to_have_count(0)
