"""The wire list: one row a conductor, what it joins and what it is for; by conductor, by cable or by part."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from app.catalogue.catalogue import Catalogue
from app.circuit.network import Circuit
from app.circuit.situations import situations_of
from app.explain.kept_roles import kept_roles
from app.explain.purpose_words import role_words
from app.explain.role import Role
from app.job.model import Conductor, Layout
from app.tables.colours import insulation_cell
from app.tables.columns import WIRE_COLUMNS, headings
from app.tables.csv_text import Value, csv_text, figure_text
from app.tables.ends import end_words
from app.tables.figures import NOT_SAID
from app.tables.natural_order import natural_key

By = Literal["conductor", "cable", "part"]
BY: tuple[By, ...] = ("conductor", "cable", "part")
HEADINGS = headings(WIRE_COLUMNS)


@dataclass(frozen=True)
class WireRow:
    """One conductor. A text is empty and a figure None where nothing is said.

    ``others_have_length`` tells of a conductor without length that conductors of the same cable have one.
    """

    conductor: str
    from_: str
    to: str
    cable: str
    insulation: str
    size_awg: int | None
    length_m: float | None
    role: str
    note: str
    others_have_length: bool = False

    def length_words(self) -> str:
        """Return the length as figures, ``not said`` where only this conductor of its cable has none."""
        return NOT_SAID if self.others_have_length else figure_text(self.length_m)

    def words(self) -> tuple[str, ...]:
        """Return the cells of the row in the order of ``HEADINGS``, as people read them."""
        size = figure_text(self.size_awg)
        cells = (self.conductor, self.from_, self.to, self.cable, self.insulation, size)
        return *cells, self.length_words(), self.role, self.note


@dataclass(frozen=True)
class WireGroup:
    """Rows that belong together: a cable, or a part with each row from its side. ``of`` is empty for what has none."""

    of: str
    rows: tuple[WireRow, ...]


def wire_rows(layout: Layout, roles: Mapping[str, str] | None = None) -> tuple[WireRow, ...]:
    """Return a row for each conductor, w2 before w10; ``roles`` says what each is for, as ``wire_roles`` gives it."""
    said = roles or {}
    with_length = {each.cable for each in layout.conductors.values() if each.length_and_size(layout.cables)} - {None}
    return tuple(
        _row(name, layout.conductors[name], layout, said.get(name, ""), with_length)
        for name in sorted(layout.conductors, key=natural_key)
    )


def wire_roles(circuit: Circuit) -> Mapping[str, str]:
    """Return what each conductor of a layout is for, in words; worked out from the circuit, never from its colour."""
    roles = roles_in(circuit)
    return {name: role_words(roles[name]) for name in circuit.layout.conductors}


def roles_in(circuit: Circuit) -> Mapping[str, Role]:
    """Return the role of each conductor of a layout."""
    return kept_roles(circuit, situations_of(circuit.layout, circuit.catalogue))


def grouped(rows: Sequence[WireRow], by: By, layout: Layout, catalogue: Catalogue) -> tuple[WireGroup, ...]:
    """Return rows in groups: all in one, or by cable, or by part screw by screw, where most rows stand twice."""
    if by == "conductor":
        return (WireGroup("", tuple(rows)),)
    if by == "part":
        return tuple(_by_part(rows, layout, catalogue))
    cables = sorted({row.cable for row in rows}, key=lambda cable: (not cable, natural_key(cable)))
    return tuple(WireGroup(cable, tuple(row for row in rows if row.cable == cable)) for cable in cables)


def wires_csv(rows: Iterable[WireRow]) -> str:
    """Return the wire list as CSV, which ``job_from_tables`` reads back."""
    return csv_text(HEADINGS, (_cells(row) for row in rows))


def _cells(row: WireRow) -> list[Value]:
    length = NOT_SAID if row.others_have_length else row.length_m
    texts = (row.conductor, row.from_, row.to, row.cable or None, insulation_cell(row.insulation) or None)
    return [*texts, row.size_awg, length, row.role or None, row.note or None]


def _row(name: str, conductor: Conductor, layout: Layout, role: str, with_length: set[str | None]) -> WireRow:
    found = conductor.length_and_size(layout.cables)
    cable = layout.cables.get(conductor.cable) if conductor.cable is not None else None
    return WireRow(
        conductor=name,
        from_=end_words(conductor.ends[0]),
        to=end_words(conductor.ends[1]),
        cable=conductor.cable or "",
        insulation=conductor.insulation or "",
        # What nobody said stays empty, though the circuit then counts with 18.
        size_awg=conductor.size_awg if conductor.size_awg is not None or cable is None else cable.size_awg,
        length_m=found[0] if found is not None else None,
        role=role,
        note=conductor.note,
        others_have_length=found is None and conductor.cable in with_length,
    )


def _by_part(rows: Sequence[WireRow], layout: Layout, catalogue: Catalogue) -> Iterator[WireGroup]:
    at: dict[str, list[WireRow]] = {}
    for row in rows:
        for one in dict.fromkeys((row, replace(row, from_=row.to, to=row.from_))):
            at.setdefault(one.from_, []).append(one)
    for part in sorted(layout.parts, key=natural_key):
        screws = [f"{part}.{letter}" for letter in catalogue.terminals_of(layout, part)]
        found = [row for screw in screws for row in at.get(screw, ())]
        if found:
            yield WireGroup(part, tuple(found))
    nowhere = [row for row in rows if not layout.conductors[row.conductor].landed()]
    if nowhere:
        yield WireGroup("", tuple(nowhere))
