"""The pieces of ways in one direction: how far each can be pushed aside, and which way it turns at its ends.

Rules of the file: a piece lies on a *track* and reaches from ``low`` to ``high`` along it. It can be pushed from
``least`` to ``most``, which are tracks, with nothing but free points under it on every track between.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from app.drawing.routing.field import Field, span
from app.drawing.routing.ports import Port
from app.drawing.routing.tracks import Tracks


class End(NamedTuple):
    """Where a piece turns: at ``place`` along its track, to lower tracks (-1) or higher ones (1), as far as ``far``.

    ``step`` tells whether its way goes on there (1) or comes from there (-1).
    """

    place: int
    turn: int
    far: int
    step: int


class Piece(NamedTuple):
    """A piece of the way of wire ``wire``, the ``k``-th."""

    wire: int
    k: int
    at: int
    low: int
    high: int
    least: int
    most: int
    ends: tuple[End, End]

    @property
    def leaning(self) -> int:
        """Return the side to which both its neighbours lie, so that it becomes shorter there; 0 between them."""
        one, other = self.ends
        return one.turn if one.turn == other.turn else 0


def pieces_of(ways: Sequence[Tracks], bare: Field, across: bool) -> Iterator[Piece]:
    """Yield the pieces that lie across (along rows), or those that lie down."""
    for wire, way in enumerate(ways):
        for k in range(0 if way.across(0) == across else 1, len(way.at), 2):
            piece = _piece(wire, k, way, bare, across)
            if piece is not None:
                yield piece


def _piece(wire: int, k: int, way: Tracks, bare: Field, across: bool) -> Piece | None:
    at, before, after = way.at[k], way.reach(k - 1), way.reach(k + 1)
    ends = _end(way, k, before, -1), _end(way, k, after, 1)
    if before > after:
        before, after, ends = after, before, ends[::-1]
    if k in (0, len(way.at) - 1):
        return Piece(wire, k, at, before, after, at, at, ends)
    least, most = _limits(way, k, (before, after), bare, across)
    return Piece(wire, k, at, before, after, least, most, ends)


def _end(way: Tracks, k: int, place: int, step: int) -> End:
    neighbour = k + step
    if not 0 <= neighbour < len(way.at):
        return End(place, 0, way.at[k], step)
    far = way.reach(k + 2 * step)
    turn = (far > way.at[k]) - (far < way.at[k])
    if not turn:
        port = way.first if step < 0 else way.last
        turn = -(port.di + port.dj)
    return End(place, turn, far, step)


def _limits(way: Tracks, k: int, places: tuple[int, int], bare: Field, across: bool) -> tuple[int, int]:
    """Return the lowest and highest track to which a piece between two others can be pushed."""
    along, beside = (bare.free_across, bare.free_column) if across else (bare.free_column, bare.free_across)
    at, under = way.at[k], span(*places)
    swept = beside[places[0]] & beside[places[1]]
    for port, next_to_it in ((way.first, k == 1), (way.last, k == len(way.at) - 2)):
        if next_to_it and port.sideways != across:
            swept |= 1 << _place(port)
    least, most = at, at
    floor, ceiling = _port_limits(way, k, len(along) - 1)
    while least > floor and along[least - 1] & under == under and swept >> least - 1 & 1:
        least -= 1
    while most < ceiling and along[most + 1] & under == under and swept >> most + 1 & 1:
        most += 1
    return least, most


def _port_limits(way: Tracks, k: int, last_track: int) -> tuple[int, int]:
    """Return between which tracks a piece may lie for the ports next to it: never behind them."""
    floor, ceiling = 0, last_track
    for port, beside in ((way.first, k == 1), (way.last, k == len(way.at) - 2)):
        if beside:
            place = _place(port)
            if port.di + port.dj > 0:
                floor = max(floor, place)
            else:
                ceiling = min(ceiling, place)
    return floor, ceiling


def _place(port: Port) -> int:
    return port.at.i if port.sideways else port.at.j
