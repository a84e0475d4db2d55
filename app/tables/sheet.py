"""CSV as spreadsheets write it, read into rows: what they do to a file is tolerated, what cannot be told is refused.

Rules of the file: nothing is dropped. A heading that nobody knows and a cell under no heading are refused with row and
column. Rows are counted as a spreadsheet shows them: a line break inside quotation marks is part of its cell, and
blank rows count.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from app.job.json_values import MOST_BYTES, refuse_unfit
from app.job.refusal import Refused
from app.tables.cell import Cell, Row, near_ones, quoted, refusal
from app.tables.columns import Column, headings, plain_heading

SEPARATORS = (",", ";", "\t")
MOST_ROWS = 5000
"""A job of 2 MB holds a few times as many conductors, a sheet that a person can look through far fewer."""
MOST_CELL = 5000
"""A note has at most 4000 characters."""


def decoded(data: bytes, table: str) -> str:
    """Return the text of a file: UTF-8, with or without byte order mark, or UTF-16 with one.

    Raises:
        Refused: ``too-large`` or ``not-utf8``.
    """
    if len(data) > MOST_BYTES:
        message, right = f"The table is {len(data):,} bytes long.", f"at most {MOST_BYTES:,} bytes"
        raise Refused("too-large", message, pointer=f"/{table}", would_be_right=right, status_hint=413)
    try:
        return data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
    except UnicodeDecodeError as error:
        message = f"The table is not UTF-8 text: byte {error.start + 1} does not belong to a character."
        right = "the sheet saved as “CSV UTF-8”"
        raise Refused("not-utf8", message, pointer=f"/{table}", would_be_right=right) from None


def read_sheet(text: str, table: str, columns: Sequence[Column]) -> list[Row]:
    """Return the rows of a CSV text that hold something, without the heading row.

    Args:
        text: the table. A byte order mark, a line ``sep=;``, semicolons or tabs and blank rows are tolerated.
        table: what it is called in pointers, such as ``wires``.
        columns: the columns that it may have, in any order.

    Raises:
        Refused: ``too-large``, ``not-csv``, ``no-headings``, ``unknown-heading``, ``repeated-heading``,
            ``missing-column``, ``no-heading-here``, ``bad-character``.
    """
    if len(text) > MOST_BYTES:
        message, right = f"The table is {len(text):,} characters long.", f"at most {MOST_BYTES:,} bytes"
        raise Refused("too-large", message, pointer=f"/{table}", would_be_right=right, status_hint=413)
    first, rows = _records(text.removeprefix("\ufeff"), table, columns)
    top = next((number for number, row in enumerate(rows) if any(cell.strip() for cell in row)), None)
    if top is None:
        raise refusal("no-headings", table, first, "", "the table is empty.", _headings_words(columns))
    fields = _fields(rows[top], table, first + top, columns)
    return [
        _row(cells, table, first + number, rows[top], fields)
        for number, cells in enumerate(rows)
        if number > top and any(cell.strip() for cell in cells)
    ]


def _records(text: str, table: str, columns: Sequence[Column]) -> tuple[int, list[list[str]]]:
    """Return the number of the first row and all rows, split by the separator under which most headings are known."""
    said = text[:6].rstrip("\r\n")
    if said.casefold().startswith("sep=") and len(said) == 5:
        # A line that only tells a spreadsheet the separator; it counts as row 1 there too.
        return 2, _split(text.partition("\n")[2], said[4], table, 2)
    known = frozenset[str]().union(*(column.names() for column in columns))
    heads = {separator: _first_record(text, separator) for separator in SEPARATORS}
    counts = {separator: sum(plain_heading(cell) in known for cell in head) for separator, head in heads.items()}
    return 1, _split(text, max(SEPARATORS, key=lambda separator: counts[separator]), table, 1)


def _first_record(text: str, separator: str) -> list[str]:
    """Return the cells of the first row that is not blank, nothing where it cannot be split."""
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        return next((row for row in reader if any(cell.strip() for cell in row)), [])
    except csv.Error:
        return []


def _split(text: str, separator: str, table: str, first: int) -> list[list[str]]:
    rows: list[list[str]] = []
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True):
            rows.append(row)
            if len(rows) > MOST_ROWS:
                raise refusal("too-large", table, first + MOST_ROWS, "", "the table goes on.", f"{MOST_ROWS} rows")
    except (csv.Error, TypeError, ValueError) as error:
        message = "quotation marks do not close here, or something follows them that is no separator."
        right = 'a cell with " in it as "…", each " of it written twice (RFC 4180)'
        if "limit" in str(error):
            message, right = "a cell is longer than can be read.", "at most 4000 characters in a cell"
        raise refusal("not-csv", table, first + len(rows), "", message, right) from None
    return rows


def _fields(cells: Sequence[str], table: str, row: int, columns: Sequence[Column]) -> list[Column | None]:
    """Return the column of each cell of the heading row, None where it is empty."""
    by_name = {name: column for column in columns for name in column.names()}
    found = [by_name.get(plain_heading(cell)) for cell in cells]
    if not any(found):
        raise refusal("no-headings", table, row, "", "there are no headings that are known.", _headings_words(columns))
    for number, (cell, column) in enumerate(zip(cells, found, strict=True)):
        at = Cell(table, row, cell.strip(), cell)
        if column is None and cell.strip():
            right = f"{near_ones(cell.strip(), headings(columns))}; what belongs to none of them goes into “note”"
            raise at.refuse("unknown-heading", f"there is no column called {quoted(cell.strip())}.", right)
        if column is not None and column in found[:number]:
            first = cells[found.index(column)].strip()
            message = f"this column stands twice: {quoted(first)} says the same."
            raise at.refuse("repeated-heading", message, "one of the two")
    for column in columns:
        if column.is_needed and column not in found:
            others = ", ".join(column.others[:4])
            message = f"there is no column “{column.heading}”."
            right = f"a column “{column.heading}” (or called {others})"
            raise refusal("missing-column", table, row, "", message, right)
    return found


def _row(cells: Sequence[str], table: str, number: int, heads: Sequence[str], fields: Sequence[Column | None]) -> Row:
    found: dict[str, Cell] = {}
    for place, raw in enumerate(cells):
        column = fields[place] if place < len(fields) else None
        if column is None:
            if raw.strip():
                message = f"{quoted(raw.strip())} is the {_ordinal(place + 1)} cell, and that column has no heading."
                raise refusal("no-heading-here", table, number, "", message, "a heading above it, or an empty cell")
            continue
        cell = Cell(table, number, heads[place].strip(), raw)
        if len(raw) > MOST_CELL:
            raise cell.refuse("too-large", f"{len(raw):,} characters stand here.", f"at most {MOST_CELL:,}")
        try:
            refuse_unfit(cell.text)
        except Refused as refused:
            raise cell.refuse(refused.code, refused.message, refused.would_be_right) from None
        if column.is_read:
            found[column.field] = cell
    return Row(table, number, found)


def _headings_words(columns: Sequence[Column]) -> str:
    return "a row of headings: " + ", ".join(headings(columns))


def _ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
