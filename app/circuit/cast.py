"""All parts of a network as a situation asks them to be: from what is on and off to which branches conduct.

What was once worked out is kept, so that hundreds of runs of one network share it.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from app.circuit.logic import Memory, PartScene
from app.circuit.network import Network, Place

Effects = tuple[tuple[str, str], ...]
"""Pairs of part and effect."""


@dataclass(frozen=True, slots=True, eq=False)
class Cast:
    """The part scenes of a network, in the order of its places."""

    network: Network
    parts: tuple[PartScene, ...]
    found: dict[tuple[int, int, tuple[Memory, ...]], tuple[int, tuple[Memory, ...]]] = field(default_factory=dict)
    shown: dict[tuple[int, int, tuple[Memory, ...], int, int], tuple[Effects, Effects]] = field(default_factory=dict)

    def rest_memory(self) -> tuple[Memory, ...]:
        """Return the memories of all parts before anything has happened."""
        return tuple(part.rest_memory() for part in self.parts)

    def outcome(self, held: int, opened: int, memory: tuple[Memory, ...]) -> tuple[int, tuple[Memory, ...]]:
        """Return (branches that are on as bits, memories for the next pass).

        Args:
            held: judged elements of the network that are on, as bits.
            opened: fuses of the network that are open, as bits.
            memory: looping states of each part in the pass before.
        """
        key = (held, opened, memory)
        found = self.found.get(key)
        if found is None:
            on = 0
            after = []
            for place, part, before in zip(self.network.places, self.parts, memory, strict=True):
                bits = local_bits(place, held, opened)
                # What a part has worked out is looked up here, since this is asked of every part in every pass.
                outcome = part.found.get((bits, before)) or part.outcome(bits, before)
                on |= outcome.on << place.branch
                after.append(outcome.memory)
            found = self.found[key] = (on, tuple(after))
        return found

    def moved_by(self, held: int, opened: int, memory: tuple[Memory, ...], judged: int, fuses: int) -> int:
        """Return the contacts (bits by branch) whose position depends on the elements and fuses in doubt."""
        moved = 0
        for place, part, before in zip(self.network.places, self.parts, memory, strict=True):
            doubt = local_bits(place, judged, fuses)
            if doubt:
                moved |= part.in_doubt(local_bits(place, held, opened), before, doubt) << place.branch
        return moved

    def effects(
        self, held: int, opened: int, memory: tuple[Memory, ...], judged: int, fuses: int
    ) -> tuple[Effects, Effects]:
        """Return (effects that hold whatever is in doubt, effects that hold or not depending on it)."""
        key = (held, opened, memory, judged, fuses)
        found = self.shown.get(key)
        if found is None:
            sure: list[tuple[str, str]] = []
            unsure: list[tuple[str, str]] = []
            for place, part, before in zip(self.network.places, self.parts, memory, strict=True):
                if place.template.effects:
                    bits, doubt = local_bits(place, held, opened), local_bits(place, judged, fuses)
                    doubtful = part.effects_in_doubt(bits, before, doubt) if doubt else []
                    sure += ((place.part, name) for name in part.effects(bits, before) if name not in doubtful)
                    unsure += ((place.part, name) for name in doubtful)
            found = self.shown[key] = (tuple(sure), tuple(unsure))
        return found


def local_bits(place: Place, judged: int, fuses: int) -> int:
    """Return the bits of one part out of those of its network: its judged elements, then its fuses."""
    own = judged >> place.judged & place.judged_mask
    return own | (fuses >> place.fuse & place.fuse_mask) << place.judged_count if place.fuse_mask else own
