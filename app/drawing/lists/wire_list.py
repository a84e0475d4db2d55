"""The wire list on paper: cable by cable, and below it what each part is."""

from __future__ import annotations

from collections.abc import Mapping

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.drawing.frame.drawing import Drawing
from app.drawing.lists.marks import INSULATION_CODE, TERMINAL_NAME
from app.drawing.lists.table import BETWEEN, Column, Group, Row, drawing_of, plan_table
from app.drawing.lists.words import cable_words, called, length_words, part_words
from app.drawing.surface.geometry import Point, up_to_grid
from app.drawing.surface.verbs import LETTER, Font
from app.job.model import Layout
from app.job.names import short_names
from app.job.temperatures import Units
from app.tables.natural_order import natural_key
from app.tables.wire_rows import By, WireGroup, WireRow, grouped, wire_rows

VIEW = "Wire list"
NAMES = Font(LETTER.family, 10)
COLUMNS = (
    Column("wire", 72, NAMES),
    Column("insulation", 60),
    Column("from", 96, NAMES),
    Column("to", 96, NAMES),
    Column("cable", 60, NAMES),
    Column("AWG", 34),
    Column("length", 80),
    Column("what it is for", 260, flexible=True),
    Column("note", 220, flexible=True),
)
PART_COLUMNS = (
    Column("part", 110, NAMES),
    Column("what it is", 260, flexible=True),
    Column("kind", 260, flexible=True),
    Column("place", 160),
)
MARKS = (TERMINAL_NAME, INSULATION_CODE)
ORIGIN = Point(0, 0)


def wire_list_drawing(
    layout: Layout, catalogue: Catalogue, roles: Mapping[str, str], by: By = "cable", units: Units = "si"
) -> Drawing:
    """Return the wire list of a layout, to be put on sheets; ``roles`` says what each conductor is for, in words.

    ``units`` are those of the job, in which lengths are told first.
    """
    groups = grouped(wire_rows(layout, roles), by, layout, catalogue)
    names = short_names(layout.conductors)
    wires = plan_table(COLUMNS, [_group(group, by, layout, catalogue, names, units) for group in groups], ORIGIN)
    below = Point(0, up_to_grid(wires.box.bottom + BETWEEN))
    tables = (wires, plan_table(PART_COLUMNS, [_parts(layout, catalogue)], below))
    parts = ", ".join(part_words(layout, catalogue, part) for part in sorted(layout.parts))
    return drawing_of(
        VIEW, tables, MARKS, f"{counted(len(layout.conductors), 'conductor')}. Parts: {parts}.", looked_up=True
    )


def _group(
    group: WireGroup, by: By, layout: Layout, catalogue: Catalogue, names: Mapping[str, str], units: Units
) -> Group:
    rows = tuple(_row(row, by, names, units) for row in group.rows)
    if by == "cable":
        return Group(cable_words(group.of, layout.cables.get(group.of)), rows)
    if by == "part":
        return Group(part_words(layout, catalogue, group.of) if group.of else "Landed on no part", rows)
    return Group("Conductors", rows)


def _row(row: WireRow, by: By, names: Mapping[str, str], units: Units) -> Row:
    cable = "" if by == "cable" else row.cable
    length = row.length_words() if row.others_have_length else length_words(row.length_m, units)
    size = "" if row.size_awg is None else str(row.size_awg)
    cells = (names[row.conductor], row.insulation, row.from_, row.to, cable, size, length, row.role, row.note)
    return Row(cells, {"data-conductor": row.conductor})


def _parts(layout: Layout, catalogue: Catalogue) -> Group:
    rows = []
    for part in sorted(layout.parts, key=natural_key):
        kind = catalogue.kind_of(layout.parts[part])
        title = kind.title if kind is not None else "not known"
        place = layout.parts[part].place
        cells = (part, called(layout, catalogue, part), title, "" if place == "main" else place)
        rows.append(Row(cells, {"data-part": part}))
    return Group("Parts", tuple(rows))
