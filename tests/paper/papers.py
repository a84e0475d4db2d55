"""What the tests of paper share: the drawings that are cut, and what stands on their sheets."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.drawing.connection.diagram import connection_drawing
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.paper_frame import Counted, draw_paper_frame
from app.drawing.frame.paper_sheet import place_of
from app.drawing.frame.sheets import Sheet, SheetSet, on_paper
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.text_width import box_of_text
from app.job.model import Layout
from app.tables.wire_rows import roles_in
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout

WORDS = SheetWords("Mill house", "as left", "Connection diagram", "2031-05-06", "")
BY_CHANCE = ((1, 20),)
"""Seeds and parts of layouts made by chance, which are harder to cut than any that a person draws."""
SLOW_BY_CHANCE = ((2, 20), (3, 45), (7, 100))


def cases() -> Iterator[pytest.ParameterSet]:
    """Yield every layout of every demo, and layouts by chance."""
    for name, layout in layouts():
        yield pytest.param(name, layout, id=f"{name}-{layout}")
    for seed, parts in BY_CHANCE:
        yield pytest.param(seed, parts, id=f"by-chance-{seed}-{parts}-parts")
    for seed, parts in SLOW_BY_CHANCE:
        yield pytest.param(seed, parts, id=f"by-chance-{seed}-{parts}-parts", marks=pytest.mark.slow)


@cache
def layout_of(name: str | int, which: str | int) -> tuple[Layout, Catalogue]:
    """Return the layout of a case with its kinds."""
    if isinstance(name, int):
        return generated_layout(name, int(which)), CATALOGUE
    return demo(name).job.layouts[str(which)], demo(name).catalogue


@cache
def drawing_of(name: str | int, which: str | int) -> Drawing:
    """Return the connection diagram of a case."""
    layout, catalogue = layout_of(name, which)
    return connection_drawing(layout, catalogue, roles=roles_in(build_circuit(layout, catalogue)))


@cache
def sheets_of(name: str | int, which: str | int, paper: str = "letter") -> SheetSet:
    """Return the sheets of a case."""
    return on_paper(drawing_of(name, which), PAPERS[paper], "auto", WORDS)


def framed(sheets: SheetSet, sheet: Sheet) -> Recorder:
    """Return what frames a sheet."""
    recorder = Recorder()
    place = place_of(sheets, sheet)
    draw_paper_frame(recorder, sheets, sheet, place, WORDS, Counted(sheet.number, len(sheets.sheets)))
    return recorder


def inked(record: Record) -> Box:
    """Return the box of words without the blank above their capitals, since marks stand one lane apart."""
    assert record.text is not None
    box, blank = box_of_text(record.text), 2
    return box.grown(0, -blank, 0, 0) if record.text.upright else box.grown(-blank, 0, 0, 0)


def words_on(sheet: Sheet) -> set[str]:
    """Return the words that stand on a sheet, but for its frame."""
    return {record.text.words for record in sheet.shown if record.text is not None}
