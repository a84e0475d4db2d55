"""What the columns of each table are called: as we write them, and as people call them in their own spreadsheets.

Rules of the file: case, order, underscores and brackets of a heading do not matter. The other names are common
practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

_BETWEEN_WORDS = re.compile(r"[\W_]+")


class Column(NamedTuple):
    """One column: the field that it fills, its heading, and what else people call it.

    ``is_written`` is False for a column that is only understood, such as a length in feet; ``is_read`` is False for
    one that is worked out anew, such as a role.
    """

    field: str
    heading: str
    others: tuple[str, ...] = ()
    is_needed: bool = False
    is_written: bool = True
    is_read: bool = True

    def names(self) -> frozenset[str]:
        """Return everything that this column may be called, plain."""
        return frozenset(plain_heading(name) for name in (self.heading, *self.others))


def plain_heading(heading: str) -> str:
    """Return a heading without case and signs: ``Length (m)`` becomes ``length m``."""
    return _BETWEEN_WORDS.sub(" ", heading.replace("#", " number ").casefold()).strip()


def headings(columns: Sequence[Column]) -> tuple[str, ...]:
    """Return the headings that we write."""
    return tuple(column.heading for column in columns if column.is_written)


_SIZE = Column("size_awg", "size AWG", ("AWG", "gauge", "size", "wire gauge", "wire size", "gauge AWG", "AWG size"))
_LENGTHS = (
    Column("length_m", "length m", ("length in m", "length metres", "length meters", "metres", "meters")),
    Column("length_ft", "length ft", ("length in ft", "length feet", "feet"), is_written=False),
    Column("length", "length", ("run", "run length"), is_written=False),
)
_NOTE = Column("note", "note", ("notes", "remark", "remarks", "comment", "comments"))

WIRE_COLUMNS = (
    Column("conductor", "conductor", ("wire", "id", "wire id", "wire no", "wire number", "number", "no"), True),
    Column("from_", "from", ("from terminal", "from end", "end 1", "end A"), True),
    Column("to", "to", ("to terminal", "to end", "end 2", "end B"), True),
    Column("cable", "cable", ("cable id", "cable no", "cable number", "bundle")),
    Column("insulation", "insulation", ("colour", "color", "wire colour", "wire color", "insulation colour")),
    _SIZE,
    *_LENGTHS,
    Column("role", "role", is_read=False),
    _NOTE,
)
PART_COLUMNS = (
    Column("part", "part", ("id", "part id", "equipment", "device"), True),
    Column("kind", "kind", ("type", "kind of part")),
    Column("label", "label", ("name", "description")),
    Column("place", "place", ("location", "where")),
    Column("air", "air", ("air stream",)),
    Column("x", "x"),
    Column("y", "y"),
    Column("settings", "settings", ("set-up", "setup")),
    _NOTE,
)
CABLE_COLUMNS = (
    Column("cable", "cable", ("id", "cable id", "cable no", "cable number"), True),
    Column("label", "label", ("name", "description")),
    _SIZE,
    *_LENGTHS,
    _NOTE,
)
