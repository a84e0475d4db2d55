"""One cell of a table that was read, and how something wrong in it is told: by row and column, as people find it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cached_property

from app.job.names import pointer
from app.job.refusal import Refused
from app.tables.guard import unguarded


@dataclass(frozen=True)
class Cell:
    """A cell: the table, its row as a spreadsheet counts them, its heading as the file has it, and what it holds."""

    table: str
    row: int
    heading: str
    raw: str = ""

    @cached_property
    def text(self) -> str:
        """Return what the cell says, to the letter."""
        return unguarded(self.raw)

    @cached_property
    def words(self) -> str:
        """Return what the cell says without blanks around it."""
        return self.text.strip()

    def refuse(self, code: str, message: str, right: str | None = None) -> Refused:
        """Return a refusal of what stands here; its pointer is table, row and column."""
        return refusal(code, self.table, self.row, self.heading, message, right)


@dataclass(frozen=True)
class Row:
    """A row of a table that was read, its cells by field. What has no column here is an empty cell."""

    table: str
    number: int
    cells: Mapping[str, Cell] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Cell:
        return self.cells.get(name) or Cell(self.table, self.number, name)


def refusal(code: str, table: str, row: int, heading: str, message: str, right: str | None) -> Refused:
    """Return a refusal that names row and column; the pointer says table, row and column."""
    at, place = (f"Row {row}, column “{heading}”", (heading,)) if heading else (f"Row {row}", ())
    return Refused(code, f"{at}: {message}", pointer=pointer(table, row, *place), would_be_right=right)


def quoted(text: str, most: int = 60) -> str:
    """Return a text for a message, in quotation marks and shortened where it is long."""
    return f"“{text if len(text) <= most else text[: most - 1] + '…'}”"


def near_ones(given: str, known: Iterable[str], most: int = 40) -> str:
    """Return ``R, if that was meant; one of C, R, W`` for a message, the likely one first."""
    names = list(known)
    folded = {name.casefold(): name for name in reversed(names)}
    near = [folded[found] for found in get_close_matches(given[:60].casefold(), folded, n=1, cutoff=0.5)]
    shown = ", ".join(names[:most]) + (", …" if len(names) > most else "")
    return f"{near[0]}, if that was meant; one of {shown}" if near else f"one of {shown}"
