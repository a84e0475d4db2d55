"""Ladders on sheets: every rung is whole on some sheet, and what goes on says where, so that the screw can be found."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise

import pytest

from app.drawing.frame.measured import inside, measured
from app.drawing.frame.page import LEVEL_WIDEST, mark_label, page_for
from app.drawing.frame.paper import FRAME_SCALE, KEEPING_WHOLE_MM, PAPERS, SMALLEST_CAPITAL_MM, smallest_scale
from app.drawing.frame.sheets import Sheet, SheetSet, fits_one_sheet, on_paper
from app.drawing.ladder.diagram import ladder_drawing
from app.paper.packet import Wanted, packet
from tests.demo_jobs.demos import SCHOOL_ROW, layouts
from tests.paper.papers import WORDS, framed, inked, layout_of

PAGES = ("letter", "a4")
LARGER = {"letter": "tabloid", "a4": "a3"}
"""What a hundred parts need, whose names are so long that their longest rungs fit no smaller paper."""
DEMOS = [
    pytest.param(name, layout, id=f"{name}-{layout}", marks=pytest.mark.slow if name == SCHOOL_ROW else ())
    for name, layout in layouts()
]

ON_PAPER = [
    pytest.param(
        name,
        layout,
        paper,
        id=f"{name}-{layout}-{paper}",
        marks=pytest.mark.slow if name == SCHOOL_ROW or at % 2 else (),
    )
    for number, (name, layout) in enumerate(layouts())
    for at, paper in enumerate(PAGES, start=number)
]
"""Each demo on both papers; the usual run takes every other one on each."""


@cache
def ladder_on(name: str, layout: str, paper: str, capitals_mm: float | None = None) -> SheetSet:
    """Return the sheets of the ladder of a demo, as a packet has them."""
    drawing = ladder_drawing(*layout_of(name, layout))
    if not fits_one_sheet(drawing, PAPERS[paper], "auto", WORDS, capitals_mm):
        (drawing,) = drawing.apart
    return on_paper(drawing, PAPERS[paper], "auto", WORDS, capitals_mm)


def cut_anyhow(name: str, layout: str, paper: str) -> Iterator[SheetSet]:
    """Yield sheets of a ladder: as they come out, and with capitals so high that rungs are cut in the middle."""
    yield ladder_on(name, layout, paper)
    yield ladder_on(name, layout, paper, 2 * SMALLEST_CAPITAL_MM)


@pytest.mark.parametrize(("name", "layout", "paper"), ON_PAPER)
def test_every_rung_is_whole_on_some_sheet(name: str, layout: str, paper: str) -> None:
    sheets = ladder_on(name, layout, LARGER[paper] if name == SCHOOL_ROW else paper)
    for box in sheets.drawing.whole:
        assert any(inside(box, sheet.window) for sheet in sheets.sheets), box


@pytest.mark.parametrize(("name", "layout"), DEMOS)
def test_a_heading_is_kept_with_the_rung_below_it(name: str, layout: str) -> None:
    drawing = ladder_drawing(*layout_of(name, layout))
    texts = [record for record in measured(drawing).records if record.text]
    rungs = [box for r in texts if r.text and r.text.words == r.within("data-rung") and (box := r.bounds())]
    for heading in (box for r in texts if r.text and r.text.words.startswith("From ") and (box := r.bounds())):
        first = min((rung for rung in rungs if rung.y > heading.y), key=lambda rung: rung.y)
        assert any(inside(heading, box) and inside(first, box) for box in drawing.whole)


@pytest.mark.parametrize(("name", "layout", "paper"), ON_PAPER)
def test_whatever_leaves_a_sheet_has_a_mark_there(name: str, layout: str, paper: str) -> None:
    for sheets in cut_anyhow(name, layout, paper):
        for sheet in sheets.sheets:
            marked = {(edge.side, mark.at) for edge in sheet.edges for mark in edge.marks}
            assert set(leaving(sheet)) <= marked, sheet.number


def leaving(sheet: Sheet) -> Iterator[tuple[str, int]]:
    """Yield where lines of the circuit leave the window of a sheet: on which side, and where along it."""
    w = sheet.window
    for record in sheet.shown:
        if record.verb != "line" or record.attributes.get("class") != "wire":
            continue
        for a, b in pairwise(record.points):
            left, right, top, bottom = min(a.x, b.x), max(a.x, b.x), min(a.y, b.y), max(a.y, b.y)
            if top == bottom and w.y <= top <= w.bottom:
                yield from (("left", top),) if left < w.x < right else ()
                yield from (("right", top),) if left < w.right < right else ()
            if left == right and w.x <= left <= w.right:
                yield from (("top", left),) if top < w.y < bottom else ()
                yield from (("bottom", left),) if top < w.bottom < bottom else ()


@pytest.mark.parametrize(("name", "layout", "paper"), ON_PAPER)
def test_a_mark_names_a_rail_a_screw_or_rungs_and_one_place(name: str, layout: str, paper: str) -> None:
    found, catalogue = layout_of(name, layout)
    screws = {f"{part}.{letter}" for part in found.parts for letter in catalogue.terminals_of(found, part)}
    for sheets in cut_anyhow(name, layout, paper):
        places: dict[str, set[tuple[str, int, bool]]] = {}
        for sheet in sheets.sheets:
            for edge in sheet.edges:
                for mark in edge.marks:
                    first = mark.words.split(" ")[0]
                    assert first in {"hot", "common", "rung", "rungs"} | screws
                    crossed = (mark.line, mark.at, edge.side in ("left", "right"))
                    places.setdefault(mark.words, set()).add(crossed)
        assert {words: at for words, at in places.items() if len(at) > 1} == {}


@pytest.mark.parametrize(("name", "layout", "paper"), ON_PAPER)
def test_words_of_a_frame_lie_apart_and_inside_the_border(name: str, layout: str, paper: str) -> None:
    for sheets in cut_anyhow(name, layout, paper):
        for sheet in sheets.sheets:
            texts = [(inked(r), r.text.words) for r in framed(sheets, sheet).records if r.text is not None]
            for number, (box, words) in enumerate(texts):
                assert inside(box, sheets.page.border), words
                assert [other for at, other in texts[number + 1 :] if at.overlaps(box)] == [], words


def test_the_name_of_a_rail_is_written_whole() -> None:
    sheets = ladder_on("lifeboat-house-fresh-and-dry", "as-left", "letter")
    told = {mark.words for sheet in sheets.sheets for edge in sheet.edges for mark in edge.marks}
    written = {r.text.words for sheet in sheets.sheets for r in framed(sheets, sheet).records if r.text is not None}
    assert {"hot of 2-T a", "common of 2-T a"} <= told <= written
    assert mark_label("common of 2-T a", LEVEL_WIDEST) == "common of 2-T a"


@pytest.mark.parametrize(("name", "layout", "paper"), ON_PAPER)
def test_the_first_sheet_says_which_part_each_screw_is_on_and_no_sheet_is_bare(
    name: str, layout: str, paper: str
) -> None:
    sheets = packet([(ladder_drawing(*layout_of(name, layout)), WORDS)], Wanted(PAPERS[paper])).sheets
    assert [number for number, sheet in enumerate(sheets, start=1) if 'class="rung"' not in sheet.svg] == []
    assert [">Parts: " in sheet.svg for sheet in sheets] == [True, *(False for _ in sheets[1:])]


def test_what_a_hundred_parts_are_leaves_room_for_the_first_rung_on_the_smallest_paper_that_lies() -> None:
    drawing = ladder_drawing(*layout_of(SCHOOL_ROW, "as-left"))
    (told_first,) = drawing.apart
    scale = smallest_scale(measured(told_first).fonts, KEEPING_WHOLE_MM)
    # Without that room the first heading must still go with its rung.
    assert set(drawing.whole[:1]) < set(told_first.whole)
    for paper in PAGES:
        area = page_for(PAPERS[paper].turned("sideways"), drawing.marks, WORDS, several=True, cut=True).area
        told = told_first.whole[0]
        assert told.y < 0 < told.bottom
        assert told.h <= FRAME_SCALE * area.h / scale
        assert told.w <= FRAME_SCALE * area.w / scale


@pytest.mark.parametrize(("name", "layout"), DEMOS)
def test_rungs_keep_their_place_when_what_is_told_goes_first(name: str, layout: str) -> None:
    drawing = ladder_drawing(*layout_of(name, layout))
    (told_first,) = drawing.apart
    below, above = ({(r.verb, r.points, r.text) for r in measured(one).records} for one in (drawing, told_first))
    moved = below ^ above
    assert {verb for verb, _, _ in moved} == {"text"}
    # The same words, and nothing else, stand elsewhere.
    assert sorted(t.words for _, _, t in below - above if t) == sorted(t.words for _, _, t in above - below if t)
    boxes = [box for record in measured(told_first).records if (box := record.bounds()) is not None]
    assert min(box.y for box in boxes) >= told_first.content.y
