"""Ways that were found each by itself, pushed apart: every piece gets a lane of its own.

Rules of the file: routes come first, each as if it were alone; then the order in which they lie where they share a
channel; then their lanes. So a way depends on others only where they share a channel, and two that run together cross
only where they must. The idea is that of Wybrow, Marriott and Stuckey, "Orthogonal Connector Routing", Graph Drawing
2009; the lattice, the costs and what happens where a channel is full are ours.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.drawing.routing.channels import channels_of
from app.drawing.routing.field import Field
from app.drawing.routing.lanes import lanes_of
from app.drawing.routing.ordering import ordered
from app.drawing.routing.pieces import pieces_of
from app.drawing.routing.tracks import Tracks

PASSES = (False, True)
"""Whether pieces across are spread: first those down, then those across, which by then reach as far as they will."""


def nudge(ways: Sequence[Tracks], bundles: Sequence[str], bare: Field) -> set[int]:
    """Spread the pieces of ways over the free lanes of a field, and return which ways found no lane.

    ``bundles`` names the bundle of each way. ``bare`` holds no wires.
    """
    without: set[int] = set()
    for across in PASSES:
        for channel in channels_of(piece for piece in pieces_of(ways, bare, across) if piece.wire not in without):
            order = ordered(channel, ways, bundles)
            without.update(channel.pieces[i].wire for i in set(range(len(channel.pieces))).difference(order))
            for i, track in zip(order, lanes_of(order, channel), strict=True):
                piece = channel.pieces[i]
                ways[piece.wire].at[piece.k] = track
    return without
