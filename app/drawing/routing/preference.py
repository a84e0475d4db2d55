"""What it costs to have one piece on a lower track than another: the crossings that follow.

Rules of the file: only the two wires are looked at, from the pieces outward to where they part.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.drawing.routing.pieces import End, Piece
from app.drawing.routing.tracks import Tracks

ON_EACH_OTHER = 12
"""Two wires on one track are worse than so many crossings."""
OWN_ORDER = 48
"""Two pieces of one wire stay in their order, so that it takes no more length."""


def preference(one: Piece, other: Piece, ways: Sequence[Tracks]) -> int:
    """Return how much more it costs to have ``one`` on the lower track than to have it on the higher one."""
    if one.wire == other.wire:
        return OWN_ORDER if one.at > other.at else -OWN_ORDER
    cost = _cost(one, other) - _cost(other, one)
    for end in one.ends:
        for far_end in other.ends:
            if end.place == far_end.place and end.turn == far_end.turn != 0:
                cost += _on_one_track(one, end, other, far_end, ways)
    return cost


def _cost(lower: Piece, higher: Piece) -> int:
    """Return what it costs to have ``lower`` on the lower track, as far as the next pieces of both tell."""
    cost = 0
    for end in lower.ends:
        if end.turn > 0 and end.far >= higher.least and higher.low <= end.place <= higher.high:
            cost += _meeting(end, higher)
    for end in higher.ends:
        if end.turn < 0 and end.far <= lower.most and lower.low <= end.place <= lower.high:
            cost += _meeting(end, lower)
    return cost


def _meeting(end: End, other: Piece) -> int:
    """Return what it costs that a wire turns at ``end`` towards another piece, which reaches past there."""
    for far_end in other.ends:
        if far_end.place == end.place:
            return ON_EACH_OTHER if far_end.turn == -end.turn else 0
    return 1


def _on_one_track(one: Piece, end: End, other: Piece, far_end: End, ways: Sequence[Tracks]) -> int:
    """Return the preference of two pieces that turn onto one track, by where their ways part at last."""
    order = _parting(ways[one.wire], one.k + end.step, end.step, ways[other.wire], other.k + far_end.step, far_end.step)
    # At a bend the outer wire stays the outer one.
    return -order * end.turn if end.place == one.high else order * end.turn


def _parting(one: Tracks, k: int, step: int, other: Tracks, other_k: int, other_step: int) -> int:
    """Return 1 if ``one`` belongs on the higher track where two pieces share one, -1 if on the lower, 0 if on either.

    Both are followed from piece ``k`` and ``other_k`` on, forward or backward by their steps.
    """
    start, goal, other_goal = one.reach(k - step), one.reach(k + step), other.reach(other_k + other_step)
    direction = 1 if goal + other_goal > 2 * start else -1
    turn, other_turn = _turn(one, k, step), _turn(other, other_k, other_step)
    if goal != other_goal:
        ends_first = direction * (other_goal - goal) > 0
        return turn if ends_first else -other_turn
    if turn != other_turn:
        return 1 if turn > other_turn else -1
    if not turn:
        return 0
    return -direction * turn * _parting(one, k + step, step, other, other_k + other_step, other_step)


def _turn(way: Tracks, k: int, step: int) -> int:
    """Return to which side a way turns after its piece ``k``, 0 where it ends."""
    if not 0 <= k + step < len(way.at):
        return 0
    far, at = way.reach(k + 2 * step), way.at[k]
    return (far > at) - (far < at)
