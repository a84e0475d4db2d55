"""What frames a drawing on paper: border, match marks, legend, caution, key plan and title block, in u of the frame."""

from __future__ import annotations

from typing import NamedTuple

from app.drawing.frame.draw_edges import EdgePen
from app.drawing.frame.legend import SAMPLE
from app.drawing.frame.page import (
    CAUTION_HEAD,
    LEGEND_HEAD,
    LEGEND_ROW,
    PAD,
    ROW,
    SAMPLE_GAP,
    Page,
)
from app.drawing.frame.sheets import Sheet, SheetSet
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import box_of_text, fitted, width_of
from app.drawing.surface.verbs import MARK, NAME, SMALL, THIN, Font, Surface, Text

TO = " to "
"""Between the first and the last of what stands on a sheet, or in a block of a list."""
CENTRE = 4
"""From the middle of small words down to their baseline."""
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
        EdgePen(surface, sheets, sheet.window, place, sheet.cut_sides).side(edges, counted.number - sheet.number)
    _legend(surface, page)
    _caution(surface, page)
    if page.key is not None and len(sheets.sheets) > 1:
        _key_plan(surface, sheets, sheet, page.key, counted.number - sheet.number)
    room = page.title.w - 2 * PAD - width_of(_which_sheet(words, counted), SMALL)
    _title_block(surface, page, words, counted, _from_to(sheets, sheet, room))
    surface.end()


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
    room, extent = key.grown(-PAD, -PAD, -PAD, -PAD), sheets.extent
    scale = min(room.w / extent.w, room.h / extent.h)
    left = room.x + round((room.w - extent.w * scale) / 2)
    top = room.y + round((room.h - extent.h * scale) / 2)
    boxes: list[Box] = []
    numbers: list[Text] = []
    for other in sorted(sheets.sheets, key=lambda one: one.number != sheet.number):
        window = other.window
        x, y = left + round((window.x - extent.x) * scale), top + round((window.y - extent.y) * scale)
        box = Box(x, y, max(1, round(window.w * scale)), max(1, round(window.h * scale)))
        boxes.append(box)
        number = _key_number(box, other.number + before, other is sheet)
        # Where sheets overlap so far that their numbers would, the one that is being read keeps its own.
        if number is not None and not any(box_of_text(number).overlaps(box_of_text(one)) for one in numbers):
            numbers.append(number)
    if not numbers:
        # So many sheets that none can be told from the next: how many there are stands in the title block.
        return
    surface.begin({"class": "key-plan"}, f"sheet {sheet.number} of the {len(sheets.sheets)} of this view")
    surface.rect(key, THIN)
    for place, box in enumerate(boxes):
        surface.rect(box, THIN if place else MARK)
    for number in numbers:
        surface.text(number)
    surface.end()


def _key_number(box: Box, number: int, here: bool) -> Text | None:
    font = Font("words", SMALL.size, bold=here)
    width = width_of(str(number), font)
    if min(box.w - width, box.h) < KEY_NUMBER - CENTRE:
        return None
    at = Point(box.x + box.w // 2, box.y + box.h // 2 + CENTRE)
    return Text(at, str(number), font, width, "middle")


def _from_to(sheets: SheetSet, sheet: Sheet, room: int) -> str:
    """Return from which to which head a sheet leads: ``: fb to tc``, ``: Cable cb1 to cb3``; nothing without heads.

    What stands below a head may lead from row to row, as ``Parts, ah6 to db14`` does; without room for that only the
    heads are told.
    """
    heads = sheets.drawing.heads
    here = [heads[box] for box in sorted(heads, key=lambda box: (box.y, box.x)) if box.overlaps(sheet.window)]
    if not here or len(sheets.sheets) == 1:
        return ""
    begins, ends = here[0].partition(TO)[0], here[-1]
    stem, to, name = ends.partition(TO)
    told = _span(begins, f"{stem.rpartition(' ')[0]} {name}" if to else ends)
    return told if width_of(told, SMALL) <= room else _span(begins.partition(",")[0], ends.partition(",")[0])


def _span(first: str, last: str) -> str:
    what, _, name = last.rpartition(" ")
    return f": {first}" if first == last else f": {first}{TO}{name if first.startswith(f'{what} ') else last}"


def _which_sheet(words: SheetWords, counted: Counted) -> str:
    return f"{words.view}, sheet {counted.number} of {counted.of}"


def _title_block(surface: Surface, page: Page, words: SheetWords, counted: Counted, from_to: str) -> None:
    surface.begin({"class": "title-block"})
    surface.rect(page.title, MARK)
    sheet = fitted(f"{_which_sheet(words, counted)}{from_to}", SMALL, page.title.w - 2 * PAD)
    for number, (row, font) in enumerate([*page.words, (sheet, SMALL)], start=1):
        _words(surface, Point(page.title.x + PAD, page.title.y + number * ROW), row, font)
    surface.end()


def _words(surface: Surface, at: Point, words: str, font: Font) -> None:
    if words:
        surface.text(Text(at, words, font, width_of(words, font)))
