"""How far each point is from the hot and from the common side, and the shortest ways there.

Rules of the file: whatever switches counts as closed; loads and sources are not passed. A way through contacts that
calls or safeties move is taken before one through a contact that a board moves, since a rung is read as the call that
works its load. Of equally good ways the one whose pieces come first by name is taken, so that the same layout gives
the same ladder.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from app.drawing.ladder.graph import LOADS, Graph, Piece

Goal = Callable[[str], bool]
FAR = 1_000_000
ASIDE = 6
"""What a contact that a board moves counts for, in pieces."""


@dataclass(frozen=True)
class Reach:
    """For each point that is reached: the pieces that lead there from a start, and the start."""

    ways: Mapping[str, tuple[str, ...]]
    start_of: Mapping[str, str]

    def distance(self, point: str) -> int:
        """Return how many pieces lie between, ``FAR`` where nothing leads there."""
        return len(self.ways[point]) if point in self.ways else FAR


def reach_from(starts: Iterable[str], graph: Graph, stop: Collection[str]) -> Reach:
    """Return what is reached from ``starts`` without going on from a point in ``stop``."""
    ways: dict[str, tuple[str, ...]] = {}
    start_of: dict[str, str] = {}
    ahead: list[tuple[int, tuple[str, ...], str, str]] = [(0, (), point, point) for point in sorted(starts)]
    while ahead:
        cost, way, here, start = heappop(ahead)
        if here in ways:
            continue
        ways[here], start_of[here] = way, start
        if here in stop and way:
            continue
        for piece in graph.at.get(here, ()):
            if may_pass(piece) and piece.other(here) not in ways:
                heappush(ahead, (cost + _cost(piece, graph), (*way, piece.name), piece.other(here), start))
    return Reach(ways, start_of)


def _cost(piece: Piece, graph: Graph) -> int:
    return ASIDE if piece.name in graph.sided else 1


def may_pass(piece: Piece) -> bool:
    """Return whether a way may lead through a piece."""
    return piece.sort not in LOADS and piece.sort != "source"


def way_to(
    start: str,
    is_goal: Goal,
    graph: Graph,
    free: Collection[Piece],
    stop: Collection[str],
    closed: Collection[str] = (),
) -> Sequence[Piece] | None:
    """Return the shortest way from a point to a goal through pieces that are ``free``, turned as they are walked.

    Points in ``closed`` are not touched, those in ``stop`` are not walked through. None where there is no such way.
    """
    if is_goal(start):
        return ()
    if start in stop:
        return None
    came: dict[str, Piece] = {}
    shut = {start, *closed}
    ahead: list[tuple[int, int, str]] = [(0, 0, start)]
    best = {start: 0}
    while ahead:
        cost, _, here = heappop(ahead)
        if here != start and is_goal(here):
            return _walked(here, start, came)
        if cost > best[here] or (here in stop and here != start):
            continue
        for piece in graph.at.get(here, ()):
            other = piece.other(here)
            if other in shut or piece not in free or not may_pass(piece):
                continue
            dearer = cost + _cost(piece, graph)
            if dearer < best.get(other, FAR):
                best[other] = dearer
                came[other] = piece if piece.a == here else piece.turned()
                heappush(ahead, (dearer, len(came), other))
    return None


def _walked(goal: str, start: str, came: Mapping[str, Piece]) -> Sequence[Piece]:
    found: list[Piece] = []
    here = goal
    while here != start:
        found.append(came[here])
        here = came[here].a
    return found[::-1]


def turned(way: Sequence[Piece]) -> tuple[Piece, ...]:
    """Return a way walked the other way round."""
    return tuple(piece.turned() for piece in reversed(way))
