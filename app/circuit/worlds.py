"""Worlds: the ways in which the contacts of a network may stand when it is not known what some elements do."""

from __future__ import annotations

from app.circuit.cast import local_bits
from app.circuit.scene import Scene
from app.circuit.state import State

MOST_WORLDS = 16
"""Beyond so many, what is in doubt is not tried each way but makes unknown whatever it reaches."""


def worlds_of(scene: Scene, state: State, on: int) -> tuple[int, ...] | None:
    """Return the branches that may be on, as bits, ``on`` first; None where there are too many ways to try.

    Args:
        state: what is in doubt in it counts as off in ``on``.
    """
    network, cast = scene.network, scene.cast
    worlds = [on]
    for place, part, memory in zip(network.places, cast.parts, state.memory, strict=True):
        doubt = local_bits(place, state.doubt, state.fuse_doubt)
        if not doubt:
            continue
        ways = part.ways(local_bits(place, state.held, state.opened), memory, doubt)
        if ways is None or len(worlds) * len(ways) > MOST_WORLDS:
            return None
        own = (1 << len(place.template.slots)) - 1 << place.branch
        worlds = [world & ~own | way << place.branch for world in worlds for way in ways]
    return tuple(dict.fromkeys((on, *worlds)))
