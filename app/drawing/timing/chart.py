"""What stands on a timing chart: its rows, and their edges in the order of time.

Rules of the file: an edge is an event of the run, or several that go together, or something that was done from
outside; it has a number. Within an instant time stands still, so an edge that comes of an earlier edge of its own row
at the same instant stands one *step* behind it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from app.drawing.timing.level import Level

Section = Literal["done", "moves", "runs"]
"""What was done from outside, what moves because of it, and what then runs."""


class When(NamedTuple):
    """A place on the axis: a time in milliseconds, and a step within that instant."""

    at_ms: int
    step: int = 0


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of a row.

    Attributes:
        number: its number on the sheet.
        when: where it stands on the axis.
        now: what the row has become, in words.
        level: how high the row runs from here.
        because: what moved it, in words; empty for what was done from outside.
        by: the number of the edge that moved it, or of the nearest before that which is shown; None without one.
        since_ms: since when the timer has run that ran out here, where that is known.
        events: the places in the run of the events that it stands for; none for what was done from outside.
    """

    number: int
    when: When
    now: str
    level: Level
    because: str = ""
    by: int | None = None
    since_ms: int | None = None
    events: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the chart: the subjects that it stands for (the first gives its name), and its edges in order.

    ``start_words`` say what it is before the first edge, for what is done from outside; ``others`` name the subjects
    behind the first. ``sort`` is what the first is: a coil, a contact, an input; empty for what is none of these; then
    ``screws`` are those between which it lies, without ends inside the part.
    """

    what: tuple[str, ...]
    part: str
    words: str
    section: Section
    start: Level
    edges: tuple[Edge, ...]
    start_words: str = ""
    others: tuple[str, ...] = ()
    sort: str = ""
    screws: tuple[str, ...] = ()

    def edge_before(self, when: When) -> Edge | None:
        """Return the last edge before a place on the axis."""
        return next((edge for edge in reversed(self.edges) if edge.when < when), None)

    def level_before(self, when: When) -> Level:
        """Return how high the row runs just before a place on the axis."""
        edge = self.edge_before(when)
        return self.start if edge is None else edge.level


@dataclass(frozen=True, slots=True)
class Chart:
    """A run as a chart.

    Attributes:
        rows: from above to below; those of a section stand together.
        until_ms: the last instant of the run, or where the chart ends before that.
        ends: how it ends, in a word or two.
        repeats_from_ms: since when it comes back without end, where it cycles.
        left_out: what moves too and is not shown, in words, by part.
        not_drawn: how many events come after the end of the chart.
    """

    rows: tuple[Row, ...]
    until_ms: int
    ends: str
    repeats_from_ms: int | None
    left_out: tuple[str, ...]
    not_drawn: int

    def edges(self) -> list[tuple[int, Edge]]:
        """Return every edge with the place of its row, by number."""
        found = [(place, edge) for place, row in enumerate(self.rows) for edge in row.edges]
        return sorted(found, key=lambda each: each[1].number)
