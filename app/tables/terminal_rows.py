"""The terminal list: one row a screw of each part, what is landed there, and what a meter shows there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue, settings_of
from app.catalogue.kind import JumperElement
from app.catalogue.spoken import plain
from app.circuit.operating_point import OperatingPoint
from app.job.model import Layout
from app.tables.csv_text import Value, csv_text
from app.tables.ends import end_words
from app.tables.natural_order import natural_key

HEADINGS = ("terminal", "function", "use", "landed", "insulation", "other end", "jumper")
VOLTS_HEADING = "volts"
NOTHING_LANDED = "nothing landed"
NOT_RECORDED = "not recorded"
"""What is said of a screw for line voltage: a job records 24 V wiring, and nobody may take such a screw for dead."""


@dataclass(frozen=True)
class Landed:
    """One end of a conductor on a screw: its id, its insulation, and where its other end is."""

    conductor: str
    insulation: str
    other_end: str


@dataclass(frozen=True)
class TerminalRow:
    """One screw. ``jumpers`` are in words; ``volts`` is empty where no situation was given."""

    terminal: str
    function: str
    use: str
    landed: tuple[Landed, ...]
    jumpers: tuple[str, ...] = ()
    volts: str = ""

    def lines(self) -> tuple[tuple[str, str, str], ...]:
        """Return conductor, insulation and other end line by line, one line that says so where nothing is landed."""
        lines = tuple((each.conductor, each.insulation, each.other_end) for each in self.landed)
        return lines or ((NOT_RECORDED if self.function == "line" else NOTHING_LANDED, "", ""),)

    def words(self) -> tuple[str, ...]:
        """Return the cells of the row in the order of ``HEADINGS`` and the volts, as people read them."""
        columns = ("; ".join(column) if any(column) else "" for column in zip(*self.lines(), strict=True))
        return self.terminal, self.function, self.use, *columns, "; ".join(self.jumpers), self.volts


def terminal_rows(
    layout: Layout, catalogue: Catalogue, point: OperatingPoint | None = None, roles: Mapping[str, str] | None = None
) -> tuple[TerminalRow, ...]:
    """Return a row for each terminal, part by part, screw by screw; with an operating point the volts there too.

    ``roles`` say what each conductor is for. A strip, a splice or a float switch only passes on what is landed there,
    so that its screws are told by that: ``point 2, call for the compressor``.
    """
    landed = _landed(layout)
    rows: list[TerminalRow] = []
    for part in sorted(layout.parts, key=natural_key):
        jumpers = _jumpers(layout, catalogue, part, point)
        kind = catalogue.kind_of(layout.parts[part])
        passes_on = kind is not None and all(each.function == "through" for each in kind.terminals.values())
        for letter, terminal in catalogue.terminals_of(layout, part).items():
            name = f"{part}.{letter}"
            volts = "" if point is None else volts_words(point, name)
            on_screw, by_jumper = tuple(landed.get(name, ())), tuple(jumpers.get(letter, ()))
            use = ", ".join((terminal.use, *(_passed_on(on_screw, roles or {}) if passes_on else ())))
            rows.append(TerminalRow(name, terminal.function, use, on_screw, by_jumper, volts))
    return tuple(rows)


def _passed_on(landed: Iterable[Landed], roles: Mapping[str, str]) -> tuple[str, ...]:
    """Return what the conductors on a screw are for, each use once."""
    return tuple(dict.fromkeys(roles[each.conductor] for each in landed if each.conductor in roles))


def terminals_csv(rows: Iterable[TerminalRow], with_volts: bool = False) -> str:
    """Return the terminal list as CSV; conductors on one screw stand in one cell with semicolons between them."""
    cells: Iterator[list[Value]] = ([word or None for word in row.words()] for row in rows)
    if with_volts:
        return csv_text((*HEADINGS, VOLTS_HEADING), cells)
    return csv_text(HEADINGS, (row[:-1] for row in cells))


def volts_words(point: OperatingPoint, terminal: str) -> str:
    """Return what a meter shows at a terminal, and against which other one."""
    state = point.terminals[terminal]
    if state.unknown:
        return "not known"
    if state.floating or state.volts is None:
        return "floating"
    return f"{abs(state.volts):.1f} V to {state.reference}" if state.reference != terminal else "0.0 V"


def _landed(layout: Layout) -> Mapping[str, list[Landed]]:
    found: dict[str, list[Landed]] = {}
    for name in sorted(layout.conductors, key=natural_key):
        conductor = layout.conductors[name]
        for number, end in enumerate(conductor.ends):
            if isinstance(end, str):
                other = end_words(conductor.ends[1 - number])
                found.setdefault(end, []).append(Landed(name, conductor.insulation or "", other))
    return found


def _jumpers(layout: Layout, catalogue: Catalogue, part: str, point: OperatingPoint | None) -> dict[str, list[str]]:
    """Return in words the jumpers on each letter of a part, as it is set up or as the situation has them."""
    kind = catalogue.kind_of(layout.parts[part])
    found: dict[str, list[str]] = {}
    if kind is None:
        return found
    settings = settings_of(kind, layout.parts[part])
    for element in kind.elements.values():
        if not isinstance(element, JumperElement):
            continue
        state = settings[element.by]
        if point is not None:
            state = point.situation.set.get(f"{part}.{element.by}", state)
        first, second = element.between
        for letter, other in ((first, second), (second, first)):
            # A jumper to another screw is told by that screw, one to the inside by its own name.
            name = f"to {other}" if other in kind.terminals else plain(element.by)
            found.setdefault(letter, []).append(f"{name}: {state}")
    return found
