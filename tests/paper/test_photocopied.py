"""Photocopied twice: thin and heavy, whole and dashed, and the smallest capitals are still told apart, by measure."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.connection.diagram import connection_drawing
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.measured import inside
from app.drawing.frame.paper import FRAME_SCALE, KEEPING_WHOLE_MM, PAPERS, SMALLEST_CAPITAL_MM, smallest_scale
from app.drawing.frame.paper_frame import Counted
from app.drawing.frame.paper_sheet import paper_sheet, place_of
from app.drawing.frame.sheets import Sheet, SheetSet, on_paper
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import box_of_text, width_of
from app.drawing.surface.verbs import HEAVY, NOT_IN_USE, SMALL, THIN, Pen, Surface, Text
from app.paper.packet import PaperSheet
from tests.demo_jobs.demos import demo
from tests.paper.papers import WORDS
from tests.paper.photocopy import DARK, DOTS_A_TENTH_OF_MM, LIGHT, USUAL, Dots, copied_twice, dots_of

LEVEL = 40
"""How much of a level line is looked at, in u: so far nothing else may be near."""
NEAR = 5
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
CELL = 24


class Copy:
    """A sheet with its dots, copied twice."""

    def __init__(self, sheets: SheetSet, sheet: Sheet, folder: Path, knob: float) -> None:
        self.sheets, self.sheet = sheets, sheet
        svg = paper_sheet(sheets, sheet, WORDS, Counted(sheet.number, len(sheets.sheets)))
        place = place_of(sheets, sheet)
        self.part = Box(*(round(FRAME_SCALE * size * DOTS_A_TENTH_OF_MM) for size in place))
        self.printed = dots_of(PaperSheet(svg, sheets.page.paper, ""), self.part, folder)
        self.dots = copied_twice(self.printed, knob)

    def at(self, x: float, y: float) -> tuple[int, int]:
        """Return the row and column of a place of the drawing."""
        place, window = place_of(self.sheets, self.sheet), self.sheet.window
        across = FRAME_SCALE * place.x + (x - window.x) * FRAME_SCALE * place.w / window.w
        down = FRAME_SCALE * place.y + (y - window.y) * FRAME_SCALE * place.h / window.h
        return round(down * DOTS_A_TENTH_OF_MM) - self.part.y, round(across * DOTS_A_TENTH_OF_MM) - self.part.x

    def strip(self, left: Point, right: Point) -> Dots:
        """Return the dots around a level line."""
        (row, first), (_, last) = self.at(left.x, left.y), self.at(right.x, right.y)
        near = round(NEAR * self.sheets.scale * DOTS_A_TENTH_OF_MM)
        return self.dots[row - near : row + near + 1, first:last]


@cache
def live() -> Drawing:
    """Return a diagram with thin, heavy and dashed conductors."""
    opened = demo("post-office-dual-fuel")
    layout = opened.job.layouts["as-left"]
    point = solve(build_circuit(layout, opened.catalogue), situations_of(layout, opened.catalogue)[1])
    return connection_drawing(layout, opened.catalogue, point, "a call")


def sheets_at(drawing: Drawing, capitals_mm: float) -> SheetSet:
    """Return the sheets of a drawing at the scale at which its capitals are so high."""
    scaled = replace(drawing, scale=smallest_scale([SMALL], capitals_mm))
    return on_paper(scaled, PAPERS["letter"], "auto", WORDS)


def with_most(sheets: SheetSet, *pens: Pen) -> Sheet:
    """Return the sheet with the most lines to look at of every one of these pens."""
    return max(sheets.sheets, key=lambda sheet: min(len(level_lines(sheet, pen)) for pen in pens))


def level_lines(sheet: Sheet, pen: Pen) -> list[tuple[Point, Point]]:
    """Return level pieces of conductors drawn with a pen, beside which there is nothing."""
    texts = [box_of_text(r.text) for r in sheet.shown if r.text is not None]
    others = [box for r in sheet.shown if r.verb != "text" and (box := r.bounds()) is not None]
    upright = [s for r in sheet.shown if r.verb == "line" for a, b in pairwise(r.points) if a.x == b.x
               for s in [Box(a.x, min(a.y, b.y), 0, abs(a.y - b.y))]]  # fmt: skip
    small = [box for box in others if box.w < CELL and box.h < CELL]
    found = []
    for record in sheet.shown:
        if record.attributes.get("class") != "wire" or record.pen != pen:
            continue
        for a, b in pairwise(record.points):
            left, right = sorted((a, b))
            piece = Box(left.x + NEAR, left.y - NEAR, right.x - left.x - 2 * NEAR, 2 * NEAR)
            window = sheet.window
            if a.y != b.y or piece.w < LEVEL or not inside(piece, window):
                continue
            free = _free_part(piece, [*texts, *small, *upright])
            if free.w >= LEVEL:
                found.append((Point(free.x, left.y), Point(free.right, left.y)))
    return found


def _free_part(piece: Box, others: list[Box]) -> Box:
    """Return the longest part of a level strip into which nothing reaches."""
    edges = [(piece.x, piece.x), (piece.right, piece.right)]
    edges += [(box.x - NEAR, box.right + NEAR) for box in others if box.y <= piece.bottom and piece.y <= box.bottom]
    best, reached = Box(piece.x, piece.y, 0, piece.h), piece.x
    for start, end in sorted(edges):
        stop = min(start, piece.right)
        if stop - reached > best.w:
            best = Box(reached, piece.y, stop - reached, piece.h)
        reached = max(reached, end)
    return best


def widths(strip: Dots) -> Dots:
    """Return how many dots wide a line is at each place along it."""
    found: Dots = strip.sum(axis=0)
    return found


def dashes(strip: Dots) -> tuple[list[int], list[int]]:
    """Return how long the dashes and the gaps between them are, in dots, those at both ends left out."""
    inked = (strip.sum(axis=0) > 0).astype(int)
    turns = np.flatnonzero(np.diff(inked)) + 1
    runs = [(inked[a], int(b - a)) for a, b in pairwise(turns)]
    return [long for ink, long in runs if ink], [long for ink, long in runs if not ink]


@pytest.mark.parametrize("knob", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("capitals_mm", [SMALLEST_CAPITAL_MM, KEEPING_WHOLE_MM])
def test_thin_heavy_and_dashed_lines_are_told_apart(capitals_mm: float, knob: float, tmp_path: Path) -> None:
    sheets = sheets_at(live(), capitals_mm)
    solid = Copy(sheets, with_most(sheets, THIN, HEAVY), tmp_path, knob)
    thin, heavy = ([widths(solid.strip(*line)) for line in level_lines(solid.sheet, pen)] for pen in (THIN, HEAVY))
    assert min(len(thin), len(heavy)) >= 2
    broken = Copy(sheets, with_most(sheets, NOT_IN_USE), tmp_path, knob)
    dashed = level_lines(broken.sheet, NOT_IN_USE)
    assert len(dashed) >= 2
    dot = sheets.scale * DOTS_A_TENTH_OF_MM
    for inked, blank in (dashes(broken.strip(*line)) for line in dashed):
        assert len(inked) >= 2
        # What is drawn is 12 u of ink and 6 u of paper; a copier takes from one and gives to the other.
        assert all(12 * dot - 4 <= long <= 12 * dot + 4 for long in inked), inked
        assert all(6 * dot - 4 <= long <= 6 * dot + 4 for long in blank), blank
        assert min(blank) >= 2
    # A solid line has no gap anywhere, and no thin one comes near a heavy one.
    assert min(found.min() for found in thin) >= 1
    assert min(found.min() for found in heavy) >= 1.4 * max(found.max() for found in thin)


def test_no_thin_line_is_gone_wherever_it_lies_between_the_dots(tmp_path: Path) -> None:
    sheets, seen = sheets_at(live(), KEEPING_WHOLE_MM), 0
    for sheet in sheets.sheets:
        copy = Copy(sheets, sheet, tmp_path, LIGHT)
        for line in level_lines(sheet, THIN):
            assert widths(copy.strip(*line)).min() >= 1, (sheet.number, line)
            seen += 1
    assert seen >= 10


def alphabet(surface: Surface) -> None:
    """Write every capital and figure in the smallest lettering, each in a cell of its own."""
    for number, letter in enumerate(ALPHABET):
        surface.text(Text(cell_of(number), letter, SMALL, width_of(letter, SMALL)))


def cell_of(number: int) -> Point:
    return Point(CELL * (number % 12), CELL * (number // 12))


@pytest.mark.parametrize(
    ("capitals_mm", "knob"),
    [(SMALLEST_CAPITAL_MM, USUAL), (SMALLEST_CAPITAL_MM, DARK), (KEEPING_WHOLE_MM, DARK)],
    ids=["usual", "dark", "lower, dark"],
)
def test_the_smallest_capitals_are_taken_for_themselves(capitals_mm: float, knob: float, tmp_path: Path) -> None:
    """Each copied letter looks more like itself as printed than like any other.

    Where the knob is turned so that a dot needs more than half its ink, strokes of 0.26 mm begin to go, an L first;
    lower capitals, which only keep parts and rungs whole, want a copy that is a little dark.
    """
    content = Box(-CELL, -CELL, 14 * CELL, 5 * CELL)
    sheets = sheets_at(Drawing("Alphabet", content, (), "", alphabet), capitals_mm)
    copy = Copy(sheets, sheets.sheets[0], tmp_path, knob)
    printed = [_cell(copy, copy.printed, number, 0, 0) for number in range(len(ALPHABET))]
    taken = ""
    for number in range(len(ALPHABET)):
        shifted = [_cell(copy, copy.dots, number, i, j) for i in (-1, 0, 1) for j in (-1, 0, 1)]
        alike = [max(_alike(seen, one) for seen in shifted) for one in printed]
        taken += ALPHABET[int(np.argmax(alike))]
    assert taken == ALPHABET


def _alike(one: Dots, other: Dots) -> float:
    """Return how alike two pictures are, whatever ink both have lost: 1 for the same shape."""
    a, b = one - one.mean(), other - other.mean()
    long = float(np.sqrt((a * a).sum() * (b * b).sum()))
    return float((a * b).sum()) / long if long else 0.0


def _cell(copy: Copy, dots: Dots, number: int, down: int, across: int) -> Dots:
    at = cell_of(number)
    row, column = copy.at(at.x, at.y)
    unit = copy.sheets.scale * DOTS_A_TENTH_OF_MM
    high, wide = round(9 * unit), round(11 * unit)
    return dots[row - high + down : row + 2 + down, column - 1 + across : column + wide + across]


def test_what_is_too_small_to_be_read_is_noticed(tmp_path: Path) -> None:
    """The measure can tell: letters of a quarter of the height are taken for others."""
    with pytest.raises(AssertionError):
        test_the_smallest_capitals_are_taken_for_themselves(SMALLEST_CAPITAL_MM / 4, LIGHT, tmp_path)
