"""What stands in words on a ladder: under a symbol what moves it, under a load what it is and what it moves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from app.catalogue.called import called as inner_called
from app.catalogue.catalogue import Catalogue, figure, settings_of
from app.catalogue.kind import Contact, Element, Fuse, JumperElement, Kind, Source
from app.catalogue.spoken import plain, upper_first
from app.drawing.ladder.graph import LOADS, WIRES, Piece
from app.drawing.ladder.model import Ladder, Rail, Rung, Section
from app.explain.names import Names
from app.job.model import Layout
from app.tables.natural_order import natural_key

FITTED = "fitted"


def on_rungs(found: Iterable[int]) -> str:
    """Return rung numbers as people write them: ``rung 2`` or ``rungs 2, 5–7``; nothing where there are none."""
    runs: list[list[int]] = []
    for number in sorted(set(found)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = [", ".join(map(str, run)) if len(run) < 3 else f"{run[0]}–{run[-1]}" for run in runs]
    count = sum(len(run) for run in runs)
    return f"{'rung' if count == 1 else 'rungs'} {', '.join(said)}" if said else ""


@dataclass(frozen=True)
class Wording:
    """The words of one ladder."""

    ladder: Ladder
    layout: Layout
    catalogue: Catalogue
    called: Mapping[str, str]
    """The designation of each device, by the name of its element."""
    names: Names = field(init=False)
    tied: frozenset[str] = field(init=False)
    """The points at which other rungs begin or end."""
    named: frozenset[str] = field(init=False)
    """Those of them to which no line leads, so that their name must be written."""

    def __post_init__(self) -> None:
        """Take the names from the layout, the ties from the ladder."""
        object.__setattr__(self, "names", Names(self.layout, self.catalogue))
        ends = [end for rung in self.ladder.rungs() for end in (rung.start, rung.end) if end.ending == "tie"]
        object.__setattr__(self, "tied", frozenset(end.point for end in ends))
        object.__setattr__(self, "named", frozenset(end.point for end in ends if end.by_name))

    def wire(self, piece: Piece) -> str:
        """Return what stands above a wire: the conductor's name and insulation, or that it lies inside a part."""
        if piece.sort != "conductor":
            return "inside"
        conductor = self.layout.conductors[piece.name]
        return f"{self.names.conductor(piece.name)} {conductor.insulation or ''}".strip()

    def under(self, piece: Piece) -> tuple[str, str]:
        """Return what moves a piece, and on which rungs that is to be found."""
        part, _, inner = piece.name.partition(".")
        if piece.sort == "opaque":
            return self.ladder.why[piece.b if piece.b in self.ladder.why else piece.a], ""
        if piece.sort not in ("contact", "jumper", "fuse", "source"):
            return "", ""
        kind = self.names.kind(part)
        assert kind is not None, f"{piece.name} is of no known kind"
        element = kind.elements[inner]
        movers = self.ladder.movers.get(piece.name, ())
        rungs = on_rungs(self.ladder.rung_of[mover] for mover in movers if mover in self.ladder.rung_of)
        direct = isinstance(element, Contact) and element.by in kind.elements
        return self._moved_by(part, element, kind), f"{'coil on' if direct else 'by'} {rungs}" if rungs else ""

    def _moved_by(self, part: str, element: Element, kind: Kind) -> str:
        values = settings_of(kind, self.layout.parts[part])
        match element:
            case Contact(by="calls"):
                closes = [plain(name) for name, call in kind.calls.items() if _closes(element, kind, call.closes)]
                return ", ".join(sorted(closes))
            case Contact() if element.by in kind.switches:
                return self.names.switch(part, element.by)
            case Contact():
                return inner_called(kind, element.by)
            case JumperElement():
                # Between which screws it lies stands at its ends.
                return f"jumper, {values[element.by]}"
            case Fuse():
                return f"{figure(element.amps, values):g} A"
            case Source():
                return f"{figure(element.volts, values):g} V, {figure(element.va, values):g} VA"
            case _:
                return ""

    def is_unseen(self, point: str) -> bool:
        """Return whether nobody has seen what lies at a point; false where it is known that nothing is computed."""
        return ":" not in point.partition(".")[2] and point in self.ladder.why

    def said(self, rung: Rung) -> Iterator[tuple[str, str]]:
        """Yield for each load of a rung its name with that of its part, and what it has a say in."""
        for load in rung.loads():
            part, _, inner = load.name.partition(".")
            what, of = upper_first(self.names.inner(part, inner)), self.names.part(part)
            name = what if what == of else f"{what}, {of}"
            # A load stands beside common, above its name; one elsewhere in its rung is named by its letters too.
            aside = rung.end.ending != "rail" or len([*rung.loads()]) > 1
            yield f"{self.called[load.name]}: {name}" if aside else name, self.moves(load.name)

    def warnings(self, rung: Rung) -> Iterator[str]:
        """Yield what a technician must see in a rung that he would not look for: a short, a way that never ends."""
        quiet = not any(rung.loads()) and all(piece.sort != "source" for piece in rung.pieces)
        sides = [self.ladder.rails[end.rail].side for end in (rung.start, rung.end) if end.rail]
        if quiet and sides == ["hot", "common"]:
            if all(piece.sort in WIRES for piece in rung.pieces):
                yield "A short: nothing here takes power, hot is joined with common."
            else:
                yield "Nothing here takes power: where it closes, hot is joined with common."
        if quiet and len(sides) == 2 and sides[0] == sides[1] and rung.start.rail != rung.end.rail:
            yield f"Joins {self.rail(rung.start.rail)} with {self.rail(rung.end.rail)}{self._where_joined(rung)}."
        if any(rung.loads()) and rung.end.ending == "open" and rung.pieces[-1].sort in LOADS:
            yield f"Nothing joins {rung.end.point} with common."

    def _where_joined(self, rung: Rung) -> str:
        """Return when a rung joins its two ends; nothing where it always does."""
        if "open" in (self.as_set(piece) for piece in rung.pieces):
            return " where the jumper is fitted"
        return " where it closes" if any(piece.sort == "contact" for piece in rung.pieces) else ""

    def as_set(self, piece: Piece) -> str:
        """Return how a piece stands that nothing but a hand moves: a jumper as the layout has it, empty for others."""
        element = self._element(piece.name) if piece.sort == "jumper" else None
        if not isinstance(element, JumperElement):
            return ""
        part = self.layout.parts[piece.name.partition(".")[0]]
        kind = self.catalogue.kind_of(part)
        return "closed" if kind is not None and settings_of(kind, part)[element.by] == FITTED else "open"

    def moves(self, load: str) -> str:
        """Return the rungs of the contacts of a coil or load: those that it moves, those in which it has a say."""
        own: list[str] = []
        others: list[str] = []
        for contact in self.ladder.moved.get(load, ()):
            if contact in self.ladder.rung_of:
                (own if self._by(contact) == load else others).append(contact)
        rung_of = self.ladder.rung_of
        closed = [contact for contact in own if self._is_closed_at_rest(contact)]
        open_ = [contact for contact in own if contact not in closed]
        said = []
        if open_:
            said.append(f"closes on {on_rungs(rung_of[each] for each in open_)}")
        if closed:
            said.append(f"opens on {on_rungs(rung_of[each] for each in closed)}")
        if others:
            said.append(f"acts on {on_rungs(rung_of[each] for each in others)}")
        return "; ".join(said)

    def _element(self, name: str) -> Element | None:
        part, _, inner = name.partition(".")
        kind = self.names.kind(part)
        return None if kind is None else kind.elements.get(inner)

    def _by(self, contact: str) -> str:
        element = self._element(contact)
        return f"{contact.partition('.')[0]}.{element.by}" if isinstance(element, Contact) else ""

    def _is_closed_at_rest(self, contact: str) -> bool:
        element = self._element(contact)
        return isinstance(element, Contact) and element.rest == "closed"

    def heading(self, section: Section) -> str:
        """Return what feeds a section."""
        if not section.hot:
            return "Not fed by any source here"
        sources = self.ladder.rails[section.hot].sources
        return "From " + " and ".join(
            f"{self.called[each]}, {self.names.part(each.partition('.')[0])}" for each in sources
        )

    def rail(self, rail: str) -> str:
        """Return the name of a rail: ``hot of 1-T``."""
        found = self.ladder.rails[rail]
        return f"{found.side} of {' and '.join(self.called[each] for each in found.sources)}"

    def rail_joins(self, rail: Rail) -> str:
        """Return which conductors make a rail, from screw to screw."""
        joins = sorted(rail.joins, key=lambda piece: (piece.sort == "conductor", natural_key(piece.name)))
        told = [self._rail_join(piece) for piece in joins] or [self._found(point) for point in rail.screws]
        return f"{upper_first(rail.side)} rail: {', '.join(told)}"

    def _rail_join(self, piece: Piece) -> str:
        ways = f"{self._found(piece.a)} to {self._found(piece.b)}"
        if piece.sort == "conductor":
            return f"{self.names.conductor(piece.name)} {ways}"
        return f"inside {ways}" if self.is_screw(piece.a) and self.is_screw(piece.b) else ways

    def is_screw(self, point: str) -> bool:
        """Return whether a point is a screw, not something inside a part."""
        part, _, letter = point.partition(".")
        return part in self.layout.parts and letter in self.catalogue.terminals_of(self.layout, part)

    def _found(self, point: str) -> str:
        """Return where a point is to be found: a screw by its name, else inside which part it lies."""
        return point if self.is_screw(point) else f"inside {point.partition('.')[0]}"

    def _unused(self, piece: Piece) -> str:
        """Return what leads nowhere, with the screws on which nothing is landed."""
        landed = {end for conductor in self.layout.conductors.values() for end in conductor.ends}
        free = [point for point in (piece.a, piece.b) if self.is_screw(point) and point not in landed]
        return self.names.element(piece.name) + (f" ({', '.join(free)})" if free else "")

    def notes(self, section: Section) -> Iterator[str]:
        """Yield what must be said of a section beside the drawing."""
        for piece in section.bridges:
            what = self.called.get(piece.name) or self.wire(piece)
            yield (
                f"Not in series, not in parallel: {what} on rung {self.ladder.rung_of[piece.name]} is a bridge, "
                "current may pass it either way."
            )

    def last_notes(self) -> Iterator[str]:
        """Yield which part each screw is on, and what stands on no rung."""
        if self.layout.parts:
            parts = sorted(self.layout.parts, key=natural_key)
            yield f"Parts: {'; '.join(f'{part} is {self.names.placed(part)}' for part in parts)}."
        if self.ladder.unused:
            said = ", ".join(
                dict.fromkeys(map(self._unused, sorted(self.ladder.unused, key=lambda p: natural_key(p.name))))
            )
            yield f"On no rung, since nothing is landed behind it: {said}."
        if self.ladder.loops:
            yield f"Both ends on one screw: {', '.join(self.names.conductor(p.name) for p in self.ladder.loops)}."
        drawn = {p.name for p in self.ladder.loops} | self.ladder.rung_of.keys()
        drawn |= {piece.name for rail in self.ladder.rails.values() for piece in rail.joins}
        spare = [name for name in sorted(self.layout.conductors, key=natural_key) if name not in drawn]
        if spare:
            yield f"Conductors on no rung: {', '.join(self.names.conductor(name) for name in spare)}."


def _closes(element: Element, kind: Kind, closes: Mapping[str, str]) -> bool:
    return any(kind.elements.get(name) is element for name in closes)
