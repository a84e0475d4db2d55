"""Which points of the lattice are free, kept as bit masks so that one operation looks at a whole row.

Rules of the file: bit ``i`` of row ``j`` is the lattice point (i, j). A run along a row needs its points free *across*;
along a column, free *down*. A wire takes every point of each of its segments in that direction and so takes a bend in
both, which leaves exactly one thing that two wires may share: a point where both go straight and cross.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from app.drawing.surface.geometry import GRID, Box, Point


class Node(NamedTuple):
    """A lattice point by column and row."""

    i: int
    j: int


def span(first: int, last: int) -> int:
    """Return a mask with the bits from ``first`` to ``last``, both included, in either order."""
    if first > last:
        first, last = last, first
    return (1 << last + 1) - (1 << first)


class Field:
    """The lattice of one sheet; it changes as wires are laid.

    ``free_across[j]`` and ``free_down[j]`` are row masks, ``free_column[i]`` the same as ``free_down`` by column.
    ``wires_down[j]`` has the points with a wire along their column, ``wires_across[i]`` by column the points with a
    wire along their row: what a straight piece crosses is a count of bits.
    """

    def __init__(self, extent: Box) -> None:
        self.extent = extent
        self.columns, self.rows = extent.w // GRID + 1, extent.h // GRID + 1
        whole_row, whole_column = span(0, self.columns - 1), span(0, self.rows - 1)
        self.free_across = [whole_row] * self.rows
        self.free_down = [whole_row] * self.rows
        self.free_column = [whole_column] * self.columns
        self.wires_down = [0] * self.rows
        self.wires_across = [0] * self.columns
        self._runs: list[list[int] | None] = [None] * self.rows

    def node(self, point: Point) -> Node:
        """Return the lattice point of a place on the grid."""
        return Node((point.x - self.extent.x) // GRID, (point.y - self.extent.y) // GRID)

    def point(self, node: Node) -> Point:
        """Return the place of a lattice point."""
        return Point(node.i * GRID + self.extent.x, node.j * GRID + self.extent.y)

    def block(self, box: Box) -> None:
        """Take every point in a box, its edges included, in both directions."""
        first = self.node(Point(box.x + GRID - 1, box.y + GRID - 1))
        last = self.node(Point(box.right, box.bottom))
        across, down = span(first.i, last.i), span(first.j, last.j)
        for j in range(first.j, last.j + 1):
            self.free_across[j] &= ~across
            self.free_down[j] &= ~across
            self._runs[j] = None
        for i in range(first.i, last.i + 1):
            self.free_column[i] &= ~down

    def reserve(self, node: Node, sideways: bool) -> None:
        """Keep a point for the one wire that starts there along its row (``sideways``) or column."""
        if sideways:
            self.free_across[node.j] &= ~(1 << node.i)
            self._runs[node.j] = None
        else:
            self.free_down[node.j] &= ~(1 << node.i)
            self.free_column[node.i] &= ~(1 << node.j)

    def copy(self) -> Field:
        """Return a field that changes on its own."""
        other = Field.__new__(Field)
        other.extent, other.columns, other.rows = self.extent, self.columns, self.rows
        other.free_across, other.free_down = self.free_across[:], self.free_down[:]
        other.free_column = self.free_column[:]
        other.wires_down, other.wires_across = self.wires_down[:], self.wires_across[:]
        other._runs = self._runs[:]
        return other

    def lay(self, path: Sequence[Node]) -> None:
        """Take the points of a wire."""
        for start, end in pairwise(path):
            if start.j == end.j:
                self._lay_across(start.j, start.i, end.i)
            else:
                self._lay_down(start.i, start.j, end.j)

    def fits(self, path: Sequence[Node], own: Sequence[Node]) -> bool:
        """Return whether a wire can be laid along ``path`` as things are; its ports are its ``own``."""
        for start, end in pairwise(path):
            if start.j == end.j:
                free, under = self.free_across[start.j], span(start.i, end.i)
                for node in own:
                    if node.j == start.j:
                        free |= 1 << node.i
            else:
                free, under = self.free_column[start.i], span(start.j, end.j)
                for node in own:
                    if node.i == start.i:
                        free |= 1 << node.j
            if free & under != under:
                return False
        return True

    def lift(self, path: Sequence[Node], bare: Field) -> None:
        """Give back the points of a wire, as far as they are free in ``bare``, the field without any wire."""
        for start, end in pairwise(path):
            if start.j == end.j:
                self.free_across[start.j] |= span(start.i, end.i) & bare.free_across[start.j]
                self._runs[start.j] = None
                for i in range(min(start.i, end.i), max(start.i, end.i) + 1):
                    self.wires_across[i] &= ~(1 << start.j)
            else:
                self.free_column[start.i] |= span(start.j, end.j) & bare.free_column[start.i]
                for j in range(min(start.j, end.j), max(start.j, end.j) + 1):
                    self.free_down[j] |= 1 << start.i & bare.free_down[j]
                    self.wires_down[j] &= ~(1 << start.i)

    def runs(self, j: int) -> list[int]:
        """Return the free runs of a row as masks, from left to right."""
        found = self._runs[j]
        if found is None:
            found = self._runs[j] = _runs_of(self.free_across[j])
        return found

    def crossings(self, path: Sequence[Node]) -> int:
        """Return how many laid wires a path crosses."""
        count = 0
        for start, end in pairwise(path):
            if start.j == end.j:
                count += (self.wires_down[start.j] & span(start.i, end.i)).bit_count()
            else:
                count += (self.wires_across[start.i] & span(start.j, end.j)).bit_count()
        return count

    def all_crossings(self, paths: Iterable[Sequence[Node]]) -> int:
        """Return how often the laid wires cross in all.

        A bend crosses nothing; at a port a wire goes straight on into its landing and may be crossed.
        """
        count = 0
        for path in paths:
            bends = set(path[1:-1])
            for a, b in pairwise(path):
                if a.j == b.j:
                    own = sum(1 << node.i for node in (a, b) if node in bends)
                    count += (self.wires_down[a.j] & span(a.i, b.i) & ~own).bit_count()
        return count

    def _lay_across(self, j: int, first: int, last: int) -> None:
        self.free_across[j] &= ~span(first, last)
        self._runs[j] = None
        bit = 1 << j
        for i in range(min(first, last), max(first, last) + 1):
            self.wires_across[i] |= bit

    def _lay_down(self, i: int, first: int, last: int) -> None:
        self.free_column[i] &= ~span(first, last)
        bit = 1 << i
        for j in range(min(first, last), max(first, last) + 1):
            self.free_down[j] &= ~bit
            self.wires_down[j] |= bit


def _runs_of(free: int) -> list[int]:
    runs = []
    while free:
        lowest = free & -free
        rest = free + lowest
        run = free & ~rest
        runs.append(run)
        free &= ~run
    return runs
