"""Where everything inside a part lies, measured from the upper left corner of the room for it.

Strips stand beside and below each other like words on a page. The page is as wide as makes box and room smallest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from app.catalogue.kind import Kind
from app.drawing.connection.inside.links import NOWHERE, Link
from app.drawing.connection.inside.spoken import WORDS_MOST, element_words, node_text
from app.drawing.connection.inside.strips import Row, Strip, inside_of
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import SMALL, Text
from app.drawing.symbols.choosing import symbol_of
from app.drawing.symbols.reach import reach_of
from app.drawing.symbols.symbol import LONG, Symbol

CELL = 92
"""From one node to the next: a symbol with a lead on either side."""
LEAD = (CELL - LONG) // 2
NAME_GAP, NAME_HEIGHT = 4, 10
ROW_ABOVE = 12
"""What a row takes at least, for the names at its ends; below there is room enough under any symbol."""
JOINT_NAME = 16
"""From a row down to the baseline of the name of a node in the middle of it."""
STRIP_GAP, LINE_GAP = 20, 12
PAGE_STEP = CELL // 2
PAGE_STEPS = 24


class Cell(NamedTuple):
    """One symbol: the elements that it stands for, its left connection point, its two nodes, its words."""

    elements: tuple[str, ...]
    symbol: Symbol
    at: Point
    left: str
    right: str
    words: Text | None


class Wire(NamedTuple):
    """A line that belongs to a node."""

    node: str
    points: tuple[Point, ...]


class NodeName(NamedTuple):
    """The name of a node at an end or in the middle of a row."""

    node: str
    text: Text


@dataclass(frozen=True)
class LaidInside:
    """Everything inside a part; ``joints`` are the dots where a row hangs on another, with their nodes.

    ``level`` is the line of its first row.
    """

    width: int
    height: int
    level: int = 0
    cells: tuple[Cell, ...] = ()
    wires: tuple[Wire, ...] = ()
    names: tuple[NodeName, ...] = ()
    joints: tuple[tuple[str, Point], ...] = ()

    def moved(self, dx: int, dy: int) -> LaidInside:
        """Return the same things elsewhere; the size stays."""
        return LaidInside(
            self.width,
            self.height,
            self.level + dy,
            tuple(
                each._replace(at=_moved(each.at, dx, dy), words=each.words and _moved_text(each.words, dx, dy))
                for each in self.cells
            ),
            tuple(Wire(node, tuple(_moved(point, dx, dy) for point in points)) for node, points in self.wires),
            tuple(NodeName(node, _moved_text(text, dx, dy)) for node, text in self.names),
            tuple((node, _moved(at, dx, dy)) for node, at in self.joints),
        )


def lay_inside(kind: Kind, hidden: Sequence[str], beside: int) -> LaidInside | None:
    """Return the inside of a kind, None where nothing is to be seen; ``hidden`` are elements that are drawn elsewhere.

    ``beside`` is how high the box is anyway, so that it costs nothing to be as high.
    """
    inside = inside_of(kind, hidden)
    if not inside.strips:
        return None
    strips = _in_columns([_laid_strip(strip, kind, inside.named) for strip in inside.strips])
    # Chains come first, so that what stands side by side is about as high; what is alike keeps its order.
    strips.sort(key=lambda strip: -len(strip.cells))
    widest = max(strip.width for strip in strips)
    # Only the page that is chosen is laid out; a page is judged by its size.
    pages = [_lines(strips, widest + step * PAGE_STEP) for step in range(PAGE_STEPS)]
    sizes = [(_width(lines), _height(lines)) for lines in pages]
    best = min(range(PAGE_STEPS), key=lambda number: (sizes[number][0] + max(sizes[number][1], beside), number))
    return _page(pages[best], *sizes[best])


def _page(lines: Sequence[Sequence[LaidInside]], width: int, height: int) -> LaidInside:
    """Return strips where they stand on a page; those of one line have one level."""
    placed: list[LaidInside] = []
    y = 0
    for line in lines:
        level, x = _above(line), 0
        for strip in line:
            placed.append(strip.moved(x, y + level - strip.level))
            x += strip.width + STRIP_GAP
        y += level + _below(line) + LINE_GAP
    return LaidInside(
        width,
        height,
        0,
        tuple(each for one in placed for each in one.cells),
        tuple(each for one in placed for each in one.wires),
        tuple(each for one in placed for each in one.names),
        tuple(each for one in placed for each in one.joints),
    )


def _width(lines: Sequence[Sequence[LaidInside]]) -> int:
    return max(sum(strip.width + STRIP_GAP for strip in line) - STRIP_GAP for line in lines)


def _height(lines: Sequence[Sequence[LaidInside]]) -> int:
    return sum(_above(line) + _below(line) + LINE_GAP for line in lines) - LINE_GAP


def _above(line: Sequence[LaidInside]) -> int:
    return max(strip.level for strip in line)


def _below(line: Sequence[LaidInside]) -> int:
    return max(strip.height - strip.level for strip in line)


def _lines(strips: Sequence[LaidInside], most: int) -> list[list[LaidInside]]:
    """Return which strips stand side by side."""
    lines: list[list[LaidInside]] = []
    room = 0
    for strip in strips:
        if not lines or strip.width > room:
            lines.append([])
            room = most
        lines[-1].append(strip)
        room -= strip.width + STRIP_GAP
    return lines


def _in_columns(strips: Sequence[LaidInside]) -> list[LaidInside]:
    """Return strips whose symbols stand below each other: each begins, and each of one symbol ends, like the widest."""
    before = max(_first_symbol(strip) for strip in strips)
    begun = [strip.moved(before - _first_symbol(strip), 0) for strip in strips]
    wide = [
        replace(strip, width=strip.width + before - _first_symbol(old))
        for strip, old in zip(begun, strips, strict=True)
    ]
    single = max((strip.width for strip in wide if _is_single(strip)), default=0)
    return [replace(strip, width=max(single, strip.width)) for strip in wide]


def _is_single(strip: LaidInside) -> bool:
    """Return whether a strip is one symbol for one element."""
    return len(strip.cells) == len(strip.cells[0].elements) == 1


def _first_symbol(strip: LaidInside) -> int:
    return min(cell.at.x for cell in strip.cells)


def _laid_strip(strip: Strip, kind: Kind, named: frozenset[str]) -> LaidInside:
    """Return a strip with its upper left corner at (0, 0)."""
    heights: list[int] = []
    y = 0
    for row in strip.rows:
        above, below = _reach(row, kind)
        heights.append(y + above)
        y += above + below
    cells: list[Cell] = []
    wires: list[Wire] = []
    names: list[NodeName] = []
    joints: list[tuple[str, Point]] = []
    for row, level in zip(strip.rows, heights, strict=True):
        cells += _cells(row, level, kind)
        wires += _wires(row, level, heights[0])
        names += _names(row, level, kind, named)
        joints += [(node, Point(line * CELL, heights[0])) for line, node in _hung(row)]
    left = min([0, *(name.text.at.x - (name.text.width if name.text.anchor == "end" else 0) for name in names)])
    right = max(row.end * CELL for row in strip.rows)
    right = max([right, *(name.text.at.x + name.text.width for name in names if name.text.anchor == "start")])
    first = min(left, *(row.column * CELL for row in strip.rows))
    return LaidInside(right - first, y, heights[0], tuple(cells), tuple(wires), tuple(names), tuple(joints)).moved(
        -first, 0
    )


def _reach(row: Row, kind: Kind) -> tuple[int, int]:
    """Return how much room a row takes above and below its line."""
    above, below = ROW_ABOVE, JOINT_NAME
    for link in row.links:
        up, down = reach_of(symbol_of(kind.elements[link.element], kind))
        worded = NAME_GAP + NAME_HEIGHT if element_words(link.element, kind) else 0
        above, below = max(above, up + worded), max(below, down)
    return above, below + NAME_GAP


def _cells(row: Row, level: int, kind: Kind) -> Iterator[Cell]:
    top = max(reach_of(symbol_of(kind.elements[link.element], kind))[0] for link in row.links)
    for number, link in enumerate(row.links):
        x = (row.column + number) * CELL
        words = fitted(element_words(link.element, kind), SMALL, WORDS_MOST)
        at = Point(x + CELL // 2, level - top - NAME_GAP)
        text = Text(at, words, SMALL, width_of(words, SMALL), "middle") if words else None
        symbol = symbol_of(kind.elements[link.element], kind)
        yield Cell(link.elements, symbol, Point(x + LEAD, level), link.left, link.right, text)


def _wires(row: Row, level: int, main: int) -> Iterator[Wire]:
    """Yield the lines of a row: between its symbols, at its ends, and up to the first row at ``main``."""
    nodes = row.nodes()
    for number, node in enumerate(nodes):
        if node == NOWHERE:
            continue
        x = (row.column + number) * CELL
        begin, end = Point(x - LEAD, level), Point(x + LEAD, level)
        if number == 0:
            yield Wire(node, (Point(x, main), Point(x, level), end) if row.joined_left else (Point(x, level), end))
        elif number < len(nodes) - 1:
            yield Wire(node, (begin, end))
        else:
            last = Point(row.end * CELL, level)
            yield Wire(node, (begin, last, Point(last.x, main)) if row.joined_right else (begin, Point(x, level)))


def _hung(row: Row) -> Iterator[tuple[int, str]]:
    """Yield the column lines at which a row hangs on the first one, with the node there."""
    if row.joined_left:
        yield row.column, row.nodes()[0]
    if row.joined_right:
        yield row.end, row.nodes()[-1]


def _names(row: Row, level: int, kind: Kind, named: frozenset[str]) -> Iterator[NodeName]:
    nodes = row.nodes()
    if not row.joined_left and nodes[0] != NOWHERE:
        yield NodeName(nodes[0], node_text((nodes[0],), kind, Point(row.column * CELL - NAME_GAP, level), "end"))
    if not row.joined_right and nodes[-1] != NOWHERE:
        far: Link = row.links[-1]
        yield NodeName(
            nodes[-1],
            node_text((nodes[-1], *far.beyond), kind, Point(row.end * CELL + NAME_GAP, level), "start"),
        )
    for number, node in enumerate(nodes[1:-1], start=1):
        if node in named:
            at = Point((row.column + number) * CELL, level + JOINT_NAME - 4)
            yield NodeName(node, node_text((node,), kind, at, "middle"))


def _moved(point: Point, dx: int, dy: int) -> Point:
    return Point(point.x + dx, point.y + dy)


def _moved_text(text: Text, dx: int, dy: int) -> Text:
    return text._replace(at=_moved(text.at, dx, dy))
