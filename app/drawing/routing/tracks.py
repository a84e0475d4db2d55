"""A way as the list of its tracks, which is the form in which its pieces can be pushed aside.

Rules of the file: pieces lie along rows and columns in turn, so that one number says where each lies: its row or its
column, its *track*. A piece reaches from the track before to the track after; the first begins and the last ends at a
port, and both stay where they are. A piece may be of no length, where a wire turns at its port.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.drawing.routing.field import Node
from app.drawing.routing.ports import Port


@dataclass
class Tracks:
    """The way of one wire between its two ports; ``at[k]`` is a row if piece ``k`` lies across, else a column.

    ``at`` changes as pieces are pushed aside.
    """

    first: Port
    last: Port
    at: list[int]

    def across(self, k: int) -> bool:
        """Return whether piece ``k`` lies along a row."""
        return self.first.sideways == (k % 2 == 0)

    def reach(self, k: int) -> int:
        """Return the track of piece ``k``, or of the port where ``k`` is one before the first or after the last."""
        if k < 0:
            return self.first.at.i if self.first.sideways else self.first.at.j
        if k >= len(self.at):
            return self.last.at.i if self.last.sideways else self.last.at.j
        return self.at[k]

    def nodes(self) -> list[Node]:
        """Return the way as its ends and bends, each once."""
        points = [self.first.at]
        for k, (one, other) in enumerate(pairwise(self.at)):
            points.append(Node(other, one) if self.across(k) else Node(one, other))
        points.append(self.last.at)
        return without_idle(points)


def tracks_of(way: Sequence[Node], first: Port, last: Port) -> Tracks:
    """Return the tracks of a way given by its ends and bends."""
    at = []
    across = first.sideways
    if len(way) > 1 and (way[0].j == way[1].j) != across:
        at.append(first.at.j if across else first.at.i)
        across = not across
    for start, end in pairwise(way):
        if (start.j == end.j) != across:
            raise AssertionError("the pieces of a way lie across and down in turn")
        at.append(start.j if across else start.i)
        across = not across
    if across == last.sideways:
        at.append(last.at.j if across else last.at.i)
    return Tracks(first, last, at)


def without_idle(points: Sequence[Node]) -> list[Node]:
    """Return the ends and bends of a way: no point twice, none in the middle of a straight piece."""
    kept: list[Node] = []
    for point in points:
        if kept and kept[-1] == point:
            continue
        if len(kept) > 1 and (kept[-2].i == kept[-1].i == point.i or kept[-2].j == kept[-1].j == point.j):
            kept.pop()
        kept.append(point)
    return kept
