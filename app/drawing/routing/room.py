"""Room in a channel: whether an order asks for more lanes than there are somewhere, and what gives way then.

Rules of the file: a chain is a row of pieces of which each needs a higher track than the one before, from one that can
go no lower to one that can go no higher. Where it is too long, the piece that it costs least moves before the chain or
after it; where none can, the longest is left out, to find another way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.drawing.routing.channels import Channel

TRIES = 4
"""For each piece of a channel."""


def find_room(order: list[int], channel: Channel, costs: Sequence[Sequence[int]]) -> bool:
    """Change an order until it fits; return whether it had to be changed."""
    for number in range(TRIES * len(order)):
        chain = too_long(order, channel)
        if not chain:
            return number > 0
        moves = sorted(_moves(chain, order, channel, costs))
        if moves:
            _, piece, place = moves[0]
            order.remove(piece)
            order.insert(place, piece)
        else:
            order.remove(max(chain, key=lambda i: (channel.pieces[i].high - channel.pieces[i].low, i)))
    while chain := too_long(order, channel):
        order.remove(chain[-1])
    return True


def too_long(order: Sequence[int], channel: Channel) -> list[int]:
    """Return the first chain with more pieces than there are tracks for them; empty if all fit."""
    pieces, near = channel.pieces, channel.near
    least: dict[int, int] = {}
    before: dict[int, int] = {}
    for i in order:
        lowest = pieces[i].least
        for j in near[i]:
            if j in least and least[j] >= lowest:
                lowest, before[i] = least[j] + 1, j
        least[i] = lowest
        if lowest > pieces[i].most:
            chain = [i]
            while chain[-1] in before:
                chain.append(before[chain[-1]])
            return chain[::-1]
    return []


def _moves(
    chain: Sequence[int], order: Sequence[int], channel: Channel, costs: Sequence[Sequence[int]]
) -> Iterator[tuple[int, int, int]]:
    """Yield which pieces of a chain can leave it: the cost, the piece and its new place."""
    pieces, first, last = channel.pieces, chain[0], chain[-1]
    start, end = order.index(first), order.index(last)
    for i in chain:
        place = order.index(i)
        if i != first and pieces[i].least < pieces[first].least:
            yield sum(costs[i][j] for j in order[start:place]), i, start
        if i != last and pieces[i].most > pieces[last].most:
            yield -sum(costs[i][j] for j in order[place + 1 : end + 1]), i, end
