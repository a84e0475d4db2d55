"""Cells that a spreadsheet would run as a formula, made harmless with an apostrophe and undone exactly.

Rules of the file: ``unguarded(guarded(text))`` is the text, whatever it is, so an apostrophe that a text starts with
gets one in front of it too. A cell with nothing but an apostrophe is an empty text that somebody meant, which an empty
cell need not be.
"""

from __future__ import annotations

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a formula may start with; the last four are the wide forms of the first four (common practice, no source)."""
APOSTROPHE = "'"


def guarded(text: str) -> str:
    """Return a text as a cell that no spreadsheet runs."""
    return APOSTROPHE + text if not text or text.startswith((*FORMULA, APOSTROPHE)) else text


def unguarded(cell: str) -> str:
    """Return the text of a cell. An apostrophe that guards nothing, as in ``'tis``, is part of the text."""
    if cell == APOSTROPHE or cell[1:2] in (*FORMULA, APOSTROPHE):
        return cell.removeprefix(APOSTROPHE)
    return cell
