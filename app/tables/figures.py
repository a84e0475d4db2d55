"""Figures of a cell: gauge, length, coordinates, with the units and signs that people write beside them."""

from __future__ import annotations

import re

from app.job.refusal import Refused
from app.tables.cell import Cell, Row, quoted

METRES_PER_FOOT = 0.3048
"""Exact, by the international yard of 1959."""
LEAST_AWG, MOST_AWG = 10, 30
MOST_METRES = 1000
MOST_COORDINATE = 100_000
NOT_SAID = "not said"
"""Stands for the length of a conductor that has none although others of its cable have one."""

_FIGURE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII)
_THOUSANDS = re.compile(r"\d,\d{3}$", re.ASCII)
_GAUGE = re.compile(
    r"(?:awg\s*|#\s*|no\.?\s*)?(\d{1,3})(?:\.0+)?(?:\s*(?:awg|ga|gauge|#))?\.?", re.ASCII | re.IGNORECASE
)
_UNITS = {"m": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0, "meters": 1.0}
_UNITS |= dict.fromkeys(("ft", "foot", "feet", "'", "′"), METRES_PER_FOOT)


def size_awg(row: Row) -> int | None:
    """Return the gauge of a row, None where its cell is empty: ``18``, ``18 AWG``, ``#18``, ``18 ga``.

    Raises:
        Refused: ``bad-number``.
    """
    cell = row["size_awg"]
    if not cell.words:
        return None
    found = _GAUGE.fullmatch(cell.words)
    size = int(found[1]) if found else 0
    if not LEAST_AWG <= size <= MOST_AWG:
        raise cell.refuse(
            "bad-number",
            f"{quoted(cell.words)} is no gauge.",
            f"a whole number of AWG from {LEAST_AWG} to {MOST_AWG}, such as 18",
        )
    return size


def length_cell(row: Row) -> Cell:
    """Return the cell of a row that says its length, an empty one where none does.

    Raises:
        Refused: ``said-twice``, more than one does.
    """
    said = [row[name] for name in ("length_m", "length_ft", "length") if row[name].words]
    if len(said) > 1:
        message = f"the length is said here and under “{said[0].heading}”."
        raise said[1].refuse("said-twice", message, "one of the two")
    return said[0] if said else row["length_m"]


def length_m(row: Row) -> float | None:
    """Return the length of a row in metres, None where it says none or ``not said``.

    A unit in the cell goes before the one in the heading. Feet become metres to a micrometre.

    Raises:
        Refused: ``bad-number``, ``said-twice``, or ``unit-missing`` where neither heading nor cell has a unit.
    """
    cell = length_cell(row)
    if not cell.words or cell.words == NOT_SAID:
        return None
    found = _FIGURE.match(cell.words)
    unit = cell.words[found.end() :].strip().casefold() if found else ""
    metres = {"length_m": 1.0, "length_ft": METRES_PER_FOOT}.get(_field_of(row, cell))
    per_unit = _UNITS.get(unit) if unit else metres
    if found and not unit and metres is None:
        right = f"{quoted(cell.words + ' m')} or {quoted(cell.words + ' ft')}, or a column “length m” or “length ft”"
        raise cell.refuse("unit-missing", "it is not said whether this is metres or feet.", right)
    if found is None or per_unit is None:
        raise _bad_length(cell)
    length = _number(cell, found.group()) * per_unit
    if per_unit != 1.0:
        length = round(length, 6)
    if not 0 < length <= MOST_METRES:
        raise _bad_length(cell)
    return length


def whole_number(cell: Cell) -> int | None:
    """Return a coordinate, None where the cell is empty.

    Raises:
        Refused: ``bad-number``.
    """
    if not cell.words:
        return None
    found = re.fullmatch(r"(-?\d{1,9})(?:\.0+)?", cell.words, re.ASCII)
    if found is None or abs(int(found[1])) > MOST_COORDINATE:
        right = f"a whole number from -{MOST_COORDINATE} to {MOST_COORDINATE}, such as 480"
        raise cell.refuse("bad-number", f"{quoted(cell.words)} is no place on the sheet.", right)
    return int(found[1])


def _field_of(row: Row, cell: Cell) -> str:
    return next((name for name, other in row.cells.items() if other is cell), "")


def _number(cell: Cell, text: str) -> float:
    """Return the number that a text says, with a point or a comma before its decimals."""
    if _THOUSANDS.search(text):
        message = f"{quoted(text)} may be {text.replace(',', '.')} or {text.replace(',', '')}."
        raise cell.refuse("bad-number", message, "a point before decimals, and nothing between thousands")
    return float(text.replace(",", "."))


def _bad_length(cell: Cell) -> Refused:
    right = f"more than 0 and at most {MOST_METRES} m, such as 14.5; nothing for a join without length"
    return cell.refuse("bad-number", f"{quoted(cell.words)} is no length.", right)
