"""Drawings cut into sheets: nothing is lost, what is cut says where it goes on, and people can read it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import get_args

import pytest

from app.circuit.network import build_circuit
from app.drawing.frame.draw_edges import MARK_PITCH, apart
from app.drawing.frame.drawing import GIVES_WAY
from app.drawing.frame.measured import inside, measured
from app.drawing.frame.paper import (
    FRAME_SCALE,
    KEEPING_WHOLE_MM,
    PAPERS,
    SMALLEST_CAPITAL_MM,
    PaperName,
    capital_height,
    smallest_scale,
)
from app.drawing.frame.paper_frame import CENTRE, Counted
from app.drawing.frame.paper_sheet import paper_sheet, place_of
from app.drawing.frame.sheets import Edge, Sheet, SheetSet, on_paper
from app.drawing.ladder.diagram import ladder_drawing
from app.drawing.lists.terminal_list import terminal_list_drawing
from app.drawing.lists.words import head_of
from app.drawing.surface.geometry import GRID, Box
from app.drawing.surface.recorder import Record
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import NAME, SMALL
from app.drawing.views import VIEWS, Shown
from tests.paper.papers import BY_CHANCE, WORDS, cases, drawing_of, framed, inked, layout_of, sheets_of, words_on

CASES = list(cases())
ON_PAPER = [
    pytest.param(
        *case.values,
        paper,
        id=f"{case.id}-{paper}",
        marks=case.marks if number % len(PAPERS) == turn else pytest.mark.slow,
    )
    for number, case in enumerate(CASES)
    for turn, paper in enumerate(sorted(PAPERS))
]
"""Each case on one of the papers in turn; `make test-all` puts each onto all of them."""
Which = str | int


def level_and_upright(records: tuple[Record, ...]) -> Iterator[tuple[str, Box]]:
    """Yield the straight pieces of the conductors as they were drawn."""
    for record in records:
        name = record.within("data-conductor")
        if record.verb == "line" and name is not None:
            for a, b in pairwise(record.points):
                yield name, Box(min(a.x, b.x), min(a.y, b.y), abs(a.x - b.x), abs(a.y - b.y))


@pytest.mark.parametrize(("name", "which"), CASES)
def test_every_screw_is_whole_on_some_sheet(name: Which, which: Which) -> None:
    layout, catalogue = layout_of(name, which)
    shown = {
        record.within("data-terminal")
        for sheet in sheets_of(name, which).sheets
        for record in sheet.shown
        if record.verb == "circle" and inside(record.bounds() or Box(0, 0, 0, 0), sheet.window)
    }
    assert {f"{part}.{letter}" for part in layout.parts for letter in catalogue.terminals_of(layout, part)} <= shown


@pytest.mark.parametrize(("name", "which"), CASES)
def test_all_words_of_the_drawing_stand_whole_on_some_sheet(name: Which, which: Which) -> None:
    records = measured(drawing_of(name, which)).records
    every = {(r.text, r.within("data-conductor")) for r in records if r.text and not gives_way(r)}
    shown: set[object] = set()
    for sheet in sheets_of(name, which).sheets:
        for record in sheet.shown:
            if record.text is not None:
                assert inside(box_of_text(record.text), sheet.window)
                if not gives_way(record):
                    shown.add((record.text, record.within("data-conductor")))
    assert every == shown


def gives_way(record: Record) -> bool:
    return record.attributes.get("class") == GIVES_WAY


def test_what_a_conductor_is_for_gives_way_to_cuts_and_to_nothing_else() -> None:
    left_out = 0
    for name, which in (case.values for case in CASES if isinstance(case.values[0], str)):
        sheets = sheets_of(name, which)
        windows = [sheet.window for sheet in sheets.sheets]
        shown = {record.text for sheet in sheets.sheets for record in sheet.shown if gives_way(record)}
        for record in measured(sheets.drawing).records:
            if record.text is not None and gives_way(record):
                fits = any(inside(box_of_text(record.text), window) for window in windows)
                assert fits == (record.text in shown), (name, which, record.text)
                left_out += not fits
    assert left_out


@pytest.mark.parametrize(("name", "which"), CASES)
def test_every_point_of_every_conductor_is_on_some_sheet(name: Which, which: Which) -> None:
    sheets = sheets_of(name, which)
    drawn = [set(level_and_upright(sheet.shown)) for sheet in sheets.sheets]
    for conductor, piece in set(level_and_upright(measured(drawing_of(name, which)).records)):
        level = piece.h == 0
        covered = sorted(
            (max(piece.x, w.x), min(piece.right, w.right))
            if level
            else (max(piece.y, w.y), min(piece.bottom, w.bottom))
            for sheet, on in zip(sheets.sheets, drawn, strict=True)
            if (conductor, piece) in on
            for w in [sheet.window]
            if piece.x <= w.right and w.x <= piece.right and piece.y <= w.bottom and w.y <= piece.bottom
        )
        reached = piece.x if level else piece.y
        for start, end in covered:
            assert start <= reached, (conductor, piece)
            reached = max(reached, end)
        assert reached == (piece.right if level else piece.bottom), (conductor, piece)


@pytest.mark.parametrize(("name", "which"), CASES)
def test_a_mark_stands_on_both_sheets_and_nowhere_else(name: Which, which: Which) -> None:
    sheets = sheets_of(name, which).sheets
    pairs: dict[tuple[int, int], list[tuple[str, int]]] = {}
    for sheet in sheets:
        for edge in sheet.edges:
            pairs.setdefault((sheet.number, edge.sheet), []).extend((mark.words, mark.at) for mark in edge.marks)
    for (here, there), marks in pairs.items():
        assert sorted(marks) == sorted(pairs[there, here])


@pytest.mark.parametrize(("name", "which"), CASES)
def test_whatever_leaves_a_sheet_has_a_mark_there(name: Which, which: Which) -> None:
    for sheet in sheets_of(name, which).sheets:
        marked = {(edge.side, mark.line, mark.at) for edge in sheet.edges for mark in edge.marks}
        assert set(leaving(sheet)) <= marked, sheet.number


def leaving(sheet: Sheet) -> Iterator[tuple[str, str, int]]:
    """Yield where conductors leave the window of a sheet, found anew from their lines: side, conductor, place."""
    w = sheet.window
    for conductor, piece in level_and_upright(sheet.shown):
        if piece.h == 0 and w.y <= piece.y <= w.bottom:
            if piece.x < w.x < piece.right:
                yield "left", conductor, piece.y
            if piece.x < w.right < piece.right:
                yield "right", conductor, piece.y
        if piece.w == 0 and w.x <= piece.x <= w.right:
            if piece.y < w.y < piece.bottom:
                yield "top", conductor, piece.x
            if piece.y < w.bottom < piece.bottom:
                yield "bottom", conductor, piece.x


@pytest.mark.parametrize(("name", "which"), CASES)
def test_one_mark_means_one_place(name: Which, which: Which) -> None:
    places: dict[str, set[tuple[str, int, bool]]] = {}
    for sheet in sheets_of(name, which).sheets:
        for edge in sheet.edges:
            for mark in edge.marks:
                crossed = (mark.line, mark.at, edge.side in ("left", "right"))
                places.setdefault(mark.words, set()).add(crossed)
    assert {words: found for words, found in places.items() if len(found) > 1} == {}


@pytest.mark.parametrize(("name", "which", "paper"), ON_PAPER)
def test_capitals_are_two_millimetres_high(name: Which, which: Which, paper: str) -> None:
    sheets = sheets_of(name, which, paper)
    for sheet in sheets.sheets:
        drawn = [record.text.font for record in sheet.shown if record.text is not None]
        around = [record.text.font for record in framed(sheets, sheet).records if record.text is not None]
        heights = [capital_height(font) * sheets.scale / 10 for font in drawn]
        heights += [capital_height(font) * FRAME_SCALE / 10 for font in around]
        least = 2.0 if sheets.scale >= smallest_scale([SMALL], SMALLEST_CAPITAL_MM) else KEEPING_WHOLE_MM
        assert min(heights) >= least - 1e-9


@pytest.mark.parametrize(("name", "which"), CASES)
def test_capitals_are_lower_only_where_something_would_else_be_cut(name: Which, which: Which) -> None:
    usual, closer = sheets_of(name, which), drawing_of(name, which)
    asked = on_paper(closer, PAPERS["letter"], "auto", WORDS, SMALLEST_CAPITAL_MM)
    if usual.scale != asked.scale:
        assert cut_in_two(asked) > cut_in_two(usual)


def test_rungs_stay_whole_where_lower_capitals_allow_it() -> None:
    layout, catalogue = layout_of("ferry-cottage-four-wires", "as-left")
    ladder = ladder_drawing(layout, catalogue)
    usual, asked = (on_paper(ladder, PAPERS["letter"], "auto", WORDS, mm) for mm in (None, SMALLEST_CAPITAL_MM))
    assert cut_in_two(usual) == 0
    assert cut_in_two(asked) > 0
    assert len(usual.sheets) < len(asked.sheets)


def cut_in_two(sheets: SheetSet) -> int:
    windows = [sheet.window for sheet in sheets.sheets]
    return sum(not any(inside(box, window) for window in windows) for box in sheets.drawing.whole)


@pytest.mark.parametrize(("name", "which", "paper"), ON_PAPER)
def test_the_window_lies_in_its_area_with_room_for_its_marks(name: Which, which: Which, paper: str) -> None:
    sheets = sheets_of(name, which, paper)
    room = sheets.room
    for sheet in sheets.sheets:
        place, area = place_of(sheets, sheet), sheets.page.area
        sides = sheet.cut_sides
        rooms = (("left", room.beside), ("top", room.along), ("right", room.beside), ("bottom", room.along))
        kept = area.grown(*(-own * (side in sides) for side, own in rooms))
        assert inside(place, kept.grown(1, 1, 1, 1)), sheet.number


@pytest.mark.parametrize(("name", "which"), CASES)
def test_no_words_of_a_frame_lie_on_each_other_or_outside_the_border(name: Which, which: Which) -> None:
    sheets = sheets_of(name, which)
    for sheet in sheets.sheets:
        boxes = sorted(
            (inked(record), record.text.words) for record in framed(sheets, sheet).records if record.text is not None
        )
        for number, (box, words) in enumerate(boxes):
            assert inside(box, sheets.page.border), words
            for other, other_words in boxes[number + 1 :]:
                if other.x >= box.right:
                    break
                assert not box.overlaps(other), (sheet.number, words, other_words)


def test_no_part_is_cut_that_would_fit_onto_a_sheet() -> None:
    for name, which in (case.values for case in CASES if isinstance(case.values[0], str)):
        sheets = sheets_of(name, which)
        for box in sheets.drawing.whole:
            assert any(inside(box, sheet.window) for sheet in sheets.sheets), (name, which, box)


def test_the_same_drawing_gives_the_same_sheets() -> None:
    drawing = drawing_of("lifeboat-house-fresh-and-dry", "as-left")
    one, other = (on_paper(drawing, PAPERS["a4"], "auto", WORDS) for _ in range(2))
    said = [
        [paper_sheet(sheets, sheet, WORDS, Counted(sheet.number, len(sheets.sheets))) for sheet in sheets.sheets]
        for sheets in (one, other)
    ]
    assert said[0] == said[1]


def test_a_part_of_which_an_edge_is_seen_is_named_there() -> None:
    sheets = sheets_of("glasshouse-isolated-boiler", "as-left")
    first, second = sheets.sheets
    (on, back) = first.edges[0], second.edges[0]
    assert (on.cut, back.cut) == ((), ("Outdoor switch",))
    written = {record.text.words for record in framed(sheets, second).records if record.text is not None}
    assert "goes on: sheet 1, with all of Outdoor switch" in written
    assert "Outdoor switch" not in words_on(second)


@pytest.mark.parametrize(("name", "which"), CASES)
def test_what_is_named_at_a_cut_is_whole_beyond_and_not_here(name: Which, which: Which) -> None:
    sheets = sheets_of(name, which)
    for sheet in sheets.sheets:
        for edge in sheet.edges:
            beyond = sheets.sheets[edge.sheet - 1]
            for called in edge.cut:
                boxes = [box for box, words in sheets.drawing.names.items() if words == called]
                assert any(inside(box, beyond.window) and not inside(box, sheet.window) for box in boxes)
                assert called in words_on(beyond)


def test_a_list_begins_at_the_upper_end_of_each_of_its_sheets() -> None:
    layout, catalogue = layout_of("customs-house-three-valves", "as-left")
    sheets = on_paper(terminal_list_drawing(layout, catalogue), PAPERS["a4"], "auto", WORDS)
    assert len(sheets.sheets) > 1
    assert {place_of(sheets, sheet).y for sheet in sheets.sheets} == {sheets.page.area.y}


@pytest.mark.parametrize("paper", ["letter", "a3"])
@pytest.mark.parametrize("view", ["terminals", "wires", "flags"])
def test_a_sheet_of_a_long_list_says_from_where_to_where_it_leads(view: str, paper: str) -> None:
    layout, catalogue = layout_of("school-row-hundred-parts", "as-left")
    drawing = VIEWS[view].draw(Shown(layout, catalogue, build_circuit(layout, catalogue)))
    sheets = on_paper(drawing, PAPERS[paper], "auto", WORDS)
    said = [
        next(
            r.text.words for r in framed(sheets, sheet).records if r.text and f"sheet {sheet.number} of" in r.text.words
        )
        for sheet in sheets.sheets
    ]
    for sheet, words in zip(sheets.sheets, said, strict=True):
        named = words.partition(": ")[2]
        titles = sorted(
            (record.text.at.y, record.text.words)
            for record in sheet.shown
            if record.text is not None and record.text.font == NAME and record.within("data-flag") is None
        )
        begins, ends = head_of(titles[0][1]).partition(" to ")[0], head_of(titles[-1][1])
        stem, to, name = ends.partition(" to ")
        whole = begins, f"{stem.rpartition(' ')[0]} {name}" if to else ends
        wanted = [_span(*whole), _span(*(head.partition(",")[0] for head in whole))]
        assert any(named == each or (named[-1] == "…" and each.startswith(named[:-1])) for each in wanted), named
    assert len({words.partition(": ")[2] for words in said}) > len(said) // 2


def _span(first: str, last: str) -> str:
    """Return ``Cable ca1 to ca4``, ``Cable cb13 to Parts``, or one name for both."""
    stem, _, name = last.rpartition(" ")
    return first if first == last else f"{first} to {name if stem == first.rpartition(' ')[0] else last}"


def test_wires_in_no_cable_and_parts_are_looked_up_by_their_names() -> None:
    layout, catalogue = layout_of("school-row-hundred-parts", "as-left")
    drawing = VIEWS["wires"].draw(Shown(layout, catalogue, build_circuit(layout, catalogue)))
    heads = [*drawing.heads.values()]
    assert "In no cable" not in heads
    assert "Parts" not in heads
    # The first and the last of the conductors that lie in no cable, and of the parts, by hand.
    loose, parts = ([head for head in heads if head.startswith(what)] for what in ("In no cable, ", "Parts, "))
    assert (loose[0][:15], loose[-1][-8:]) == ("In no cable, w1", " to w228")
    assert (parts[0][:10], parts[-1][-8:]) == ("Parts, ah6", " to zp14")


def test_one_sheet_has_no_plan_of_sheets() -> None:
    for tenths in range(10, 30):
        sheets = on_paper(drawing_of("net-loft-electric-heat", "as-left"), PAPERS["a4"], "auto", WORDS, tenths / 10)
        for sheet in sheets.sheets:
            plans = [r for r in framed(sheets, sheet).records if r.attributes.get("class") == "key-plan"]
            assert bool(plans) == (len(sheets.sheets) > 1)


def test_a_plan_of_sheets_numbers_some_of_them_or_is_left_out() -> None:
    layout, catalogue = layout_of("school-row-hundred-parts", "as-left")
    plans = set()
    for drawing, paper in (
        (ladder_drawing(layout, catalogue), "tabloid"),
        (drawing_of("mill-house-two-zones", "as-left"), "a4"),
    ):
        sheets = on_paper(drawing, PAPERS[paper], "auto", WORDS)
        in_plan = [
            r for r in framed(sheets, sheets.sheets[0]).records if r.groups and r.groups[-1].get("class") == "key-plan"
        ]
        numbered = any(record.text for record in in_plan)
        assert numbered == bool(in_plan)
        plans.add(numbered)
    assert plans == {True, False}


def test_what_fits_is_one_sheet_without_cuts() -> None:
    sheets = on_paper(drawing_of("bell-loft-heat-only", "as-left"), PAPERS["letter"], "auto", WORDS, capitals_mm=1.2)
    assert len(sheets.sheets) == 1
    assert sheets.sheets[0].edges == ()
    assert sheets.page.key is None


@pytest.mark.parametrize(("turn", "wide"), [("upright", False), ("sideways", True)])
def test_paper_lies_as_it_is_asked_to(turn: str, wide: bool) -> None:
    drawing = drawing_of("post-office-dual-fuel", "as-left")
    sheets = on_paper(drawing, PAPERS["a4"], "sideways" if turn == "sideways" else "upright", WORDS)
    assert (sheets.page.paper.width > sheets.page.paper.height) is wide


def test_smaller_lettering_needs_fewer_sheets() -> None:
    drawing = drawing_of("post-office-dual-fuel", "as-left")
    counts = [len(on_paper(drawing, PAPERS["letter"], "auto", WORDS, mm).sheets) for mm in (2.0, 1.4, 1.0)]
    assert counts[0] > counts[1] > counts[2] == 1


@pytest.mark.parametrize("mm", [1.0, 1.2, 1.5])
def test_marks_stay_apart_where_the_drawing_is_small(mm: float) -> None:
    for name in ("post-office-dual-fuel", "lifeboat-house-fresh-and-dry", "assembly-rooms-zone-panel"):
        sheets = on_paper(drawing_of(name, "as-left"), PAPERS["letter"], "auto", WORDS, mm)
        for sheet in sheets.sheets:
            texts = [inked(r) for r in framed(sheets, sheet).records if r.text is not None]
            assert [(a, b) for number, a in enumerate(texts) for b in texts[number + 1 :] if a.overlaps(b)] == []


def test_words_are_moved_apart_as_little_as_will_do_and_stay_in_order() -> None:
    assert apart([], []) == []
    assert apart([0, 40, 80], [20, 60, 20]) == [0, 40, 80]
    assert apart([100, 100], [MARK_PITCH] * 2) == [100 - MARK_PITCH // 2 - 1, 100 + MARK_PITCH // 2]
    assert apart([100, 104], [30, 50]) == [82, 122]
    for places in ([0, 6, 12, 18, 90], [0, 1, 2, 14, 15, 60, 61], [5, 5, 5, 5]):
        moved = apart(places, [MARK_PITCH] * len(places))
        assert all(after - before >= MARK_PITCH for before, after in pairwise(moved))
        assert abs(sum(moved) - sum(places)) <= len(places)


@pytest.mark.parametrize(("name", "which"), CASES)
def test_no_conductor_ends_in_nothing(name: Which, which: Which) -> None:
    """An end that a sheet shows lies on a screw, a ring or words that it shows too, or on an arrow that goes on."""
    for sheet in sheets_of(name, which).sheets:
        things = [box for r in sheet.shown if r.verb in ("circle", "text") and (box := r.bounds()) is not None]
        arrows = [p for r in sheet.shown if r.attributes.get("class") == "goes-on" for p in r.points]
        for record in sheet.shown:
            if record.attributes.get("class") != "wire":
                continue
            for end in (record.points[0], record.points[-1]):
                around = Box(end.x - 4, end.y - 4, 8, 8)
                if inside(around, sheet.window):
                    assert end in arrows or any(around.overlaps(box) for box in things), (sheet.number, end)


def test_an_empty_layout_is_one_sheet() -> None:
    sheets = sheets_of(0, 0)
    assert len(sheets.sheets) == 1
    assert words_on(sheets.sheets[0]) == set()


def test_the_edges_of_a_demo_name_the_sheet_beside() -> None:
    sheets = sheets_of("dye-works-wrong-tap", "as-left").sheets
    right, left = sheets[0].edges, sheets[1].edges
    assert [(edge.side, edge.sheet) for edge in right] == [("right", 2)]
    assert [(edge.side, edge.sheet) for edge in left] == [("left", 1)]
    assert marks_of(right) == marks_of(left)


def marks_of(edges: tuple[Edge, ...]) -> list[str]:
    return [mark.words for edge in edges for mark in edge.marks]


def test_each_paper_can_be_asked_for_by_its_name() -> None:
    assert set(get_args(PaperName)) == set(PAPERS)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["bathhouse-late-second-bank", "assembly-rooms-zone-panel", "bakery-flat-heat-pump"])
def test_conductors_that_are_landed_nowhere_have_no_sheet_for_themselves(name: str, paper: str) -> None:
    layout, _ = layout_of(name, "as-left")
    assert [wire for wire in layout.conductors.values() if not wire.landed()]
    for sheet in sheets_of(name, "as-left", paper).sheets:
        assert any(record.within("data-part") is not None for record in sheet.shown), sheet.number


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ["ice-store-data-bus", "toll-cottage-shared-conductor"])
def test_where_an_end_is_lost_stands_on_the_sheet_on_which_its_line_ends(name: str, paper: str) -> None:
    said = 0
    for sheet in sheets_of(name, "as-found", paper).sheets:
        for record in sheet.shown:
            if record.text is not None and record.text.words.startswith("not seen"):
                said += 1
                wire = record.within("data-conductor")
                lines = [one for one in sheet.shown if one.verb == "line" and one.within("data-conductor") == wire]
                ends = [point for line in lines for point in (line.points[0], line.points[-1])]
                assert any(abs(end.y - record.text.at.y) < GRID for end in ends), (wire, sheet.number)
    assert said


@pytest.mark.parametrize("name", ["salt-store-float-gone-around", "print-shop-heat-for-water"])
def test_what_is_landed_on_a_screw_is_written_on_the_sheet_that_shows_its_part(name: str) -> None:
    layout, _ = layout_of(name, "as-left")
    sheets = sheets_of(name, "as-left")
    part_at = {box: part for part, found in layout.parts.items() for box in _boxes_called(sheets, found.label)}
    assert set(part_at.values()) == set(layout.parts)
    for box, part in part_at.items():
        (sheet,) = [sheet for sheet in sheets.sheets if inside(box, sheet.window)]
        written = words_on(sheet)
        for wire, conductor in layout.conductors.items():
            if part in {end.partition(".")[0] for end in conductor.landed()}:
                assert f"{wire} {conductor.insulation}" in written, (part, wire, sheet.number)


def _boxes_called(sheets: SheetSet, label: str) -> list[Box]:
    return [box for box, name in sheets.drawing.names.items() if name == label]


def test_marks_at_the_side_keep_out_of_the_corner_of_those_above_and_below() -> None:
    sheets = sheets_of(*BY_CHANCE[0])
    half = MARK_PITCH // 2
    for sheet in sheets.sheets:
        place = place_of(sheets, sheet)
        for record in framed(sheets, sheet).records:
            at_side = record.within("data-match") and record.within("data-side") in ("left", "right")
            if record.text is not None and at_side:
                middle = record.text.at.y - CENTRE
                assert "top" not in sheet.cut_sides or middle >= place.y + half, (sheet.number, record.text.words)
                assert "bottom" not in sheet.cut_sides or middle <= place.bottom - half, (sheet.number, record.text)
