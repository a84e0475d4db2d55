"""A packet: the sheets of one view of a layout, or of several, counted through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from app.drawing.frame.drawing import Drawing
from app.drawing.frame.paper import Paper, Turn
from app.drawing.frame.paper_frame import Counted
from app.drawing.frame.paper_sheet import paper_sheet, title_of
from app.drawing.frame.sheets import can_keep_whole, fits_one_sheet, on_paper, too_many_sheets
from app.drawing.frame.title_block import SheetWords

MOST_SHEETS = 250
"""A packet of a thousand parts at the usual lettering would be larger; nobody would carry it."""


@dataclass(frozen=True)
class PaperSheet:
    """One finished sheet: its SVG, the paper as it lies, and what a reader hears of it."""

    svg: str
    paper: Paper
    words: str


@dataclass(frozen=True)
class Packet:
    """Sheets that belong together."""

    title: str
    sheets: tuple[PaperSheet, ...]


@dataclass(frozen=True)
class Wanted:
    """What paper is wanted: its size, how it lies, and the least height of capitals, None for the usual one."""

    paper: Paper
    turn: Turn | Literal["auto"] = "auto"
    capitals_mm: float | None = None


def packet(drawn: Sequence[tuple[Drawing, SheetWords]], wanted: Wanted) -> Packet:
    """Return drawings of one layout on sheets, each with the words of its title block; counted through.

    The same input gives the same bytes.

    Raises:
        Refused: there would be more sheets than anybody prints.
    """
    parts = [(part, words) for drawing, words in drawn for part in _parts(drawing, words, wanted)]
    sets = [
        on_paper(drawing, wanted.paper, wanted.turn, words, wanted.capitals_mm, MOST_SHEETS) for drawing, words in parts
    ]
    of = sum(len(one.sheets) for one in sets)
    if of > MOST_SHEETS:
        raise too_many_sheets(of, MOST_SHEETS, wanted.paper)
    made: list[PaperSheet] = []
    for one, (drawing, words) in zip(sets, parts, strict=True):
        for sheet in one.sheets:
            counted = Counted(len(made) + 1, of)
            spoken = f"{title_of(words, counted)}. {drawing.description}"
            made.append(PaperSheet(paper_sheet(one, sheet, words, counted), one.page.paper, spoken))
    first = drawn[0][1]
    return Packet(f"{first.job}, {first.layout}", tuple(made))


def _parts(drawing: Drawing, words: SheetWords, wanted: Wanted) -> tuple[Drawing, ...]:
    """Return the drawings that have sheets of their own."""
    if not drawing.apart or fits_one_sheet(drawing, wanted.paper, wanted.turn, words, wanted.capitals_mm):
        return (drawing,)
    return tuple(each for part in drawing.apart for each in _kept_whole(part, words, wanted))


def _kept_whole(drawing: Drawing, words: SheetWords, wanted: Wanted) -> tuple[Drawing, ...]:
    """Return a drawing, or what is put in its place where something of it would be whole on no sheet."""
    if not drawing.apart or can_keep_whole(drawing, wanted.paper, wanted.turn, words, wanted.capitals_mm):
        return (drawing,)
    return tuple(each for part in drawing.apart for each in _kept_whole(part, words, wanted))
