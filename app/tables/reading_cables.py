"""Cables, from their own table or from what the wire list says of their conductors.

Rules of the file: the conductors of a cable share gauge and length, so a person fills a cell once for each cable; an
empty cell means what the others of the cable say. ``not said`` for a length means that there is none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from app.job.refusal import Refused
from app.tables.cell import Cell, Row, quoted
from app.tables.ends import id_of
from app.tables.figures import NOT_SAID, length_cell, length_m, size_awg

Figure = float | int | None


def cables_of_table(rows: Sequence[Row]) -> dict[str, dict[str, Any]]:
    """Return the cables of a table as they stand in a document, by id.

    Raises:
        Refused: a cell cannot be read, or an id stands twice.
    """
    found: dict[str, dict[str, Any]] = {}
    seen: dict[str, Cell] = {}
    for row in rows:
        cable = id_of(row["cable"], "cable", "cb")
        refuse_repeated(cable, row["cable"], seen, "cable")
        said = {"label": row["label"].text, "size_awg": size_awg(row), "length_m": length_m(row)}
        said["note"] = row["note"].text
        found[cable] = {name: value for name, value in said.items() if value not in (None, "")}
    return found


def cables_of_wires(rows: Sequence[Row]) -> dict[str, dict[str, Any]]:
    """Return the cables that a wire list names, with the gauge and length that most of their conductors have.

    Raises:
        Refused: a cell cannot be read, or is empty where the others of the cable say different things.
    """
    of_cable: dict[str, list[Row]] = {}
    for row in rows:
        if row["cable"].words:
            of_cable.setdefault(id_of(row["cable"], "cable", "cb"), []).append(row)
    return {name: _cable(name, members) for name, members in of_cable.items()}


def refuse_repeated(name: str, cell: Cell, seen: dict[str, Cell], what: str) -> None:
    """Refuse an id that an earlier row has, and remember where it stands."""
    if name in seen:
        raise cell.refuse("repeated-id", f"the {what} {name} stands in row {seen[name].row} already.", "each id once")
    seen[name] = cell


def _cable(name: str, rows: Sequence[Row]) -> dict[str, Any]:
    said = {"size_awg": _shared(name, rows, "size_awg", size_awg), "length_m": None}
    if not any(length_cell(row).words == NOT_SAID for row in rows):
        said["length_m"] = _shared(name, rows, "length", length_m)
    return {field: value for field, value in said.items() if value is not None}


def _shared(name: str, rows: Sequence[Row], field: str, read: Callable[[Row], Figure]) -> Figure:
    """Return the figure of most rows, the first of several; empty cells are of no weight."""
    figures = [read(row) for row in rows]
    counts = Counter(figure for figure in figures if figure is not None)
    if len(counts) > 1 and None in figures:
        raise _undecided(name, rows[figures.index(None)], field, counts)
    return counts.most_common(1)[0][0] if counts else None


def _undecided(name: str, row: Row, field: str, counts: Mapping[float | int, int]) -> Refused:
    cell = row["size_awg"] if field == "size_awg" else length_cell(row)
    listed = " and ".join(f"{figure:g}" for figure in sorted(counts))
    message = f"nothing stands here, and other conductors of the cable {name} have {listed}."
    right = f"one of them here{'' if field == 'size_awg' else f', or {quoted(NOT_SAID)}'}"
    return cell.refuse("undecided", message, right)
