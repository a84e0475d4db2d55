"""How a sheet of paper is divided, in u of the frame: the drawing above, and at its foot what every sheet carries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from app.drawing.frame.legend import MATCH, SAMPLE, Mark
from app.drawing.frame.paper import BLANK, Paper
from app.drawing.frame.title_block import CAUTION, SheetWords, wrapped
from app.drawing.surface.geometry import Box
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import NAME, SMALL, Font

ROW = 14
"""From one row of words to the next."""
PAD = 6
LEGEND_ROW = 17
LEGEND_GAP = 16
"""Between two marks of one row."""
SAMPLE_GAP = 8
LEGEND_HEAD = "Marks"
CAUTION_HEAD = "Caution"
TITLE_PART = 0.36
"""Which part of the foot the title block fills."""
TITLE_ROWS_MOST = 2
"""Into how many rows one thing in the title block is broken; what is longer than that gets an ellipsis."""
SHOWN_ROWS_MOST = 4
"""The same of what is shown, which without its end may be something else: a sequence ends when the last call does."""
KEY_WIDTH = 84
NAME_WIDEST = 72
"""A conductor with a longer name than fits into this gets an ellipsis beside a cut."""
LEVEL_WIDEST = 144
"""The same where marks are level above and below a sheet."""
MARK_GAP = 4
MARK_HIGH = 11
"""What level words fill of the height."""
EDGE_ROW = 14
"""What tells at a cut on which sheet the drawing goes on."""


@dataclass(frozen=True)
class Page:
    """Where things stand on a sheet.

    Attributes:
        paper: as it lies.
        border: the line around everything.
        area: where the drawing has its place.
        foot: below it, what every sheet carries.
        key: the room for the key plan, None where there is one sheet.
        title: the title block.
        words: its rows, each with its font.
        legend: rows of marks with their left ends in u from the left.
        caution: rows of words.
    """

    paper: Paper
    border: Box
    area: Box
    foot: Box
    key: Box | None
    title: Box
    words: tuple[tuple[str, Font], ...]
    legend: tuple[tuple[tuple[int, Mark], ...], ...]
    caution: tuple[str, ...]


def page_for(paper: Paper, marks: Sequence[Mark], words: SheetWords, *, several: bool, cut: bool = False) -> Page:
    """Return how a sheet is divided, for a drawing with these marks on one sheet or on ``several``.

    ``cut`` tells whether conductors may go on from sheet to sheet.
    """
    border = paper.in_u().grown(-BLANK, -BLANK, -BLANK, -BLANK)
    title_width = round(TITLE_PART * border.w)
    rows = tuple(_title_rows(words, title_width - 2 * PAD))
    legend_width = border.w - title_width - (KEY_WIDTH if several else 0) - 2 * PAD
    legend = _legend_rows([*marks, MATCH] if cut else marks, legend_width)
    caution = tuple(wrapped(CAUTION, SMALL, border.w - 3 * PAD - width_of(CAUTION_HEAD, NAME)))
    upper = max(ROW * (len(rows) + 1), LEGEND_ROW * len(legend)) + PAD
    height = upper + ROW * len(caution) + PAD
    foot = Box(border.x, border.bottom - height, border.w, height)
    title = Box(border.right - title_width, foot.y, title_width, upper)
    key = Box(title.x - KEY_WIDTH, foot.y, KEY_WIDTH, upper) if several else None
    area = Box(border.x, border.y, border.w, foot.y - border.y).grown(-PAD, -PAD, -PAD, -PAD)
    return Page(paper, border, area, foot, key, title, rows, legend, caution)


class MarkRoom(NamedTuple):
    """How much room marks need with what tells of the sheet beyond, in u of the frame: beside, and above or below."""

    beside: int
    along: int


def mark_room(labels: Iterable[str]) -> MarkRoom:
    """Return the room of these labels; above and below, words run from below to above."""
    widths = [width_of(label, SMALL) for label in labels]
    room = max(widths) + MARK_GAP + MARK_GAP + EDGE_ROW if widths else 0
    return MarkRoom(room, room)


LEVEL_ROOM = MARK_GAP + MARK_HIGH + MARK_GAP + EDGE_ROW
"""The room above or below where marks are level there."""


def mark_label(words: str, widest: int = NAME_WIDEST) -> str:
    """Return a mark as it is written beside a cut: a long name is shortened, the letter after it never."""
    name, _, letter = words.partition(" ")
    after = f" {letter}" if letter else ""
    return fitted(name, SMALL, widest - width_of(after, SMALL)) + after


def _title_rows(words: SheetWords, width: int) -> Iterator[tuple[str, Font]]:
    """Yield the rows of the title block but the one that counts the sheets, which comes last."""
    said = (
        (words.job, NAME, TITLE_ROWS_MOST),
        (words.layout, SMALL, TITLE_ROWS_MOST),
        (f"Shown: {words.situation}" if words.situation else "Shown: the wiring only", SMALL, SHOWN_ROWS_MOST),
        (f"Date: {words.dated}" if words.dated else "Date:", SMALL, TITLE_ROWS_MOST),
    )
    for one, font, most in said:
        rows = wrapped(one, font, width)
        if len(rows) > most:
            rows = [*rows[: most - 1], " ".join(rows[most - 1 :])]
        yield from ((fitted(row, font, width), font) for row in rows)


def _legend_rows(marks: Sequence[Mark], width: int) -> tuple[tuple[tuple[int, Mark], ...], ...]:
    """Return the marks in rows, each with its left end, the first row after the heading."""
    rows: list[list[tuple[int, Mark]]] = [[]]
    at = width_of(LEGEND_HEAD, NAME) + LEGEND_GAP
    for mark in marks:
        long = SAMPLE + SAMPLE_GAP + width_of(mark.meaning, SMALL)
        if at + long > width and (rows[-1] or at > 0):
            rows.append([])
            at = 0
        rows[-1].append((at, mark))
        at += long + LEGEND_GAP
    return tuple(map(tuple, rows))
