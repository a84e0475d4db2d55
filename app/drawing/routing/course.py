"""The line of one conductor, and the lines of all of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.drawing.surface.geometry import Point


@dataclass(frozen=True)
class Course:
    """The way of one conductor: pieces of line from the screw of end 0 to that of end 1; two where it is broken."""

    pieces: tuple[tuple[Point, ...], ...]

    @property
    def broken(self) -> bool:
        """Return whether no way was found and only its two ends are drawn."""
        return len(self.pieces) > 1


@dataclass(frozen=True)
class Routes:
    """The course of every conductor that is landed at both ends, by id in order, and how often they cross."""

    courses: Mapping[str, Course]
    crossings: int

    @property
    def broken(self) -> frozenset[str]:
        """Return the conductors for which there was no way."""
        return frozenset(name for name, course in self.courses.items() if course.broken)


def straightened(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the ends and bends of a line: no point twice, none in the middle of a straight piece."""
    kept: list[Point] = []
    for point in points:
        if kept and kept[-1] == point:
            continue
        if len(kept) > 1 and (kept[-2].x == kept[-1].x == point.x or kept[-2].y == kept[-1].y == point.y):
            kept.pop()
        kept.append(point)
    return tuple(kept)
