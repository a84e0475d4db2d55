"""A hand that draws a symbol: the verbs of a surface, with coordinates from the symbol's left connection point."""

from __future__ import annotations

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import THIN, Font, Pen, Surface, Text

Place = tuple[int, int]
"""x to the right and y down from the left connection point, in u."""

WORD = Font("words", 13, bold=True)
"""For the one letter that may stand in a symbol."""


class Ink:
    """Draws on a surface with ``at`` as its origin."""

    def __init__(self, surface: Surface, at: Point) -> None:
        self._surface = surface
        self._at = at

    def line(self, *places: Place, pen: Pen = THIN) -> None:
        """Draw a line through places."""
        self._surface.line([self._point(place) for place in places], pen)

    def box(self, left: int, top: int, right: int, bottom: int, pen: Pen = THIN) -> None:
        """Draw the edges of a box."""
        corner = self._point((left, top))
        self._surface.rect(Box(corner.x, corner.y, right - left, bottom - top), pen)

    def block(self, left: int, top: int, right: int, bottom: int) -> None:
        """Fill a box."""
        self.solid((left, top), (right, top), (right, bottom), (left, bottom))

    def solid(self, *places: Place) -> None:
        """Fill a polygon."""
        self._surface.shape([self._point(place) for place in places])

    def ring(self, x: int, y: int, radius: int, pen: Pen = THIN) -> None:
        """Draw a ring."""
        self._surface.circle(self._point((x, y)), radius, pen)

    def dot(self, x: int, y: int, radius: int) -> None:
        """Draw a filled circle."""
        self._surface.circle(self._point((x, y)), radius, None)

    def arch(self, start: Place, end: Place, pen: Pen = THIN) -> None:
        """Draw the half circle to the left of the way from ``start`` to ``end``."""
        self._surface.arch(self._point(start), self._point(end), pen)

    def word(self, x: int, baseline: int, word: str) -> None:
        """Write a letter in the middle of ``x``."""
        self._surface.text(Text(self._point((x, baseline)), word, WORD, width_of(word, WORD), "middle"))

    def _point(self, place: Place) -> Point:
        return Point(self._at.x + place[0], self._at.y + place[1])
