"""A drawing on one sheet as large as it needs, as it stands on a screen."""

from __future__ import annotations

from app.drawing.frame.drawing import Drawing
from app.drawing.frame.title_block import SheetWords, draw_frame, sheet_around
from app.drawing.surface.svg_writer import SvgWriter


def one_sheet(drawing: Drawing, words: SheetWords) -> str:
    """Return a drawing with its frame as SVG text; the same input gives the same bytes."""
    sheet = sheet_around(drawing.content, drawing.marks)
    writer = SvgWriter()
    drawing.put(writer)
    writer.begin({"data-layer": "sheet"})
    draw_frame(writer, sheet, drawing.marks, words)
    writer.end()
    sort = drawing.view.lower()
    return writer.document(sheet, f"{words.job}, {words.layout}: {sort}", drawing.description, sort=sort)
