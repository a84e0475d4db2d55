"""What frames a drawing: the title block, the legend of the marks in use, the standing caution."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.frame.legend import LEGEND_LINE, LEGEND_WIDTH, Mark, draw_legend
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import fitted, printable, width_of
from app.drawing.surface.verbs import MARK, NAME, SMALL, THIN, Font, Surface, Text
from app.job.model import Job

CAUTION = (
    "Open every disconnect that feeds a 24 V source here and prove each circuit dead, with a meter proved before and "
    "after, before a wire moves. Mains, charged capacitors, gas and refrigerant may be in the same cabinet. A larger "
    "fuse is never the cure; a safety is never left bypassed. Local code, the equipment's own papers and licensed "
    "practice come first."
)
BLOCK_WIDTH = 372
LINE = 15
BLOCK_ROW = LINE + 3
ROWS = 5
"""What stands in the title block, a row each where there is no room for more."""
EDGE = 24
GAP = 36
CAUTION_WIDTH = 372
UNITS = frozenset({"V", "VA", "A", "s", "m", "mm", "%", "AWG", "°C", "°F", "ohms", "volts", "amps"})
"""What stays on one row with the number before it."""


@dataclass(frozen=True)
class SheetWords:
    """The words of the title block."""

    job: str
    layout: str
    view: str
    dated: str
    situation: str


def sheet_words(job: Job, layout_name: str, view: str, dated: str, situation_words: str) -> SheetWords:
    """Return the words of the title block for a view of a layout."""
    return SheetWords(job.title, layout_words(job, layout_name), view, dated, situation_words)


def layout_words(job: Job, layout_name: str) -> str:
    """Return what people call a layout: its label, else ``as left`` for ``as-left``."""
    return job.layouts[layout_name].label or layout_name.replace("-", " ")


def changes_words(job: Job, before: str) -> str:
    """Return what a drawing of two layouts shows, as the title block says it."""
    return f"what changed since “{layout_words(job, before)}”"


def sheet_around(content: Box, marks: Sequence[Mark]) -> Box:
    """Return the edge of the sheet around ``content`` with room for what frames it."""
    width = max(content.w, BLOCK_WIDTH + GAP + CAUTION_WIDTH + GAP + LEGEND_WIDTH) + 2 * EDGE
    return Box(content.x - EDGE, content.y - EDGE, width, content.h + 2 * EDGE + GAP + _foot_height(marks))


def draw_frame(surface: Surface, sheet: Box, marks: Sequence[Mark], words: SheetWords) -> None:
    """Draw the edge of the sheet and, along its foot, legend, caution and title block."""
    surface.begin({"class": "frame"})
    surface.rect(sheet, THIN)
    surface.rect(sheet.grown(-6, -6, -6, -6), MARK)
    foot = sheet.bottom - EDGE - _foot_height(marks)
    draw_legend(surface, Point(sheet.x + EDGE, foot), marks)
    block = Box(sheet.right - EDGE - BLOCK_WIDTH, foot, BLOCK_WIDTH, 7 * LINE)
    _title_block(surface, block, words, (_foot_height(marks) - block.h) // BLOCK_ROW)
    _caution(surface, Point(sheet.right - EDGE - BLOCK_WIDTH - GAP - CAUTION_WIDTH, foot))
    surface.end()


def _foot_height(marks: Sequence[Mark]) -> int:
    return max(7 * LINE, LEGEND_LINE * (len(marks) + 1))


def _title_block(surface: Surface, box: Box, words: SheetWords, spare: int) -> None:
    """Draw the title block. What is shown may fill ``spare`` more rows, beside a legend that is high anyhow."""
    shown = wrapped(f"Shown: {words.situation}" if words.situation else "Shown: the wiring only", SMALL, box.w - 24)
    last = " ".join(shown[spare:])
    rows = (
        (words.job, NAME),
        (words.layout, SMALL),
        (f"{words.view}, sheet 1 of 1", SMALL),
        (f"Date: {words.dated}" if words.dated else "Date:", SMALL),
        *((row, SMALL) for row in (*shown[:spare], *((last,) if last else ()))),
    )
    surface.begin({"class": "title-block"})
    surface.rect(box.grown(0, 0, 0, BLOCK_ROW * max(0, len(rows) - ROWS)), MARK)
    for number, (row, font) in enumerate(rows):
        _line(surface, Point(box.x + 12, box.y + 20 + number * BLOCK_ROW), row, font, box.w - 24)
    surface.end()


def _caution(surface: Surface, at: Point) -> None:
    surface.begin({"class": "caution"})
    _line(surface, Point(at.x, at.y + 12), "Caution", NAME, CAUTION_WIDTH)
    for number, row in enumerate(wrapped(CAUTION, SMALL, CAUTION_WIDTH), start=1):
        _line(surface, Point(at.x, at.y + 14 + number * LINE), row, SMALL, CAUTION_WIDTH)
    surface.end()


def _line(surface: Surface, at: Point, words: str, font: Font, most: int) -> None:
    shown = fitted(words, font, most)
    if shown:
        surface.text(Text(at, shown, font, width_of(shown, font)))


def wrapped(words: str, font: Font, most: int) -> list[str]:
    """Return the words in rows that are no wider than ``most``.

    Where there is room, a number stays with what it counts and a unit with its number: ``heat 1``, ``24 V``.
    """
    rows: list[str] = []
    for word in printable(words).split(" "):
        if rows and width_of(f"{rows[-1]} {word}", font) <= most:
            rows[-1] = f"{rows[-1]} {word}"
            continue
        row, _, last = rows[-1].rpartition(" ") if rows else ("", "", "")
        if row and _belong_together(last, word) and width_of(f"{last} {word}", font) <= most:
            rows[-1:] = [row, f"{last} {word}"]
        else:
            rows.append(word)
    return rows


def _belong_together(one: str, other: str) -> bool:
    return (one.isalpha() and other[:1].isdigit()) or (one[-1:].isdigit() and other.rstrip(".,;:)") in UNITS)
