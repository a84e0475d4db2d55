"""A ruled table in blocks that stay whole on a sheet, each with its own headings, so that no sheet lacks them.

Rules of the file: all blocks of a table have the same columns. The blocks of a group say that they go on; those of one
that has no name of its own, such as wires in no cable, say from which row to which they lead. A block is about
``BLOCK_HEIGHT`` high, but for a row that is higher; between blocks is room for a cut. Columns without a word in them
are left out. Words are broken into lines and never into letters; a word that is wider than its column gets an ellipsis.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from app.drawing.frame.drawing import Drawing
from app.drawing.frame.legend import Mark
from app.drawing.frame.paper_frame import TO
from app.drawing.frame.title_block import wrapped
from app.drawing.lists.words import CONTINUED, head_of
from app.drawing.surface.geometry import Box, Point, box_around, up_to_grid
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import MARK, NAME, NO_ATTRIBUTES, SMALL, THIN, Attributes, Font, Surface, Text

WIDTH = 636
"""As wide as upright paper shows at legible size."""
BLOCK_HEIGHT = 240
"""Three blocks fill a sheet that stands upright, two one that lies."""
BLOCK_AT_MOST = 340
"""A block may become as high as this where all that is left then stands in it."""
BETWEEN = 24
LINE = 13
PAD = 4
TITLE = 20
HEAD = Font("words", 10, bold=True)
HEADINGS_HEIGHT = TITLE + LINE + PAD
LEAST = 64
"""The least width of a column that gives way to others. With those that do not it comes to no more than ``WIDTH``."""


class Column(NamedTuple):
    """A column: its heading, its typeface, and how wide it may become. A flexible one gives way where room is short."""

    heading: str
    most: int
    font: Font = SMALL
    flexible: bool = False


class Row(NamedTuple):
    """A row. Cells of several lines, with line breaks between them, are held level with each other line by line.

    ``title`` is what a reader hears instead of the cells, where they alone would not be understood.
    """

    cells: tuple[str, ...]
    attributes: Attributes = NO_ATTRIBUTES
    title: str = ""


class Group(NamedTuple):
    """Rows under a title."""

    title: str
    rows: tuple[Row, ...]


class Placed(NamedTuple):
    """A row as it is drawn: its box, and the lines of each cell."""

    box: Box
    cells: tuple[tuple[str, ...], ...]
    row: Row


class Block(NamedTuple):
    """A title, the headings and some rows. ``box`` is around all of it, ``grid`` around what is ruled."""

    title: str
    box: Box
    grid: Box
    rows: tuple[Placed, ...]


class Table(NamedTuple):
    """A table as it is drawn. ``edges`` are the left edge of each column and the right edge of the last."""

    columns: tuple[Column, ...]
    edges: tuple[int, ...]
    blocks: tuple[Block, ...]
    box: Box


def plan_table(columns: Sequence[Column], groups: Sequence[Group], at: Point) -> Table:
    """Return a table with its upper left corner at a point on the grid."""
    kept = [place for place in range(len(columns)) if any(row.cells[place] for group in groups for row in group.rows)]
    shown = tuple(columns[place] for place in kept)
    told = [
        Group(group.title, tuple(row._replace(cells=tuple(row.cells[place] for place in kept)) for row in group.rows))
        for group in groups
    ]
    edges = [at.x]
    for width in _widths(shown, told):
        edges.append(edges[-1] + width)
    blocks: list[Block] = []
    y = at.y
    for group in told:
        for block in _blocks(group, shown, edges, y):
            blocks.append(block)
            y = up_to_grid(block.box.bottom + BETWEEN)
    around = box_around(block.box for block in blocks) or Box(at.x, at.y, 0, 0)
    return Table(shown, tuple(edges), tuple(blocks), around)


def put_table(surface: Surface, table: Table) -> None:
    """Draw a table."""
    for block in table.blocks:
        surface.begin({"class": "block"}, block.title)
        _words(surface, Point(block.box.x, block.box.y + 14), block.title, NAME, WIDTH)
        _rules(surface, table, block)
        for column, left, right in zip(table.columns, table.edges, table.edges[1:], strict=False):
            _words(surface, Point(left + PAD, block.grid.y + LINE), column.heading, HEAD, right - left - PAD)
        for row in block.rows:
            surface.begin(row.row.attributes, row.row.title)
            for column, left, cell in zip(table.columns, table.edges, row.cells, strict=False):
                for number, words in enumerate(cell, start=1):
                    _words(surface, Point(left + PAD, row.box.y + number * LINE), words, column.font, WIDTH)
            surface.end()
        surface.end()


def drawing_of(
    view: str, tables: Sequence[Table], marks: tuple[Mark, ...], description: str, *, looked_up: bool = False
) -> Drawing:
    """Return tables that stand below each other as a drawing; what is cut is cut between their blocks.

    ``looked_up`` tells whether something is looked up by what stands before the colon in the titles of the blocks.
    """
    shown = [table for table in tables if table.blocks]

    def put(surface: Surface) -> None:
        for table in shown:
            put_table(surface, table)

    content = box_around(table.box for table in shown) or Box(0, 0, WIDTH, TITLE)
    heads = {block.box: head_of(block.title) for table in shown for block in table.blocks}
    drawing = Drawing(view, content, marks, description, put, tuple(heads), from_above=True)
    return replace(drawing, heads=heads) if looked_up else drawing


def _rules(surface: Surface, table: Table, block: Block) -> None:
    surface.rect(block.grid, THIN)
    head = block.grid.y + LINE + PAD
    surface.line((Point(block.grid.x, head), Point(block.grid.right, head)), MARK)
    for row in block.rows[1:]:
        surface.line((Point(block.grid.x, row.box.y), Point(block.grid.right, row.box.y)), THIN)
    for x in table.edges[1:-1]:
        surface.line((Point(x, block.grid.y), Point(x, block.grid.bottom)), THIN)


def _words(surface: Surface, at: Point, words: str, font: Font, most: int) -> None:
    shown = fitted(words, font, most)
    if shown:
        surface.text(Text(at, shown, font, width_of(shown, font)))


def _widths(columns: Sequence[Column], groups: Sequence[Group]) -> list[int]:
    """Return how wide each column is: as its widest cell asks for, up to ``most`` and together up to ``WIDTH``."""
    wanted = [
        min(column.most, 2 * PAD + max(width_of(column.heading, HEAD), *_cell_widths(place, column, groups)))
        for place, column in enumerate(columns)
    ]
    over = sum(wanted) - WIDTH
    flexible = [place for place, column in enumerate(columns) if column.flexible and wanted[place] > LEAST]
    giving = sum(wanted[place] - LEAST for place in flexible)
    if over <= 0 or not giving:
        return wanted
    for place in flexible:
        wanted[place] -= -(-min(over, giving) * (wanted[place] - LEAST) // giving)
    return wanted


def _cell_widths(place: int, column: Column, groups: Sequence[Group]) -> list[int]:
    cells = (row.cells[place] for group in groups for row in group.rows)
    return [0, *(width_of(line, column.font) for cell in cells for line in cell.split("\n"))]


def _blocks(group: Group, columns: Sequence[Column], edges: Sequence[int], y: int) -> Iterator[Block]:
    """Yield the rows of a group in blocks from ``y`` down."""
    cells = [_broken(row, columns, edges) for row in group.rows]
    heights = [LINE * max(map(len, lines)) + PAD for lines in cells]
    width, first = edges[-1] - edges[0], 0
    while first < len(group.rows):
        last = _last_of_block(heights, first)
        top = y + HEADINGS_HEIGHT
        rows: list[Placed] = []
        for place in range(first, last):
            rows.append(Placed(Box(edges[0], top, width, heights[place]), cells[place], group.rows[place]))
            top += heights[place]
        title = _title(group, first, last)
        grid = Box(edges[0], y + TITLE, width, top - y - TITLE)
        yield Block(title, Box(edges[0], y, max(width, _title_width(title)), top - y), grid, tuple(rows))
        first, y = last, up_to_grid(top + BETWEEN)


def _title(group: Group, first: int, last: int) -> str:
    """Return the title of the block of a group that has the rows from ``first`` to before ``last``."""
    if last - first == len(group.rows):
        return group.title
    if head_of(group.title) != group.title:
        return f"{group.title}{CONTINUED}" if first else group.title
    names = dict.fromkeys((group.rows[first].cells[0], group.rows[last - 1].cells[0]))
    return f"{group.title}, {TO.join(names)}"


def _title_width(title: str) -> int:
    return width_of(fitted(title, NAME, WIDTH), NAME)


def _last_of_block(heights: Sequence[int], first: int) -> int:
    """Return the row before which a block ends that begins with the row ``first``, at least one row after it."""
    if HEADINGS_HEIGHT + sum(heights[first:]) <= BLOCK_AT_MOST:
        return len(heights)
    last, height = first, HEADINGS_HEIGHT
    while last < len(heights) and (last == first or height + heights[last] <= BLOCK_HEIGHT):
        height += heights[last]
        last += 1
    return last


def _broken(row: Row, columns: Sequence[Column], edges: Sequence[int]) -> tuple[tuple[str, ...], ...]:
    """Return the lines of each cell of a row. What one cell breaks into more lines the others leave room for."""
    broken = [
        [_lines(line, column.font, right - left - 2 * PAD) for line in cell.split("\n")]
        for cell, column, left, right in zip(row.cells, columns, edges, edges[1:], strict=False)
    ]
    several = [cell for cell in broken if len(cell) > 1]
    for level in zip(*several, strict=True):
        most = max(map(len, level))
        for lines in level:
            lines += [""] * (most - len(lines))
    return tuple(tuple(line for lines in cell for line in lines) for cell in broken)


def _lines(words: str, font: Font, room: int) -> list[str]:
    return [fitted(line, font, room) for line in wrapped(words, font, room)]
