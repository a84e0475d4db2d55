"""Ends of conductors and ids in words: as we write them, and as people do.

Rules of the file: an empty cell is no answer. Whether an end is landed nowhere or was not seen makes a difference to
whoever works there, so it has to be said.
"""

from __future__ import annotations

import re

from app.job.model import End, UnknownEnd
from app.job.names import LETTER_PATTERN, is_id
from app.tables.cell import Cell, quoted

NOT_LANDED = "not landed"
NOT_SEEN = "not seen: "
_NOT_LANDED = frozenset(
    {NOT_LANDED, "landed nowhere", "nowhere", "spare", "unused", "not used", "capped", "none", "n/a", "-", "–", "—"}
)
_NOT_SEEN = re.compile(r"(?:not seen|unseen|unknown|not known|\?)\s*(?:[:,]\s*(.*))?", re.IGNORECASE | re.DOTALL)
_TERMINAL = re.compile(r"(.*?)\s*[.:]\s*(\S+)|(\S+)\s+(\S+)")
_LETTER = re.compile(LETTER_PATTERN.strip("^$"))
MOST_TERMINAL = 80
"""Longer than any terminal, with blanks around its point."""
MOST_UNSEEN = 200
"""As in ``app.job.model``."""
NOT_SAID_WHERE = "it was not said where"
AN_END = "a terminal such as fb.R, “not landed”, or “not seen: ” and where the wire disappears"


def end_words(end: End) -> str:
    """Return an end as the wire list says it."""
    if isinstance(end, UnknownEnd):
        return f"{NOT_SEEN}{end.unknown}"
    return end if end is not None else NOT_LANDED


def end_of(cell: Cell) -> End:
    """Return the end that a cell says.

    Raises:
        Refused: ``bad-end``.
    """
    if cell.text.startswith(NOT_SEEN):
        return _unseen(cell, cell.text.removeprefix(NOT_SEEN))
    if not cell.words:
        raise cell.refuse("bad-end", "nothing is said of this end.", AN_END)
    if cell.words.casefold() in _NOT_LANDED:
        return None
    unseen = _NOT_SEEN.fullmatch(cell.words)
    if unseen is not None:
        return _unseen(cell, unseen[1] or NOT_SAID_WHERE)
    return _terminal(cell)


def id_of(cell: Cell, what: str, before_number: str = "") -> str:
    """Return the id that a cell says: written small, with hyphens for blanks.

    Args:
        cell: the cell.
        what: what it is the id of, for messages.
        before_number: what goes in front of a number alone, since an id starts with a letter.

    Raises:
        Refused: ``bad-id``.
    """
    found = plain_id(f"{before_number}{cell.words}" if cell.words.isdecimal() else cell.words)
    if found is None:
        message = f"{quoted(cell.words)} cannot be the id of a {what}." if cell.words else f"the {what} has no id."
        right = 'a small letter, then at most 31 small letters, digits, "-" or "_"'
        raise cell.refuse("bad-id", message, right)
    return found


def plain_id(words: str) -> str | None:
    """Return words as an id, None where they cannot be one: ``Furnace board`` becomes ``furnace-board``."""
    found = "-".join(words.lower().split())
    return found if is_id(found) else None


def _unseen(cell: Cell, where: str) -> UnknownEnd:
    if len(where) > MOST_UNSEEN:
        message = f"the words about this end are {len(where)} characters long."
        raise cell.refuse("bad-end", message, f"at most {MOST_UNSEEN} characters")
    return UnknownEnd(unknown=where)


def _terminal(cell: Cell) -> str:
    found = _TERMINAL.fullmatch(cell.words) if len(cell.words) <= MOST_TERMINAL else None
    part = plain_id(found[1] or found[3] or "") if found else None
    if found is None or part is None:
        raise cell.refuse("bad-end", f"{quoted(cell.words)} is no end of a conductor.", AN_END)
    letter = found[2] or found[4]
    if not _LETTER.fullmatch(letter):
        capital = letter.upper()
        meant = f"{part}.{capital}" if _LETTER.fullmatch(capital) else "a letter such as R or O/B"
        raise cell.refuse("bad-end", f"{quoted(letter)} cannot be the letter of a terminal.", meant)
    return f"{part}.{letter}"
