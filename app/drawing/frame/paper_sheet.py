"""One sheet of paper as SVG: the frame at its own scale, and the window of the drawing at the drawing's."""

from __future__ import annotations

from dataclasses import replace

from app.drawing.frame.paper import FRAME_SCALE, THINNEST_LINE
from app.drawing.frame.paper_frame import Counted, draw_paper_frame
from app.drawing.frame.sheets import Sheet, SheetSet
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Record, replay_records
from app.drawing.surface.svg_writer import SvgWriter


def paper_sheet(sheets: SheetSet, sheet: Sheet, words: SheetWords, counted: Counted) -> str:
    """Return a sheet as SVG text as large as the paper; the same input gives the same bytes."""
    place = place_of(sheets, sheet)
    whole = sheets.page.paper.in_u()
    writer = SvgWriter()
    writer.begin_window(_tenths(place), sheet.window)
    replay_records((_seen_on_copies(record, sheets.scale) for record in sheet.shown), writer)
    writer.end()
    writer.begin_window(_tenths(whole), whole)
    draw_paper_frame(writer, sheets, sheet, place, words, counted)
    writer.end()
    paper = sheets.page.paper
    view, size = Box(0, 0, paper.width, paper.height), (f"{paper.width / 10}mm", f"{paper.height / 10}mm")
    sort = words.view.lower()
    return writer.document(view, title_of(words, counted), sheets.drawing.description, size, sort)


def _seen_on_copies(record: Record, scale: float) -> Record:
    """Return what was drawn with its line as wide as a copier needs it, where it is drawn small."""
    least = THINNEST_LINE / scale
    if record.pen is None or record.pen.width >= least:
        return record
    return replace(record, pen=record.pen._replace(width=round(least, 2)))


def title_of(words: SheetWords, counted: Counted) -> str:
    """Return what a reader hears first."""
    return f"{words.job}, {words.layout}: {words.view.lower()}, sheet {counted.number} of {counted.of}"


def place_of(sheets: SheetSet, sheet: Sheet) -> Box:
    """Return where the window of a sheet lies on the paper, in u of the frame: in the middle, but for its cut sides.

    At a cut the window goes as far out as the marks leave room, so that sheets can be laid beside each other. A list
    begins at the upper end.
    """
    area = sheets.page.area
    room = sheets.room
    w = round(sheet.window.w * sheets.scale / FRAME_SCALE)
    h = round(sheet.window.h * sheets.scale / FRAME_SCALE)
    x = _start(area.x, area.w, w, room.beside, "left" in sheet.cut_sides, "right" in sheet.cut_sides)
    y = _start(area.y, area.h, h, room.along, "top" in sheet.cut_sides, "bottom" in sheet.cut_sides)
    if sheets.drawing.from_above:
        y = area.y
    return Box(x, y, w, h)


def _start(start: int, length: int, filled: int, room: int, before: bool, after: bool) -> int:
    if before and not after:
        return start + room
    if after and not before:
        return start + length - room - filled
    return start + (length - filled) // 2


def _tenths(box: Box) -> Box:
    return Box(box.x * FRAME_SCALE, box.y * FRAME_SCALE, box.w * FRAME_SCALE, box.h * FRAME_SCALE)
