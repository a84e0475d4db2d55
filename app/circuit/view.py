"""What came of each network: snapshots, components, effects; and of all networks of a situation together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from app.circuit.cast import Effects
from app.circuit.network import Circuit, Network
from app.circuit.operating_point import Unsettled
from app.circuit.seen import Seen
from app.circuit.settle import Settled


@dataclass(frozen=True, eq=False)
class View:
    """One network of the situation. ``offset`` is added to its component numbers; 0 is the component of earth."""

    network: Network
    seen: tuple[Seen, ...]
    unsettled: Unsettled | None
    blown: Mapping[str, float]
    offset: int
    why_unequal: str

    @cached_property
    def effects(self) -> tuple[Effects, Effects]:
        """Return the effects that hold, and those of which it is not known whether they hold."""
        found = [_effects_in(seen) for seen in self.seen]
        always = set(found[0][0]).intersection(*(sure for sure, _ in found[1:]))
        ever = {effect for sure, doubtful in found for effect in (*sure, *doubtful)}
        return tuple(sorted(always)), tuple(sorted(ever - always))

    @cached_property
    def is_stirring(self) -> bool:
        """Return whether there is anything to tell of this network as a whole."""
        return bool(self.unsettled or self.blown or self.effects[0] or self.effects[1])

    @cached_property
    def component_of_node(self) -> list[int]:
        """Return the number of the component of each node; nodes are together when they are so in every snapshot."""
        earth = self.network.earth
        has_ground = self.seen[0].has_ground
        number: dict[tuple[int, ...], int] = {}
        if has_ground:
            number[tuple(seen.snapshot.solution.root[earth] for seen in self.seen)] = 0
        roots = zip(*(seen.snapshot.solution.root for seen in self.seen), strict=True)
        return [number.setdefault(key, self.offset + at) for at, key in enumerate(roots)]


@dataclass(frozen=True, eq=False)
class RestViews:
    """The views of all networks at rest, by the number of the network."""

    views: tuple[View, ...]

    @cached_property
    def stirring(self) -> list[tuple[int, View]]:
        """Return the views of which there is something to tell, with their numbers."""
        return [(number, view) for number, view in enumerate(self.views) if view.is_stirring]


@dataclass(frozen=True, eq=False)
class Views:
    """The views of one situation: those at rest, and by number those of the networks that it touches.

    Networks that a fault joins are one view under several numbers.
    """

    rest: RestViews
    touched: Mapping[int, View]

    def of(self, number: int) -> View:
        """Return the view of the network with a number."""
        return self.touched.get(number) or self.rest.views[number]

    def each(self) -> list[View]:
        """Return every view once."""
        return list(dict.fromkeys(self.of(number) for number in range(len(self.rest.views))))

    def stirring(self) -> list[View]:
        """Return the views of which there is something to tell, each once, in the order of their numbers."""
        numbered = [each for each in self.rest.stirring if each[0] not in self.touched]
        numbered += ((number, view) for number, view in self.touched.items() if view.is_stirring)
        return list(dict.fromkeys(view for _, view in sorted(numbered, key=lambda each: each[0])))


def view_of(circuit: Circuit, network: Network, variants: Sequence[Settled], offset: int) -> View:
    """Return the view of a network from what it settled to, once for each phase that was tried."""
    has_ground = circuit.ground is not None
    unsettled = next((settled.unsettled for settled in variants if settled.unsettled is not None), None)
    why = "the circuit does not settle"
    if unsettled is None:
        why = "it depends on the phase between two sources, which nobody knows"
    blown: dict[str, float] = {}
    for settled in variants:
        for fuse, amps in settled.blown.items():
            name = network.branches[network.fuse_branches[fuse]].name
            blown[name] = max(amps, blown.get(name, amps))
    return View(
        network=network,
        seen=tuple(Seen(snapshot, has_ground) for settled in variants for snapshot in settled.snapshots),
        unsettled=unsettled,
        blown=blown,
        offset=offset,
        why_unequal=why,
    )


def _effects_in(seen: Seen) -> tuple[Effects, Effects]:
    """Return (effects that hold, effects in doubt)."""
    state, doubt = seen.snapshot.state, seen.snapshot.doubt
    return seen.snapshot.scene.cast.effects(state.held, state.opened, state.memory, doubt.judged, doubt.fuses)
