"""From tables to a job: a wire list read back, with a table of parts and one of cables where there are some.

Rules of the file: everything is taken or nothing. Whatever the job's own shape or its kinds refuse is told by the row
and column that it came from. What a wire list cannot tell, the kinds of its parts, is asked for; a part whose kind
nobody says is ``unknown``, and nothing is computed through it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import UNKNOWN_KIND, Catalogue
from app.catalogue.opening import Opened
from app.catalogue.reading import kind_from
from app.catalogue.structure import catalogue_for
from app.job.json_values import refuse_unfit
from app.job.model import FORMAT, VERSION
from app.job.names import letter_of, part_of
from app.job.pointers import steps_of
from app.job.reading import job_from_document
from app.job.refusal import Refused
from app.tables.cell import Cell, Row, near_ones
from app.tables.colours import insulation
from app.tables.columns import CABLE_COLUMNS, PART_COLUMNS, WIRE_COLUMNS
from app.tables.ends import end_of, id_of
from app.tables.figures import length_m, size_awg
from app.tables.kinds_asked import KindAsked, kind_asked
from app.tables.reading_cables import cables_of_table, cables_of_wires, refuse_repeated
from app.tables.reading_parts import parts_landed_on, parts_of_table, refuse_strangers
from app.tables.sheet import read_sheet

DEFAULT_TITLE = "From a wire list"
DEFAULT_LAYOUT = "as-found"


@dataclass(frozen=True)
class Tables:
    """CSV texts: the wire list; parts and cables where there is such a table.

    ``kinds`` says beside them of which kind a part is; ``own_kinds`` are kinds that the catalogue lacks, as in a job.
    """

    wires: str
    parts: str | None = None
    cables: str | None = None
    kinds: Mapping[str, str] = field(default_factory=dict)
    own_kinds: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class FromTables:
    """The job that tables come to: as a document and opened, and the parts whose kind nobody has said."""

    document: Mapping[str, Any]
    opened: Opened
    asked: tuple[KindAsked, ...]


@dataclass
class _Layout:
    """A layout as it stands in a document, and which row each of its entries came from."""

    parts: dict[str, dict[str, Any]] = field(default_factory=dict)
    cables: dict[str, dict[str, Any]] = field(default_factory=dict)
    conductors: dict[str, dict[str, Any]] = field(default_factory=dict)
    rows: dict[tuple[str, str], Row] = field(default_factory=dict)


def job_from_tables(tables: Tables, title: str = DEFAULT_TITLE, layout: str = DEFAULT_LAYOUT) -> FromTables:
    """Return the job with the one layout that tables say.

    Raises:
        Refused: the first thing that is wrong. In a table the pointer is ``/wires/4/from``: the table, the row as a
            spreadsheet counts them, the heading as the file has it; the message says row and column too.
    """
    catalogue = builtin_catalogue().with_kinds({name: kind_from(name, said) for name, said in tables.own_kinds.items()})
    read = _read(tables, catalogue)
    asked = tuple(_asked(read, catalogue))
    for part in read.parts.values():
        part.setdefault("kind", UNKNOWN_KIND)
    _refuse_strange_letters(read, catalogue)
    said = {"parts": read.parts, "cables": read.cables, "conductors": read.conductors}
    document: dict[str, Any] = {"format": FORMAT, "version": VERSION, "title": title, "layouts": {layout: said}}
    if tables.own_kinds:
        document["kinds"] = tables.own_kinds
    try:
        refuse_unfit(document)
        job = job_from_document(document)
        opened = Opened(job, catalogue_for(job))
    except Refused as refused:
        raise _by_row(refused, read) from None
    return FromTables(document, opened, asked)


def _read(tables: Tables, catalogue: Catalogue) -> _Layout:
    read = _Layout()
    wires = read_sheet(tables.wires, "wires", WIRE_COLUMNS)
    cables = None if tables.cables is None else read_sheet(tables.cables, "cables", CABLE_COLUMNS)
    parts = None if tables.parts is None else read_sheet(tables.parts, "parts", PART_COLUMNS)
    read.cables = cables_of_wires(wires) if cables is None else cables_of_table(cables)
    seen: dict[str, Cell] = {}
    landed: list[tuple[str, Cell]] = []
    for row in wires:
        conductor = id_of(row["conductor"], "conductor", "w")
        refuse_repeated(conductor, row["conductor"], seen, "conductor")
        read.rows["conductors", conductor] = row
        read.conductors[conductor] = said = _conductor(row, read.cables)
        ends = zip(said["ends"], (row["from_"], row["to"]), strict=True)
        landed += [(part_of(end), cell) for end, cell in ends if isinstance(end, str)]
    table = None if parts is None else parts_of_table(parts, tables.kinds, catalogue)
    read.parts = {**(table or {}), **parts_landed_on(landed, table, tables.kinds)}
    refuse_strangers(tables.kinds, read.parts, catalogue)
    read.rows.update((("cables", id_of(row["cable"], "cable", "cb")), row) for row in cables or ())
    read.rows.update((("parts", id_of(row["part"], "part")), row) for row in parts or ())
    return read


def _conductor(row: Row, cables: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """Return a conductor as it stands in a document; what its cable says as well it does not say itself."""
    ends = [end_of(row["from_"]), end_of(row["to"])]
    said: dict[str, Any] = {
        "ends": [end if end is None or isinstance(end, str) else {"unknown": end.unknown} for end in ends],
        "cable": id_of(row["cable"], "cable", "cb") if row["cable"].words else None,
        "insulation": insulation(row["insulation"]),
        "size_awg": size_awg(row),
        "length_m": length_m(row),
        "note": row["note"].text or None,
    }
    cable = cables.get(said["cable"] or "")
    if said["cable"] is not None and cable is None:
        right = near_ones(said["cable"], cables) if cables else "no cable: the table of cables is empty"
        raise row["cable"].refuse("unknown-cable", f"there is no cable {said['cable']} in the table of cables.", right)
    own = {name: value for name, value in said.items() if value is not None}
    for name in ("size_awg", "length_m"):
        if cable is not None and name in own and own[name] == cable.get(name, DEFAULTS.get(name)):
            del own[name]
    return own


DEFAULTS: Mapping[str, int] = {"size_awg": 18}
"""What a cable has that says nothing else (see ``app.job.model``)."""


def _asked(read: _Layout, catalogue: Catalogue) -> Iterator[KindAsked]:
    """Yield what is asked of each part whose kind nobody has said."""
    for part, said in read.parts.items():
        if "kind" not in said:
            yield kind_asked(part, said.get("label", ""), _letters(read, part), catalogue)


def _letters(read: _Layout, part: str) -> list[str]:
    ends = [end for said in read.conductors.values() for end in said["ends"] if isinstance(end, str)]
    return sorted({letter_of(end) for end in ends if part_of(end) == part})


def _refuse_strange_letters(read: _Layout, catalogue: Catalogue) -> None:
    """Refuse an end on a terminal that the kind of its part does not have, with the near ones."""
    for conductor, said in read.conductors.items():
        row = read.rows["conductors", conductor]
        for end, cell in zip(said["ends"], (row["from_"], row["to"]), strict=True):
            kind = read.parts[part_of(end)]["kind"] if isinstance(end, str) else UNKNOWN_KIND
            if kind == UNKNOWN_KIND or letter_of(end) in catalogue.kind(kind).terminals:
                continue
            part = part_of(end)
            right = near_ones(end, [f"{part}.{letter}" for letter in catalogue.kind(kind).terminals])
            raise cell.refuse("unknown-terminal", f"{part} is a {kind}, which has no terminal {letter_of(end)}.", right)


def _by_row(refused: Refused, read: _Layout) -> Refused:
    """Return what a job or its kinds refused as it is told of a table, where it came from one.

    Ends have been judged before.
    """
    steps = steps_of(refused.pointer or "")
    row = read.rows.get((steps[2], steps[3])) if len(steps) > 3 else None
    if row is None:
        return refused
    place = steps[4] if len(steps) > 4 else ""
    cell = row[{"at": "x"}.get(place, place or steps[2].removesuffix("s"))]
    return cell.refuse(refused.code, refused.message, refused.would_be_right)
