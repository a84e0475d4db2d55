"""Which track each piece of a channel takes, once their order is known."""

from __future__ import annotations

from collections.abc import Sequence

from app.drawing.routing.channels import Channel

ASIDE = 3
"""So many lanes, or half of what it has, a piece keeps from the lowest track that it can take."""


def lanes_of(order: Sequence[int], channel: Channel) -> list[int]:
    """Return a track for each piece of an order: each by itself where it likes to be, pushed on by those before it.

    A piece that turns back lies as far inside as it can, and others make room for it.
    """
    before = _before(order, channel)
    least, most = _bounds(before, order, channel)
    wanted = _wanted(before, order, channel, least, most)
    lanes: list[int] = []
    for number, track in enumerate(wanted):
        lanes.append(min(max([track, *(lanes[other] + 1 for other in before[number])]), most[number]))
    return lanes


def _before(order: Sequence[int], channel: Channel) -> list[list[int]]:
    """Return for each place in an order the places before it with pieces that need a lower track."""
    place = {i: number for number, i in enumerate(order)}
    return [
        sorted(place[j] for j in channel.near[i] if place.get(j, number) < number) for number, i in enumerate(order)
    ]


def _bounds(before: Sequence[Sequence[int]], order: Sequence[int], channel: Channel) -> tuple[list[int], list[int]]:
    """Return the lowest and the highest track of each piece that leaves enough of them for the others."""
    least, most = [channel.pieces[i].least for i in order], [channel.pieces[i].most for i in order]
    for number, others in enumerate(before):
        for other in others:
            least[number] = max(least[number], least[other] + 1)
    for number in range(len(order) - 1, -1, -1):
        for other in before[number]:
            most[other] = min(most[other], most[number] - 1)
    return least, most


def _wanted(
    before: Sequence[Sequence[int]], order: Sequence[int], channel: Channel, least: Sequence[int], most: Sequence[int]
) -> list[int]:
    """Return where each piece likes to lie."""
    lean = _leanings(before, order, channel)
    wanted = []
    for number, i in enumerate(order):
        piece = channel.pieces[i]
        if lean[number] < 0:
            wanted.append(least[number])
        elif lean[number] > 0:
            wanted.append(most[number])
        else:
            # Not by what the others leave, so that a change at one side of a channel does not reach the other.
            wanted.append(piece.least + min((piece.most - piece.least) // 2, ASIDE))
    return wanted


def _leanings(before: Sequence[Sequence[int]], order: Sequence[int], channel: Channel) -> list[int]:
    """Return to which side each piece goes: its own, or that of those which it would keep from going to theirs."""
    own = [channel.pieces[i].leaning for i in order]
    lower, higher = [side < 0 for side in own], [side > 0 for side in own]
    for number, others in enumerate(before):
        higher[number] = higher[number] or any(higher[other] for other in others)
    for number in range(len(own) - 1, -1, -1):
        if lower[number]:
            for other in before[number]:
                lower[other] = True
    return [side or high - low for side, low, high in zip(own, lower, higher, strict=True)]
