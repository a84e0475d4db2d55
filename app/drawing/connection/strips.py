"""Where between two neighbouring lanes there is room for words: what lines, parts and other words leave free.

Rules of the file: a strip is the space above a row or to the left of a column of the lattice, one lane wide, which is
what a line of small words fills. What stands in it is kept as one mask, so that a free stretch is found without
looking at single lines.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from app.drawing.surface.geometry import GRID, Box, Point


class Strips:
    """The strips of a sheet. Coordinates of lanes and lines lie on the grid."""

    def __init__(self, extent: Box) -> None:
        self.left, self.top = extent.x // GRID * GRID - GRID, extent.y // GRID * GRID - GRID
        self._above = [0] * ((extent.bottom - self.top) // GRID + 3)
        self._beside = [0] * ((extent.right - self.left) // GRID + 3)

    def lay(self, line: Sequence[Point]) -> None:
        """Take the places at which a line goes through strips; along the strip beside it words may stand."""
        for a, b in pairwise(line):
            if a.x == b.x:
                bit = 1 << (a.x - self.left) // GRID
                for j in self._between(a.y, b.y, self.top):
                    self._above[j] |= bit
            else:
                bit = 1 << (a.y - self.top) // GRID
                for i in self._between(a.x, b.x, self.left):
                    self._beside[i] |= bit

    def block(self, box: Box, shorter: int = 0) -> None:
        """Take all that a box covers, of each strip ``shorter`` less at both ends."""
        for strips, (low, high), (start, end) in (
            (self._above, self._lanes(box.y, box.bottom, self.top), (box.x - self.left, box.right - self.left)),
            (self._beside, self._lanes(box.x, box.right, self.left), (box.y - self.top, box.bottom - self.top)),
        ):
            taken = _bits((start + shorter) // GRID, -((shorter - end) // GRID))
            for lane in range(max(low, 0), min(high, len(strips))):
                strips[lane] |= taken

    def reach(self, level: bool, lane: int, start: int, goal: int) -> int:
        """Return up to where the strip of a lane is free from ``start`` towards ``goal``, the grid line there included.

        What stands at ``start`` itself does not count.
        """
        mask, origin = self._strip(level, lane)
        at, to = (start - origin) // GRID, (goal - origin) // GRID
        if at < to:
            ahead = mask >> at + 1
            return min(goal, origin + GRID * (at + (ahead & -ahead).bit_length())) if ahead else goal
        behind = mask & (1 << at) - 1
        return max(goal, origin + GRID * (behind.bit_length() - 1)) if behind else goal

    def stretches(self, level: bool, lane: int, low: int, high: int) -> Iterator[tuple[int, int]]:
        """Yield the free stretches of the strip of a lane between two grid lines."""
        mask, origin = self._strip(level, lane)
        first, last = (low - origin) // GRID, (high - origin) // GRID
        taken = mask & _bits(first, last) | 1 << first | 1 << last
        before = first
        taken ^= 1 << first
        while taken:
            lowest = taken & -taken
            after = lowest.bit_length() - 1
            yield origin + GRID * before, origin + GRID * after
            before = after
            taken ^= lowest

    def _strip(self, level: bool, lane: int) -> tuple[int, int]:
        if level:
            return self._above[(lane - self.top) // GRID], self.left
        return self._beside[(lane - self.left) // GRID], self.top

    @staticmethod
    def _lanes(low: int, high: int, origin: int) -> tuple[int, int]:
        """Return the first of the strips in which anything between two coordinates lies, and the one after the last."""
        return (low - origin) // GRID + 1, -((origin - high) // GRID) + 1

    def _between(self, a: int, b: int, origin: int) -> range:
        first, last = sorted(((a - origin) // GRID, (b - origin) // GRID))
        return range(first + 1, last + 1)


def _bits(first: int, last: int) -> int:
    return (1 << last + 1) - (1 << max(first, 0))
