"""Channels: pieces that come beside each other, directly or through others, and so share one order and its lanes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.drawing.routing.pieces import Piece


@dataclass(frozen=True)
class Channel:
    """Pieces of one channel; ``near[i]`` are the numbers of those that need another lane than piece ``i``."""

    pieces: Sequence[Piece]
    near: Sequence[frozenset[int]]


def channels_of(pieces: Iterable[Piece]) -> list[Channel]:
    """Return the channels in which pieces of one direction lie."""
    sorted_pieces = sorted(pieces, key=lambda piece: (piece.low, piece.high, piece.wire, piece.k))
    near = _near(sorted_pieces)
    seen: set[int] = set()
    channels = []
    for start in range(len(sorted_pieces)):
        if start not in seen:
            members = _reached(start, near)
            seen.update(members)
            channels.append(_channel(members, sorted_pieces, near))
    return channels


def _near(pieces: Sequence[Piece]) -> list[set[int]]:
    """Return which pieces reach beside each other and can be pushed onto one track."""
    near: list[set[int]] = [set() for _ in pieces]
    for i, one in enumerate(pieces):
        high, least, most = one.high, one.least, one.most
        for j in range(i + 1, len(pieces)):
            other = pieces[j]
            if other.low > high:
                break
            if least <= other.most and other.least <= most:
                near[i].add(j)
                near[j].add(i)
    return near


def _reached(start: int, near: Sequence[set[int]]) -> list[int]:
    found, waiting = {start}, [start]
    while waiting:
        new = near[waiting.pop()] - found
        found |= new
        waiting.extend(new)
    return sorted(found)


def _channel(members: Sequence[int], pieces: Sequence[Piece], near: Sequence[set[int]]) -> Channel:
    number = {member: i for i, member in enumerate(members)}
    return Channel(
        [pieces[member] for member in members],
        [frozenset(number[other] for other in near[member]) for member in members],
    )
