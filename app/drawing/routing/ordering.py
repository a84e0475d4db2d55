"""In which order the pieces of a channel lie, so that their wires cross least and those of a bundle stay together.

Rules of the file: an order is a list of numbers of pieces, the one on the lowest track first. It is found by putting
each piece where it costs least and looking again until nothing gets better. Of places that cost the same, one keeps to
its bundle; nothing else decides, so that a small change elsewhere hardly changes an order.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.drawing.routing.channels import Channel
from app.drawing.routing.pieces import Piece
from app.drawing.routing.preference import preference
from app.drawing.routing.room import find_room, too_long
from app.drawing.routing.tracks import Tracks

LOOKS_MOST = 4
COARSE = 6
"""Pieces whose lowest tracks differ by less are taken for equals, so that moving a part by a step changes no order."""
CROSSING = 8
"""What a crossing counts, when 1 is what it counts that a piece which turns back lies further out than another."""
Costs = Sequence[Sequence[int]]
"""``costs[i][j]``: how much more it costs to have piece ``i`` before piece ``j`` than after it."""


def ordered(channel: Channel, ways: Sequence[Tracks], bundles: Sequence[str]) -> list[int]:
    """Return the order of a channel, without the pieces for which it has no lane."""
    if len(channel.pieces) == 1:
        return [0]
    costs = _costs(channel, ways)
    order: list[int] = []
    for i in _by_bundle(channel, bundles):
        _insert(order, i, costs[i])
    for _ in range(LOOKS_MOST):
        if not _improve(order, costs):
            break
    if find_room(order, channel, costs):
        for _ in range(LOOKS_MOST):
            if not _improve(order, costs, channel):
                break
    return order


def _costs(channel: Channel, ways: Sequence[Tracks]) -> Costs:
    pieces = channel.pieces
    costs = [[0] * len(pieces) for _ in pieces]
    for i, near in enumerate(channel.near):
        for j in near:
            if j < i:
                costs[i][j] = _cost(pieces[i], pieces[j], ways)
                costs[j][i] = -costs[i][j]
    return costs


def _cost(one: Piece, other: Piece, ways: Sequence[Tracks]) -> int:
    """Return how much more it costs to have ``one`` before the other: crossings, and of equals what gets longer."""
    shorter = 0 if one.wire == other.wire else one.leaning - other.leaning
    return CROSSING * preference(one, other, ways) + shorter


def _by_bundle(channel: Channel, bundles: Sequence[str]) -> list[int]:
    """Return the pieces in the order in which they are put in: from the lower tracks, by bundles."""
    pieces = channel.pieces
    lowest = min(piece.least for piece in pieces)

    def key(i: int) -> tuple[int, int, str, int, int]:
        piece = pieces[i]
        return (piece.least - lowest) // COARSE, piece.leaning, bundles[piece.wire], piece.wire, i

    return sorted(range(len(pieces)), key=key)


def _insert(order: list[int], new: int, costs: Sequence[int]) -> None:
    """Put a piece where it costs least; of several such places, the last."""
    cost = best = 0
    place = len(order)
    for number in range(len(order) - 1, -1, -1):
        cost += costs[order[number]]
        if cost < best:
            best, place = cost, number
    order.insert(place, new)


def _improve(order: list[int], costs: Costs, channel: Channel | None = None) -> bool:
    """Put each piece where it costs less than where it is; return whether anything moved.

    With a ``channel`` only where there is room for all of them then.
    """
    moved = False
    for i in list(order):
        here = order.index(i)
        for _, place in sorted(_better_places(order, here, costs[i])):
            del order[here]
            order.insert(place, i)
            if channel is None or not too_long(order, channel):
                moved = True
                break
            del order[place]
            order.insert(here, i)
    return moved


def _better_places(order: Sequence[int], here: int, costs: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Yield what a piece costs less at another place, as a negative number, and the place."""
    cost = 0
    for number in range(here - 1, -1, -1):
        cost += costs[order[number]]
        if cost < 0:
            yield cost, number
    cost = 0
    for number in range(here + 1, len(order)):
        cost -= costs[order[number]]
        if cost < 0:
            yield cost, number
