"""What frames a drawing on paper: border, match marks, legend, caution, key plan and title block, in u of the frame."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import NamedTuple

from app.drawing.frame.legend import MATCH_LINE, SAMPLE
from app.drawing.frame.page import (
    CAUTION_HEAD,
    LEGEND_HEAD,
    LEGEND_ROW,
    MARK_GAP,
    PAD,
    ROW,
    SAMPLE_GAP,
    Page,
    mark_label,
)
from app.drawing.frame.sheets import Edge, Sheet, SheetSet, Side
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import MARK, NAME, SMALL, THIN, Font, Surface, Text

CENTRE = 4
"""From the middle of small words down to their baseline."""
ABOVE = 9
BELOW = 2
"""What small words fill above and below their baseline."""
MARK_PITCH = 11
"""From one match mark to the next; where the drawing is printed smaller, conductors lie closer together."""
KEY_NUMBER = 12
"""A sheet that is smaller than this in the key plan has no number there."""


class Counted(NamedTuple):
    """Which sheet this is, of how many; a packet counts through all its views."""

    number: int
    of: int


def draw_paper_frame(
    surface: Surface, sheets: SheetSet, sheet: Sheet, place: Box, words: SheetWords, counted: Counted
) -> None:
    """Draw what frames a sheet. ``place`` is where its window lies, in u of the frame."""
    page = sheets.page
    surface.begin({"class": "frame"})
    surface.rect(page.border, MARK)
    surface.line((Point(page.foot.x, page.foot.y), Point(page.foot.right, page.foot.y)), THIN)
    for side in sorted(sheet.cut_sides):
        edges = [edge for edge in sheet.edges if edge.side == side]
        _side(surface, edges, sheet.window, place, counted.number - sheet.number)
    _legend(surface, page)
    _caution(surface, page)
    if page.key is not None:
        _key_plan(surface, sheets, sheet, page.key, counted.number - sheet.number)
    _title_block(surface, page, words, counted)
    surface.end()


def _side(surface: Surface, edges: Sequence[Edge], window: Box, place: Box, before: int) -> None:
    """Draw where a drawing goes on along one side: the cuts, the marks of what crosses, and the sheets."""
    # Where two sheets beyond overlap, both show what crosses there; the mark is written once.
    marks = sorted({(mark.at, mark.words) for edge in edges for mark in edge.marks})
    crossed = [_along(edges[0].side, at, window, place) for at, _words in marks]
    written = dict(zip(marks, zip(crossed, apart(crossed), strict=True), strict=True))
    beyond = MARK_GAP + max(width_of(mark_label(words), SMALL) for _at, words in marks) + MARK_GAP
    free = -sys.maxsize
    for edge in sorted(edges, key=lambda edge: edge.along):
        side, number = edge.side, str(edge.sheet + before)
        said = f"goes on: sheet {number}"
        surface.begin({"class": "cut", "data-side": side, "data-to-sheet": number}, said)
        line = _cut_line(edge, window, place)
        surface.line(line, MATCH_LINE)
        for mark in edge.marks:
            if (mark.at, mark.words) in written:
                _mark(surface, side, line[0], mark.words, written.pop((mark.at, mark.words)))
        half = (width_of(said, SMALL) + 1) // 2
        # Words of two edges that lie close together are moved apart.
        middle = max(_middle(side, line), free + half)
        surface.text(_edge_text(side, line[0], middle, beyond, said))
        free = middle + half + PAD
        surface.end()


def apart(places: Sequence[int]) -> list[int]:
    """Return places in order, moved so far that words have room beside each other, each as little as will do."""
    groups: list[tuple[int, int]] = []
    for place in places:
        # A group is how many words stand together, and the sum of where their first one would stand.
        count, total = 1, place
        while groups and groups[-1][1] / groups[-1][0] + groups[-1][0] * MARK_PITCH > total / count:
            before, sum_before = groups.pop()
            total, count = sum_before + total - count * before * MARK_PITCH, before + count
        groups.append((count, total))
    return [round(total / count) + step * MARK_PITCH for count, total in groups for step in range(count)]


def _leader(side: Side, on_line: Point, here: int, there: int) -> tuple[Point, Point]:
    """Return the line from where a conductor crosses to where its name stands."""
    out = (MARK_GAP - 1) * (1 if side in ("right", "bottom") else -1)
    if side in ("left", "right"):
        return Point(on_line.x, here), Point(on_line.x + out, there)
    return Point(here, on_line.y), Point(there, on_line.y + out)


def _mark(surface: Surface, side: Side, on_line: Point, words: str, places: tuple[int, int]) -> None:
    """Write a mark: where its conductor crosses, and where there is room for its name."""
    crosses, stands = places
    surface.begin({"data-match": words})
    if crosses != stands:
        surface.line(_leader(side, on_line, crosses, stands), THIN)
    surface.text(_mark_text(side, on_line, stands, mark_label(words)))
    surface.end()


def _middle(side: Side, line: tuple[Point, Point]) -> int:
    return (line[0].y + line[1].y) // 2 if side in ("left", "right") else (line[0].x + line[1].x) // 2


def _cut_line(edge: Edge, window: Box, place: Box) -> tuple[Point, Point]:
    start, end = (_along(edge.side, at, window, place) for at in edge.along)
    if edge.side in ("left", "right"):
        x = place.x if edge.side == "left" else place.right
        return Point(x, start), Point(x, end)
    y = place.y if edge.side == "top" else place.bottom
    return Point(start, y), Point(end, y)


def _along(side: Side, at: int, window: Box, place: Box) -> int:
    """Return where a coordinate of the drawing lies along an edge, in u of the frame."""
    if side in ("left", "right"):
        return place.y + round((at - window.y) * place.h / window.h)
    return place.x + round((at - window.x) * place.w / window.w)


def _mark_text(side: Side, on_line: Point, along: int, words: str) -> Text:
    width = width_of(words, SMALL)
    if side == "left":
        return Text(Point(on_line.x - MARK_GAP, along + CENTRE), words, SMALL, width, "end")
    if side == "right":
        return Text(Point(on_line.x + MARK_GAP, along + CENTRE), words, SMALL, width)
    if side == "top":
        return Text(Point(along + CENTRE, on_line.y - MARK_GAP), words, SMALL, width, upright=False)
    return Text(Point(along + CENTRE, on_line.y + MARK_GAP), words, SMALL, width, "end", upright=False)


def _edge_text(side: Side, on_line: Point, middle: int, beyond: int, words: str) -> Text:
    """Return the words outside the marks, which fill ``beyond`` u."""
    width = width_of(words, SMALL)
    if side in ("left", "right"):
        x = on_line.x + (beyond + ABOVE if side == "right" else -beyond - BELOW)
        return Text(Point(x, middle), words, SMALL, width, "middle", upright=False)
    y = on_line.y + (beyond + ABOVE if side == "bottom" else -beyond - BELOW)
    return Text(Point(middle, y), words, SMALL, width, "middle")


def _legend(surface: Surface, page: Page) -> None:
    surface.begin({"class": "legend"})
    x, y = page.foot.x + PAD, page.foot.y + PAD + LEGEND_ROW - ROW // 2
    _words(surface, Point(x, y), LEGEND_HEAD, NAME)
    for number, row in enumerate(page.legend):
        baseline = y + number * LEGEND_ROW
        for at, mark in row:
            surface.begin({"data-mark": mark.name})
            mark.draw(surface, Point(x + at, baseline - CENTRE))
            _words(surface, Point(x + at + SAMPLE + SAMPLE_GAP, baseline), mark.meaning, SMALL)
            surface.end()
    surface.end()


def _caution(surface: Surface, page: Page) -> None:
    surface.begin({"class": "caution"})
    left, top = page.foot.x, page.title.bottom
    surface.line((Point(left, top), Point(page.foot.right, top)), THIN)
    _words(surface, Point(left + PAD, top + ROW), CAUTION_HEAD, NAME)
    indent = left + 2 * PAD + width_of(CAUTION_HEAD, NAME)
    for number, row in enumerate(page.caution, start=1):
        _words(surface, Point(indent, top + number * ROW), row, SMALL)
    surface.end()


def _key_plan(surface: Surface, sheets: SheetSet, sheet: Sheet, key: Box, before: int) -> None:
    """Draw all sheets small as they lie beside each other, this one with a heavier edge."""
    surface.begin({"class": "key-plan"}, f"sheet {sheet.number} of the {len(sheets.sheets)} of this view")
    surface.rect(key, THIN)
    room, extent = key.grown(-PAD, -PAD, -PAD, -PAD), sheets.extent
    scale = min(room.w / extent.w, room.h / extent.h)
    left = room.x + round((room.w - extent.w * scale) / 2)
    top = room.y + round((room.h - extent.h * scale) / 2)
    for other in sorted(sheets.sheets, key=lambda one: one.number == sheet.number):
        window = other.window
        x, y = left + round((window.x - extent.x) * scale), top + round((window.y - extent.y) * scale)
        box = Box(x, y, max(1, round(window.w * scale)), max(1, round(window.h * scale)))
        surface.rect(box, MARK if other is sheet else THIN)
        _key_number(surface, box, other.number + before, other is sheet)
    surface.end()


def _key_number(surface: Surface, box: Box, number: int, here: bool) -> None:
    font = Font("words", SMALL.size, bold=here)
    width = width_of(str(number), font)
    if min(box.w - width, box.h) >= KEY_NUMBER - CENTRE:
        at = Point(box.x + box.w // 2, box.y + box.h // 2 + CENTRE)
        surface.text(Text(at, str(number), font, width, "middle"))


def _title_block(surface: Surface, page: Page, words: SheetWords, counted: Counted) -> None:
    surface.begin({"class": "title-block"})
    surface.rect(page.title, MARK)
    sheet = f"{words.view}, sheet {counted.number} of {counted.of}"
    for number, (row, font) in enumerate([*page.words, (sheet, SMALL)], start=1):
        _words(surface, Point(page.title.x + PAD, page.title.y + number * ROW), row, font)
    surface.end()


def _words(surface: Surface, at: Point, words: str, font: Font) -> None:
    if words:
        surface.text(Text(at, words, font, width_of(words, font)))
