"""Rows as CSV (RFC 4180): a heading row, comma, CR LF, quotation marks where they are needed."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from app.tables.guard import guarded

Value = str | int | float | None
"""What a cell holds. None leaves it empty; an empty text is written as one that is meant."""


def csv_text(headings: Sequence[str], rows: Iterable[Sequence[Value]]) -> str:
    """Return a table as CSV. Texts are guarded; figures are written so that reading gives the same figure."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(headings)
    for row in rows:
        writer.writerow([guarded(value) if isinstance(value, str) else figure_text(value) for value in row])
    return out.getvalue()


def figure_text(value: float | None) -> str:
    """Return a figure with no more digits than it needs: ``14``, ``14.5``."""
    if value is None:
        return ""
    short = f"{value:g}"
    return short if float(short) == value else repr(value)
