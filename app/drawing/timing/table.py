"""The table under a chart: every numbered event with its time, what moved, and because of what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import MARK, SMALL, THIN, Font, Surface, Text
from app.drawing.timing.chart import Chart, Edge, Row
from app.drawing.timing.words import clock_of, lasts

HEADINGS = ("no.", "min:s", "part", "what", "now", "by no.", "because of")
WIDTHS = (28, 52, 44, 150, 112, 42, 202)
LINE = 17
BETWEEN_BLOCKS = 30
LEAST_IN_BLOCK = 10
"""Fewer rows than this are not spread over two blocks."""
HIGH_ON_SHEET = 690
"""So high may a block be, with what stands above it, to be whole on a sheet that stands upright."""
HIGH_ALONE = 710
"""The same where there is one only: nothing is cut, so that no room is left for that."""
CLEAR = 6
HEAD = Font("words", 10, bold=True)
BLOCK = sum(WIDTHS)


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a table and the blocks in which they stand."""

    rows: tuple[tuple[str, ...], ...]
    blocks: tuple[tuple[int, int, Box], ...]
    """First row, the row behind the last, and the box."""


def table_of(chart: Chart, at: Point, width: int) -> Table:
    """Return the table of a chart with its upper left corner at a point, in as many blocks as have room."""
    rows = tuple(_row(chart.rows[place], edge) for place, edge in chart.edges())
    most = max(1, (width + BETWEEN_BLOCKS) // (BLOCK + BETWEEN_BLOCKS))
    count = max(1, min(most, len(rows) // LEAST_IN_BLOCK))
    each = -(-len(rows) // count)
    blocks = []
    for number, first in enumerate(range(0, len(rows), each or 1)):
        last = min(first + each, len(rows))
        x = at.x + number * (BLOCK + BETWEEN_BLOCKS)
        blocks.append((first, last, Box(x, at.y, BLOCK, (1 + last - first) * LINE + CLEAR)))
    return Table(rows, tuple(blocks))


def stacked_table(chart: Chart, at: Point) -> Table:
    """Return the table of a chart in blocks below each other, as few as have room on sheets that stand upright.

    What stands above ``at`` is on the sheet of the first block, so that this is lower than the others.
    """
    rows = tuple(_row(chart.rows[place], edge) for place, edge in chart.edges())
    blocks: list[tuple[int, int, Box]] = []
    is_alone = at.y + (1 + len(rows)) * LINE + CLEAR <= HIGH_ALONE
    y, first, room = at.y, 0, (HIGH_ALONE if is_alone else HIGH_ON_SHEET) - at.y
    while first < len(rows):
        last = min(first + max((room - CLEAR) // LINE - 1, LEAST_IN_BLOCK), len(rows))
        blocks.append((first, last, Box(at.x, y, BLOCK, (1 + last - first) * LINE + CLEAR)))
        y, first, room = blocks[-1][2].bottom + BETWEEN_BLOCKS, last, HIGH_ON_SHEET
    return Table(rows, tuple(blocks))


def draw_table(surface: Surface, table: Table) -> None:
    """Draw a table."""
    surface.begin({"class": "events"})
    for first, last, box in table.blocks:
        y = box.y + LINE - 5
        _line(surface, Point(box.x, y), HEADINGS, HEAD)
        surface.line((Point(box.x, y + 5), Point(box.right, y + 5)), MARK)
        for number, row in enumerate(table.rows[first:last], start=1):
            _line(surface, Point(box.x, y + number * LINE + 2), row, SMALL)
        surface.line((Point(box.x, box.bottom), Point(box.right, box.bottom)), THIN)
    surface.end()


def _row(row: Row, edge: Edge) -> tuple[str, ...]:
    because = edge.because
    if edge.since_ms is not None:
        because += f", {lasts(edge.when.at_ms - edge.since_ms)} after {clock_of(edge.since_ms)}"
    by = "" if edge.by is None else str(edge.by)
    return str(edge.number), clock_of(edge.when.at_ms), row.part, row.words, edge.now, by, because


def _line(surface: Surface, at: Point, cells: Sequence[str], font: Font) -> None:
    for x, words in _placed(at.x, cells, font):
        surface.text(Text(Point(x, at.y), words, font, width_of(words, font)))


def _placed(x: int, cells: Sequence[str], font: Font) -> Iterator[tuple[int, str]]:
    for words, width in zip(cells, WIDTHS, strict=True):
        shown = fitted(words, font, width - CLEAR)
        if shown:
            yield x, shown
        x += width
