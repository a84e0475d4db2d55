"""From a run to its chart: rows are chosen and put in order, edges numbered and tied to what moved them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue, settings_of, supply_of
from app.catalogue.kind import Element, Ground, Opaque, Source
from app.catalogue.spoken import plain
from app.circuit.network import Circuit
from app.drawing.timing.chart import Chart, Edge, Row, Section, When
from app.drawing.timing.delays import Delays
from app.drawing.timing.done import DoneLine, done_lines
from app.drawing.timing.level import Level
from app.drawing.timing.lines import EFFECT, MovedLine, folded, levels_of, moved_lines, shown_of
from app.job.model import Layout
from app.job.names import part_of
from app.job.temperatures import Units
from app.sequence.change_words import said_of
from app.sequence.event import CHANGE, Event
from app.sequence.moments import milliseconds
from app.sequence.run import Run
from app.sequence.telling import because_words, causes_of, subject_words

MOST_INSTANTS = 160
"""A chart ends after so many instants, and says so."""
MOST_EDGES = 999
"""Numbers have three digits at most."""


@dataclass(frozen=True, slots=True)
class _Draft:
    """An edge before it has a number; ``said`` are the words of the change, for what was done from outside."""

    row: int
    what: str
    at_ms: int
    now: str
    level: Level
    said: str = ""
    events: tuple[int, ...] = ()


def chart_of(run: Run, layout: Layout, catalogue: Catalogue, *, everything: bool = False, units: Units = "si") -> Chart:
    """Return a run as a chart.

    Args:
        run: the run.
        layout, catalogue: what it was a run of.
        everything: show whatever moves, each on a line of its own.
        units: those of the job.
    """
    circuit = run.moments[0].circuit
    done = done_lines(run, layout, catalogue, units)
    lines = moved_lines(run)
    shown = lines if everything else shown_of(lines, run, layout, catalogue, circuit)
    groups = [[line] for line in shown] if everything else folded(shown, run.events)
    groups.sort(key=lambda group: (group[0].sort == EFFECT, min(line.places for line in group)))
    drafts = sorted(_drafts(done, groups, run.events), key=lambda draft: (draft.at_ms, draft.events))
    drawn, until_ms = _first_of(drafts, milliseconds(run.until_s))
    edges = _Numbering(run, Delays(run, layout, catalogue, done), drawn, units).edges()
    rows = [row for row in _rows(done, groups, edges, circuit) if row.edges]
    return Chart(
        rows=tuple(rows),
        until_ms=until_ms,
        ends=_ends(run, until_ms),
        repeats_from_ms=_repeats_from(run, until_ms),
        left_out=_left_out(lines, {line.what for group in groups for line in group}, circuit),
        not_drawn=sum(milliseconds(event.at_s) > until_ms for event in run.events),
    )


class _Numbering:
    """Gives numbers and steps to drafts in their order, and finds what moved each."""

    def __init__(self, run: Run, delays: Delays, drafts: Sequence[_Draft], units: Units) -> None:
        self._run = run
        self._delays = delays
        self._drafts = drafts
        self._supplies = _supplies_of(run)
        self._circuit = run.moments[0].circuit
        self._said = said_of(run.changes, self._circuit, units)
        self._parents = list(causes_of(run.events))
        self._number_of = {place: at for at, draft in enumerate(drafts, 1) for place in draft.events}
        self._done: dict[tuple[int, str], list[int]] = {}
        for number, draft in enumerate(drafts, 1):
            if draft.said:
                self._done.setdefault((draft.at_ms, draft.said), []).append(number)

    def edges(self) -> Mapping[int, list[Edge]]:
        """Return the edges of each row, in order."""
        found: dict[int, list[Edge]] = {}
        steps: dict[int, When] = {}
        for number, draft in enumerate(self._drafts, 1):
            by = self._by(draft)
            row = found.setdefault(draft.row, [])
            step = 1 + row[-1].when.step if row and row[-1].when.at_ms == draft.at_ms else 0
            if by is not None and steps[by].at_ms == draft.at_ms:
                step = max(step, steps[by].step)
            steps[number] = When(draft.at_ms, step)
            row.append(self._edge(number, draft, steps[number], by))
        return found

    def _edge(self, number: int, draft: _Draft, when: When, by: int | None) -> Edge:
        if not draft.events:
            return Edge(number, when, draft.now, draft.level)
        event = self._run.events[draft.events[0]]
        part, _ = subject_words(event.what, self._circuit)
        words = because_words(event.cause, part, self._circuit, self._said)
        since_ms = self._delays.since_ms(event)
        return Edge(number, when, draft.now, draft.level, words, by, since_ms, draft.events)

    def _by(self, draft: _Draft) -> int | None:
        """Return the number of what moved a draft; where that is not shown, of what moved that, and so on."""
        if not draft.events:
            return None
        place = draft.events[0]
        while (parent := self._parents[place]) is not None:
            if parent in self._number_of:
                return self._number_of[parent]
            place = parent
        return self._by_change(self._run.events[place])

    def _by_change(self, event: Event) -> int | None:
        """Return the number of what was done from outside to move something; a source is moved by its own supply."""
        said = event.cause.removeprefix(CHANGE)
        numbers = self._done.get((milliseconds(event.at_s), said), ()) if event.cause.startswith(CHANGE) else ()
        supply = self._supplies.get(event.what)
        own = (number for number in numbers if self._drafts[number - 1].what == supply)
        return next(own, None) or next(iter(numbers), None)


def _supplies_of(run: Run) -> dict[str, str]:
    """Return the supply of each source, both as ``what`` of their lines."""
    circuit = run.moments[0].circuit
    found = {}
    for name, element in circuit.elements.items():
        part = circuit.layout.parts[part_of(name)]
        kind = circuit.catalogue.kind_of(part)
        if isinstance(element, Source) and kind is not None:
            found[f"element:{name}"] = f"supply:{supply_of(element, settings_of(kind, part))}"
    return found


def _drafts(
    done: Sequence[DoneLine], groups: Sequence[Sequence[MovedLine]], events: Sequence[Event]
) -> Iterator[_Draft]:
    for row, line in enumerate(done):
        for made in line.made:
            yield _Draft(row, line.what, made.at_ms, made.stand.words, made.stand.level, made.said)
    for row, group in enumerate(groups, start=len(done)):
        together = zip(*(line.places for line in group), levels_of(group[0], events), strict=True)
        for *places, level in together:
            at_ms = milliseconds(events[places[0]].at_s)
            yield _Draft(row, group[0].what, at_ms, plain(events[places[0]].now), level, events=tuple(sorted(places)))


def _first_of(drafts: Sequence[_Draft], until_ms: int) -> tuple[list[_Draft], int]:
    """Return as many drafts as a chart can hold, in whole instants, and the last instant of the chart."""
    instants = sorted({draft.at_ms for draft in drafts})
    kept = len(instants) if len(instants) <= MOST_INSTANTS else MOST_INSTANTS
    while kept > 1 and sum(draft.at_ms <= instants[kept - 1] for draft in drafts) > MOST_EDGES:
        kept -= 1
    if kept == len(instants):
        return list(drafts), until_ms
    return [draft for draft in drafts if draft.at_ms <= instants[kept - 1]], instants[kept - 1]


def _rows(
    done: Sequence[DoneLine],
    groups: Sequence[Sequence[MovedLine]],
    edges: Mapping[int, Sequence[Edge]],
    circuit: Circuit,
) -> Iterator[Row]:
    for place, line in enumerate(done):
        start, edges_here = line.start, tuple(edges.get(place, ()))
        yield Row((line.what,), line.part, line.words, "done", start.level, edges_here, start_words=start.words)
    for place, group in enumerate(groups, start=len(done)):
        section: Section = "runs" if group[0].sort == EFFECT else "moves"
        words, *others = (subject_words(line.what, circuit)[1] for line in group)
        what = tuple(line.what for line in group)
        edges_here = tuple(edges.get(place, ()))
        element = circuit.elements.get(what[0].removeprefix("element:"))
        sort = element.is_ if element is not None else ""
        screws = _screws_of(element, group[0].part, circuit)
        if words == f"{sort} {' to '.join(screws)}":
            # Its name says already what it is and where.
            sort, screws = "", ()
        level, also = group[0].start, tuple(others)
        yield Row(what, group[0].part, words, section, level, edges_here, others=also, sort=sort, screws=screws)


def _screws_of(element: Element | None, part: str, circuit: Circuit) -> tuple[str, ...]:
    if element is None or isinstance(element, Ground | Opaque):
        return ()
    letters = circuit.catalogue.terminals_of(circuit.layout, part)
    return tuple(dict.fromkeys(node for node in element.between if node in letters))


def _ends(run: Run, until_ms: int) -> str:
    if milliseconds(run.until_s) != until_ms:
        return "goes on"
    if run.ends == "cycles":
        return "and so on" if run.period_s else "chatters on"
    return run.ends


def _repeats_from(run: Run, until_ms: int) -> int | None:
    if not run.period_s or milliseconds(run.until_s) != until_ms:
        return None
    return until_ms - milliseconds(run.period_s)


def _left_out(lines: Sequence[MovedLine], shown: set[str], circuit: Circuit) -> tuple[str, ...]:
    names: dict[str, list[str]] = {}
    for line in lines:
        if line.what not in shown:
            part, words = subject_words(line.what, circuit)
            names.setdefault(part, []).append(words)
    return tuple(f"{part}: {', '.join(names[part])}" for part in sorted(names))
