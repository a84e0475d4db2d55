"""Parts and cables as tables: what a wire list does not say of a layout, so that it can be read back whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.job.model import Layout
from app.tables.columns import CABLE_COLUMNS, PART_COLUMNS, headings
from app.tables.csv_text import Value, csv_text
from app.tables.natural_order import natural_key
from app.tables.settings_text import settings_text


@dataclass(frozen=True)
class Table:
    """Headings and rows; a figure or text that is not said is None."""

    headings: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]

    def csv(self) -> str:
        """Return the table as CSV, which ``job_from_tables`` reads back."""
        return csv_text(self.headings, self.rows)

    def words(self) -> list[Sequence[str]]:
        """Return headings and rows as people read them."""
        return [self.headings, *(tuple("" if cell is None else str(cell) for cell in row) for row in self.rows)]


def parts_table(layout: Layout) -> Table:
    """Return the parts of a layout: kind, label, place, air stream, place on the sheet, settings, note.

    Settings hold what differs from the kind: figures, fitted or removed jumpers, positions of switches.
    """
    return Table(headings(PART_COLUMNS), tuple(_part(layout, part) for part in sorted(layout.parts, key=natural_key)))


def cables_table(layout: Layout) -> Table:
    """Return the cables of a layout: label, gauge, length, note."""
    names = sorted(layout.cables, key=natural_key)
    cables = ((name, layout.cables[name]) for name in names)
    rows = tuple((name, each.label or None, each.size_awg, each.length_m, each.note or None) for name, each in cables)
    return Table(headings(CABLE_COLUMNS), rows)


def _part(layout: Layout, name: str) -> tuple[Value, ...]:
    part = layout.parts[name]
    x, y = part.at if part.at is not None else (None, None)
    settings = settings_text(part.settings) or None
    return name, part.kind, part.label or None, part.place, part.air, x, y, settings, part.note or None
