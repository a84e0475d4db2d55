"""The inside of a part on the sheet: symbols with their words, lines from node to node, names at the ends."""

from __future__ import annotations

from app.catalogue.kind import Kind
from app.circuit.operating_point import OperatingPoint
from app.drawing.connection.inside.hot_nodes import hot_nodes
from app.drawing.connection.inside.laying import Cell, LaidInside
from app.drawing.connection.inside.spoken import element_words
from app.drawing.surface.verbs import HEAVY, THIN, Pen, Surface

JOINT = 3


def draw_inside(surface: Surface, part: str, kind: Kind, inside: LaidInside, point: OperatingPoint | None) -> None:
    """Draw what is inside a part; with an operating point, what is hot is heavy and each element shows its state."""
    hot = hot_nodes(part, kind, point) if point is not None else set()
    surface.begin({"data-inside": part, "class": "inside"})
    for node, points in inside.wires:
        surface.line(points, _pen(node, hot), {"class": "inner"})
    for _, at in inside.joints:
        surface.circle(at, JOINT, None, {"class": "joint"})
    for cell in inside.cells:
        _cell(surface, part, kind, cell, hot, point)
    for _, text in inside.names:
        surface.text(text, {"class": "node"})
    surface.end()


def _cell(surface: Surface, part: str, kind: Kind, cell: Cell, hot: set[str], point: OperatingPoint | None) -> None:
    names = " ".join(f"{part}.{element}" for element in cell.elements)
    found = point.elements.get(f"{part}.{cell.elements[0]}") if point is not None else None
    state = found.state if found is not None else ""
    words = element_words(cell.elements[0], kind) or cell.symbol.meaning
    surface.begin(
        {"data-element": names, "class": "element"}, ", ".join(filter(None, (words, cell.symbol.meaning, state)))
    )
    cell.symbol.draw(surface, cell.at, state, _pen(cell.left, hot), _pen(cell.right, hot))
    if cell.words is not None:
        surface.text(cell.words, {"class": "element-name"})
    surface.end()


def _pen(node: str, hot: set[str]) -> Pen:
    return HEAVY if node in hot else THIN
