"""The terminal list on paper: part by part, screw by screw, with the volts of a situation where one is given."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.circuit.operating_point import OperatingPoint
from app.drawing.frame.drawing import Drawing
from app.drawing.lists.marks import INSULATION_CODE, TERMINAL_NAME
from app.drawing.lists.table import Column, Group, Row, drawing_of, plan_table
from app.drawing.lists.words import part_words
from app.drawing.surface.geometry import Point
from app.drawing.surface.verbs import LETTER, Font
from app.job.model import Layout
from app.job.names import letter_of, part_of, short_names
from app.tables.terminal_rows import TerminalRow, terminal_rows

VIEW = "Terminal list"
NAMES = Font(LETTER.family, 10)
COLUMNS = (
    Column("screw", 84, Font(LETTER.family, 10, bold=True)),
    Column("what it is for", 260, flexible=True),
    Column("landed", 100, NAMES),
    Column("insulation", 60),
    Column("other end", 120, NAMES),
    Column("jumper", 150, flexible=True),
    Column("volts", 110),
)
MARKS = (TERMINAL_NAME, INSULATION_CODE)


def terminal_list_drawing(
    layout: Layout,
    catalogue: Catalogue,
    point: OperatingPoint | None = None,
    situation_words: str = "",
    roles: Mapping[str, str] | None = None,
) -> Drawing:
    """Return the terminal list of a layout, to be put on sheets; with an operating point it has the volts there.

    ``roles`` says what each conductor is for, in words.
    """
    rows = terminal_rows(layout, catalogue, point, roles)
    names = short_names(layout.conductors)
    groups = [
        Group(part_words(layout, catalogue, part), tuple(_row(row, names) for row in of_part))
        for part, of_part in groupby(rows, key=lambda row: part_of(row.terminal))
    ]
    shown = f" Shown: {situation_words}." if situation_words else ""
    description = f"{counted(len(rows), 'terminal')} of {counted(len(groups), 'part')}.{shown}"
    return drawing_of(VIEW, (plan_table(COLUMNS, groups, Point(0, 0)),), MARKS, description, looked_up=True)


def _row(row: TerminalRow, names: Mapping[str, str]) -> Row:
    """Return the row of a screw, with a line for each conductor on it."""
    landed, insulation, other_end = zip(*row.lines(), strict=True)
    called = "\n".join(names.get(each, each) for each in landed)
    cells = (called, "\n".join(insulation) if any(insulation) else "", "\n".join(other_end))
    key = {"data-terminal": row.terminal}
    return Row((letter_of(row.terminal), row.use, *cells, "; ".join(row.jumpers), row.volts), key)
