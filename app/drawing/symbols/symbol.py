"""What a symbol is: a small drawing in line between two connection points.

Rules of the file: every symbol has the same size, with its connection points on its left and right edge at half its
height, so that ladders and insides can string them. It is drawn at rest unless a state is given. Weight along a line
means hot, so what a symbol does now is shown by fill, by the place of a blade and by the weight of its body; the
leads take the pens of what they are joined to.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.drawing.surface.geometry import GRID, Box, Point
from app.drawing.surface.verbs import THIN, Pen, Surface
from app.drawing.symbols.ink import Ink

WIDTH, HEIGHT = 5, 4
"""The size of every symbol in lanes of the grid."""
LONG = WIDTH * GRID
"""From one connection point to the other in u."""
HALF = HEIGHT * GRID // 2
"""From the line of the connection points up or down to the edge in u."""
UNKNOWN = "unknown"

ACTS: Mapping[str, bool] = {
    "closed": True,
    "whole": True,
    "pulled-in": True,
    "on": True,
    "open": False,
    "released": False,
    "off": False,
}
"""The words of ``ElementState.state``: whether a thing conducts, or does what it is there for."""

Body = Callable[[Ink, bool | None], None]
"""Draws what lies between the leads. It gets whether the thing acts, None for at rest or not known."""


@dataclass(frozen=True)
class Symbol:
    """A symbol with its meaning in words and where its shape comes from.

    ``body`` lies between ``starts`` and ``ends`` on the line of the connection points, in u from the left one; leads
    join it to them. ``has_states`` tells whether it looks different when it acts. ``in_line`` is False for what ends
    a line, such as an earth: there is no connection point on its right.
    """

    name: str
    meaning: str
    basis: str
    body: Body
    starts: int
    ends: int
    has_states: bool = False
    in_line: bool = True

    def box(self, at: Point) -> Box:
        """Return the room that the symbol takes with its left connection point at ``at``."""
        return Box(at.x, at.y - HALF, LONG, 2 * HALF)

    def right_of(self, at: Point) -> Point | None:
        """Return the right connection point, None where there is none."""
        return Point(at.x + LONG, at.y) if self.in_line else None

    def draw(self, surface: Surface, at: Point, state: str = "", left: Pen = THIN, right: Pen = THIN) -> None:
        """Draw the symbol with its left connection point at ``at``.

        ``state`` is a word of ``ElementState.state``: one of ``ACTS``, ``unknown``, or empty for at rest. ``left`` and
        ``right`` are the pens of the leads.

        Raises:
            ValueError: there is no such state.
        """
        if state not in ACTS and state not in (UNKNOWN, ""):
            raise ValueError(f"{state!r} is no state of an element; there are {', '.join(sorted(ACTS))}, {UNKNOWN}")
        surface.begin({"data-symbol": self.name, "class": "symbol", **({"data-state": state} if state else {})})
        ink = Ink(surface, at)
        ink.line((0, 0), (self.starts, 0), pen=left)
        if self.in_line:
            ink.line((self.ends, 0), (LONG, 0), pen=right)
        self.body(ink, ACTS.get(state) if self.has_states else None)
        if state == UNKNOWN:
            ink.word(LONG - 5, 14, "?")
        surface.end()
