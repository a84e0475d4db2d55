"""Sheet units, points and boxes.

Rules of the file: sheet coordinates are integers, absolute, x to the right and y down. Screws, corners and bends lie on
the grid; 1 u is 1 CSS px at 100 %.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

GRID = 12
"""Lane width in u: conductors run on lines of this lattice."""

PITCH = 24
"""From screw to screw in u."""


class Point(NamedTuple):
    """A place on the sheet."""

    x: int
    y: int


class Box(NamedTuple):
    """An upright rectangle by its upper left corner and its size, in u."""

    x: int
    y: int
    w: int
    h: int

    @property
    def right(self) -> int:
        """Return the x of the right edge."""
        return self.x + self.w

    @property
    def bottom(self) -> int:
        """Return the y of the lower edge."""
        return self.y + self.h

    def overlaps(self, other: Box) -> bool:
        """Return whether the two share more than an edge."""
        return self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom

    def grown(self, left: int, top: int, right: int, bottom: int) -> Box:
        """Return this box with each edge pushed out."""
        return Box(self.x - left, self.y - top, self.w + left + right, self.h + top + bottom)

    def moved(self, dx: int, dy: int) -> Box:
        """Return this box elsewhere."""
        return Box(self.x + dx, self.y + dy, self.w, self.h)


def on_grid(value: int) -> int:
    """Return the grid line nearest to a coordinate, the lower one of two."""
    return (value + GRID // 2 - 1) // GRID * GRID


def up_to_grid(value: int) -> int:
    """Return the first grid line at or after a coordinate."""
    return -(-value // GRID) * GRID


def box_around(boxes: Iterable[Box]) -> Box | None:
    """Return the smallest box around all of ``boxes``, None where there are none."""
    found = list(boxes)
    if not found:
        return None
    x, y = min([box.x for box in found]), min([box.y for box in found])
    return Box(x, y, max([box.x + box.w for box in found]) - x, max([box.y + box.h for box in found]) - y)


def box_of_points(points: Iterable[Point]) -> Box | None:
    """Return the smallest box around points, None where there are none."""
    found = list(points)
    if not found:
        return None
    across, down = [point[0] for point in found], [point[1] for point in found]
    x, y = min(across), min(down)
    return Box(x, y, max(across) - x, max(down) - y)
