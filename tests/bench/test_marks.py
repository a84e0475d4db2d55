"""Every mark on one sheet, at three distances between screws, in four kinds of seeing: apart, whole, and told apart
without colour."""

from __future__ import annotations

import itertools
import json
from base64 import b64encode
from typing import Any
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Page

from tests.bench.conftest import Open, in_the_long_run
from tests.bench.hands import Hands
from tests.bench.soundness import is_legible, look
from tests.bench.two_layouts import CHANGES

STYLES = ("tokens", "base", "bench", "sheet", "regions", "views", "live", "hands", "around")
SHEET = """<!doctype html><html lang="en"><head><title>Marks</title>{styles}
<style>[data-view="changes"] [data-layer="sheet"] {{ visibility: hidden; }}</style></head>
<body><main style="display: flex; flex-wrap: wrap; gap: 8px; width: 1380px"></main></body></html>"""
WIDE = {"viewport": {"width": 1400, "height": 900}}
SEEING: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"},
    "dark": {"color_scheme": "dark"},
    "forced colours": {"forced_colors": "active"},
    "forced colours, dark": {"forced_colors": "active", "color_scheme": "dark"},
}
WIRES = (("xf.R", "fb.XF"), ("xf.C", "fb.XC"), ("fb.R", "tc.R"), ("fb.W", "tc.W"), ("fb.Y", "tc.Y"))
PARTS = {
    "xf": {"kind": "control-transformer", "label": "Control transformer", "at": [0, 120]},
    "fb": {"kind": "furnace-board", "label": "Furnace board", "at": [360, 0]},
    "tc": {"kind": "thermostat-heat-cool", "label": "Thermostat", "at": [720, 24]},
}
OFF_ITS_SCREW = ("changed: wire left off", "changed: end left off")
"""At the screw both are the same; what stands beside the mark and the wire itself tell how much of it is gone."""
LEAST_PIXELS = 30
"""So many pixels at least are much lighter or darker where a mark is."""
MOST_OF_IT = 0.9
"""So much of the ink of words is still there beneath marks."""

Wires = tuple[tuple[str | None, str | None], ...]
Cases = list[dict[str, Any]]


def drawing(hands: Hands, wires: Wires, call: str = "") -> str:
    """Return a small furnace as the server draws it."""
    conductors = {f"w{number}": {"ends": list(ends)} for number, ends in enumerate(wires, start=1)}
    layouts = {"as-left": {"parts": PARTS, "conductors": conductors}}
    return drawn(hands, layouts, {"situation": {"calls": {"tc": [call]} if call else {}}})


def drawn(hands: Hands, layouts: dict[str, Any], how: dict[str, Any]) -> str:
    """Return what the server draws of a job."""
    job = {"format": "rungwright-job", "version": 1, "title": "Marks", "layouts": layouts}
    question = json.dumps({"job": job, **how}).encode()
    with urlopen(Request(f"{hands.server}/api/draw", question, {"Content-Type": "application/json"})) as reply:
        return str(reply.read().decode())


@pytest.fixture
def sheet(opens: Open) -> Hands:
    """Open the sheet of marks, with the style sheets and modules of the bench."""
    hands = opens(WIDE)
    page = hands.page
    styles = "".join(f'<link rel="stylesheet" href="/static/style/{name}.css">' for name in STYLES)
    page.route("**/marks", lambda route: route.fulfill(body=SHEET.format(styles=styles), content_type="text/html"))
    script = look("marks_sheet")
    page.route("**/marks_sheet.js", lambda route: route.fulfill(body=script, content_type="text/javascript"))
    page.goto("/marks")
    open_ends: Wires = (*WIRES[:3], ("tc.W", None))
    loose_end: Wires = (*WIRES[:3], (None, "tc.W"))
    drawings = {
        "idle": drawing(hands, WIRES),
        "live": drawing(hands, WIRES, "heat-1"),
        "open": drawing(hands, open_ends),
        "loose": drawing(hands, loose_end),
    }
    for name, (before, after) in CHANGES.items():
        drawings[f"changed: {name}"] = drawn(hands, {"as-found": before, "as-left": after}, {"view": "changes"})
    page.evaluate("async drawings => (await import('/marks_sheet.js')).show(drawings)", drawings)
    return hands


def looked_at(page: Page) -> Cases:
    found: Cases = page.evaluate(look("marks_boxes"))
    assert len(found) > 60 + 3 * len(CHANGES), "every case is on the sheet at every distance"
    return found


def overlap(one: list[float], other: list[float]) -> float:
    """Return by how many pixels two boxes lie in each other."""
    return min(min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1]))


def meaning(case: dict[str, Any]) -> str:
    """Return what a case means; what is picked or shown looks alike on a part and on a screw."""
    name = str(case["case"])
    if not case["marks"]:
        return "nothing"
    if name in OFF_ITS_SCREW:
        return "off its screw"
    return name.split()[0] if name.startswith(("picked", "shown")) else name


def is_label(box: dict[str, Any]) -> bool:
    return str(box["what"]).startswith("label ")


def within(box: list[float], frame: list[float]) -> tuple[float, float, float, float]:
    """Return left, top, width and height of what lies in a frame of a box."""
    left, top = max(box[0], frame[0]), max(box[1], frame[1])
    return left, top, min(box[2], frame[0] + frame[2]) - left, min(box[3], frame[1] + frame[3]) - top


def shows_all(case: dict[str, Any]) -> bool:
    """Return whether a case shows what may come together."""
    return str(case["case"]).startswith(("all ", "changed: all"))


def without_marks(case: dict[str, Any]) -> str:
    """Return the case that shows the same without marks."""
    return "changed: nothing" if case["case"].startswith("changed") else "nothing"


def is_ring_by_mark(*whats: str) -> bool:
    """A ring stands around what has focus, so it may come near to other marks; it covers nothing that is written."""
    return any("mark-ring" in what for what in whats) and all("mark-" in what for what in whats)


def test_no_mark_covers_a_letter_or_volts_or_another_mark(sheet: Hands) -> None:
    faults = [
        (case["case"], case["pitch"], one["what"], other["what"])
        for case in looked_at(sheet.page)
        for one, other in itertools.combinations(case["boxes"], 2)
        if overlap(one["box"], other["box"]) > 0.5 and not is_ring_by_mark(one["what"], other["what"])
    ]
    assert faults == []


def test_without_colour_every_mark_has_a_shape_weight_or_dash_of_its_own(sheet: Hands) -> None:
    cases = [case for case in looked_at(sheet.page) if not shows_all(case)]
    alike = [
        (one["case"], other["case"], one["pitch"])
        for one, other in itertools.combinations(cases, 2)
        if one["pitch"] == other["pitch"] and one["signature"] == other["signature"] and meaning(one) != meaning(other)
    ]
    assert alike == []


def test_what_is_picked_where_one_only_looks_covers_no_word(sheet: Hands) -> None:
    page = sheet.page
    cases = {case["pitch"]: case for case in looked_at(page) if case["case"] == "changed: all"}
    picked = {case["pitch"]: case["frame"] for case in looked_at(page) if case["case"] == "changed: all, picked"}
    pairs, words = [], []
    for pitch, case in cases.items():
        right, down = (picked[pitch][side] - case["frame"][side] for side in (0, 1))
        for left, top, width, height in (within(one["box"], case["frame"]) for one in case["boxes"] if is_label(one)):
            pairs.append(([left, top, width, height], [left + right, top + down, width, height]))
        words += [(pitch, one["what"]) for one in case["boxes"] if is_label(one)]
    assert len(pairs) > 3 * 5, "what became of each wire is written at each distance"
    picture = b64encode(page.screenshot(full_page=True)).decode()
    kept: list[float] = page.evaluate(look("marks_covered"), [picture, pairs])
    assert [one for one, share in zip(words, kept, strict=True) if share < MOST_OF_IT] == []


@pytest.mark.slow
@pytest.mark.parametrize("seeing", ["light", "forced colours", *in_the_long_run("dark", "forced colours, dark")])
def test_every_mark_is_seen_in_grey(sheet: Hands, seeing: str) -> None:
    page = sheet.page
    page.emulate_media(**SEEING[seeing])
    if "forced" not in seeing:
        is_legible(sheet, seeing)
    picture = b64encode(page.screenshot(full_page=True)).decode()
    cases = looked_at(page)
    unmarked = {(case["case"], case["pitch"]): case["frame"] for case in cases if not case["marks"]}
    marked = [case for case in cases if case["marks"] and not shows_all(case)]
    pairs = [(one["frame"], unmarked[without_marks(one), one["pitch"]]) for one in marked]
    changed: list[int] = page.evaluate(look("marks_pixels"), [picture, pairs])
    pale = [
        (case["case"], case["pitch"], pixels)
        for case, pixels in zip(marked, changed, strict=True)
        if pixels < LEAST_PIXELS
    ]
    assert pale == []
