"""The wire list: one row a conductor, from and to, as a table and as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass

from app.job.model import Conductor, End, Layout, UnknownEnd

HEADINGS = ("conductor", "from", "to", "cable", "insulation", "size AWG", "length m", "note")


@dataclass(frozen=True)
class WireRow:
    """One conductor. Gauge and length are None where it is an ideal join."""

    conductor: str
    from_: str
    to: str
    cable: str
    insulation: str
    size_awg: int | None
    length_m: float | None
    note: str


def wire_list(layout: Layout) -> tuple[WireRow, ...]:
    """Return a row for each conductor, in the order of their ids."""
    return tuple(_row(name, layout.conductors[name], layout) for name in sorted(layout.conductors))


def wire_list_csv(rows: Iterable[WireRow]) -> str:
    """Return the rows as CSV (RFC 4180) with a heading.

    A field that a spreadsheet would take for a formula gets an apostrophe in front.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(HEADINGS)
    for row in rows:
        size = "" if row.size_awg is None else str(row.size_awg)
        length = "" if row.length_m is None else f"{row.length_m:g}"
        fields = (row.conductor, row.from_, row.to, row.cable, row.insulation, size, length, row.note)
        writer.writerow([_harmless(field) for field in fields])
    return out.getvalue()


def _row(name: str, conductor: Conductor, layout: Layout) -> WireRow:
    length_and_size = conductor.length_and_size(layout.cables)
    length_m, size_awg = length_and_size if length_and_size is not None else (None, None)
    return WireRow(
        conductor=name,
        from_=_end(conductor.ends[0]),
        to=_end(conductor.ends[1]),
        cable=conductor.cable or "",
        insulation=conductor.insulation or "",
        size_awg=size_awg,
        length_m=length_m,
        note=conductor.note,
    )


def _end(end: End) -> str:
    if isinstance(end, UnknownEnd):
        return f"not seen: {end.unknown}"
    return end if end is not None else "not landed"


def _harmless(field: str) -> str:
    return f"'{field}" if field.startswith(("=", "+", "-", "@", "\t", "\r")) else field
