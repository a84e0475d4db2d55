"""What situations ask of a network, kept with the network: each check after a change asks most of them once more.

Rules of the file: what a scene is made of is its network, which has all that the layout says, and what of a situation
concerns the network. That is the key. What faults ask is made each time: there are too many of them, each asked once.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import cast

from app.circuit.network import Network
from app.circuit.scene import Scene
from app.circuit.situation import Situation
from app.job.names import part_of

MOST_KEPT = 1000
"""Scenes of more situations than these are not kept with one network."""


def kept_scenes(network: Network, situation: Situation, make: Callable[[], list[Scene]]) -> list[Scene]:
    """Return what a situation without faults asks of a network, one scene for each phase that is tried."""
    kept = cast("dict[Hashable, list[Scene]]", network.made.setdefault("scenes", {}))
    key = _concerning(network, situation)
    found = kept.get(key)
    # A network that has another number in its layout shares what was made, but its scenes name it as it now is.
    if found is None or found[0].network is not network:
        found = make()
        if len(kept) < MOST_KEPT:
            kept[key] = found
    return found


def _concerning(network: Network, situation: Situation) -> Hashable:
    """Return what of a situation concerns a network; 1 and true are equal to Python, but not to a kind."""
    own = network.own
    calls = tuple([each for each in situation.calls.items() if each[0] in own])
    positions = tuple([(name, to, to.__class__) for name, to in situation.set.items() if part_of(name) in own])
    return situation.supply_percent, situation.outdoor_c, tuple(situation.mains.items()), calls, positions
