"""A situation as one network sees it: its parts, their figures, joins that a fault adds.

What two situations have in common in a network is worked out once and shared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from app.catalogue.kind import CallName, Choice
from app.circuit.cast import Cast
from app.circuit.faults import Injected
from app.circuit.figures import PartFigures
from app.circuit.impedance import IDEAL_SIEMENS
from app.circuit.logic import PartScene
from app.circuit.network import Network, Place
from app.circuit.network_figures import NetworkFigures, network_figures
from app.circuit.part_scenes import Wish, part_scene_and_figures
from app.circuit.situation import Situation
from app.job.model import Layout
from app.job.names import part_of

Extra = tuple[int, int, float]
"""A branch that a fault adds between two nodes, with its siemens."""
AddedJoin = tuple[int, int, float]
"""The same between two points, with its ohms."""
Phases = Mapping[str, int]
"""For sources of unknown phase, by ``part.element``: the phase that is tried (0 or 180)."""
Setting = tuple[Cast, NetworkFigures, int]
"""Parts, figures, and the fuses (bits) that a fault has opened beforehand."""
Resting = tuple[tuple[PartScene, ...], tuple[PartFigures, ...]]
NONE: frozenset[str] = frozenset()
NO_VALUES: Mapping[str, Choice] = {}


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """What one network is asked. ``supply`` is a share of the rated volts, ``opened`` fuses that are open at first."""

    network: Network
    cast: Cast
    figures: NetworkFigures
    supply: float
    opened: int
    extras: tuple[Extra, ...]
    joins: tuple[AddedJoin, ...]


def scene_of(network: Network, layout: Layout, situation: Situation, injected: Injected, phases: Phases) -> Scene:
    """Return the situation as a network sees it; what concerns other networks is left out."""
    setting = _setting(network, layout, situation, injected, phases)
    supply = situation.supply_percent / 100
    if not injected.joins:
        return Scene(network, *setting[:2], supply, setting[2], (), ())
    number_of, node_of = network.number_of, network.node_of
    joins: list[AddedJoin] = []
    extras: list[Extra] = []
    for one, other, ohms in injected.joins:
        if one in number_of and other in number_of:
            joins.append((number_of[one], number_of[other], ohms))
            a, b = node_of[number_of[one]], node_of[number_of[other]]
            if a != b:
                extras.append((min(a, b), max(a, b), 1 / ohms if ohms else IDEAL_SIEMENS))
    return Scene(network, *setting[:2], supply, setting[2], tuple(sorted(extras)), tuple(joins))


def _setting(network: Network, layout: Layout, situation: Situation, injected: Injected, phases: Phases) -> Setting:
    own = network.own
    calls = tuple((part, names) for part, names in situation.calls.items() if part in own)
    set_values = tuple((name, value, value.__class__) for name, value in situation.set.items() if part_of(name) in own)
    outdoor_c = situation.outdoor_c if _asks_outdoor(network) else 0.0
    mains_off = (
        frozenset(name for name, state in situation.mains.items() if state == "off") if situation.mains else NONE
    )
    key = ("setting", calls, set_values, mains_off, outdoor_c, injected.key, tuple(phases.items()))
    found = network.made.get(key)
    if found is None:
        asking = _Asking(network, layout, situation.outdoor_c, mains_off, _turned(phases))
        found = network.made[key] = asking.setting(dict(calls), _overrides(set_values, injected), injected)
    return cast(Setting, found)


def _asks_outdoor(network: Network) -> bool:
    found = network.made.get("asks outdoor")
    if found is None:
        found = network.made["asks outdoor"] = any(place.template.asks_outdoor for place in network.places)
    return bool(found)


def _overrides(set_values: Sequence[tuple[str, Choice, type]], injected: Injected) -> dict[str, Mapping[str, Choice]]:
    overrides: dict[str, Mapping[str, Choice]] = {}
    for name, value, _ in set_values:
        part, _, setting = name.partition(".")
        overrides[part] = {**overrides.get(part, {}), setting: value}
    for part, values in injected.overrides.items():
        overrides[part] = {**overrides.get(part, {}), **values}
    return overrides


def _turned(phases: Phases) -> frozenset[str]:
    return frozenset(name for name, phase in phases.items() if phase == 180)


@dataclass(frozen=True)
class _Asking:
    """How the parts of a network are asked to be: all as at rest, but for those that something is asked of."""

    network: Network
    layout: Layout
    outdoor_c: float
    mains_off: frozenset[str]
    turned: frozenset[str]

    def setting(
        self,
        calls: Mapping[str, tuple[CallName, ...]],
        overrides: Mapping[str, Mapping[str, Choice]],
        injected: Injected,
    ) -> Setting:
        """Return the network with calls, overrides and faults."""
        network = self.network
        resting, resting_figures = self._at_rest()
        scenes, figures = list(resting), list(resting_figures)
        opened = 0
        asked = {*calls, *overrides, *injected.forced_on, *injected.forced_off, *injected.dead}
        for at in sorted(number for part in asked if (number := _place_of(network).get(part)) is not None):
            part = network.places[at].part
            forced_off = injected.forced_off.get(part, NONE)
            scenes[at], figures[at] = self._part(
                at,
                overrides.get(part, NO_VALUES),
                tuple(calls.get(part, ())),
                injected.forced_on.get(part, NONE),
                forced_off,
                injected.dead.get(part, NONE),
            )
            opened |= _opened(network.places[at], forced_off) if forced_off else 0
        wires = {name: ohms for name, ohms in injected.wires.items() if name in network.branch_of}
        return cast_of(network, tuple(scenes)), network_figures(network, figures, wires), opened

    def _at_rest(self) -> Resting:
        key = ("resting", self.outdoor_c, self.mains_off, self.turned)
        found = self.network.made.get(key)
        if found is None:
            each = [self._part(at, NO_VALUES, (), NONE, NONE, NONE) for at in range(len(self.network.places))]
            found = tuple(scene for scene, _ in each), tuple(figures for _, figures in each)
            self.network.made[key] = found
        return cast(Resting, found)

    def _part(
        self,
        at: int,
        overrides: Mapping[str, Choice],
        calls: tuple[CallName, ...],
        forced_on: frozenset[str],
        forced_off: frozenset[str],
        dead: frozenset[str],
    ) -> tuple[PartScene, PartFigures]:
        """Return one part; worked out once for the same."""
        place = self.network.places[at]
        # 1 and true are equal to Python, but not to a kind.
        said = tuple((name, value, value.__class__) for name, value in overrides.items())
        outdoor_c = self.outdoor_c if place.template.asks_outdoor else 0.0
        key = ("part", at, said, calls, outdoor_c, self.mains_off, forced_on, forced_off, dead, self.turned)
        found = self.network.made.get(key)
        if found is None:
            wish = Wish(
                part=self.layout.parts[place.part],
                overrides=overrides,
                calls=calls,
                outdoor_c=outdoor_c,
                mains_off=self.mains_off,
                forced_on=forced_on,
                forced_off=forced_off,
                dead=dead,
                turned=frozenset(s.name for s in place.template.slots if f"{place.part}.{s.name}" in self.turned),
            )
            found = self.network.made[key] = part_scene_and_figures(place, wish)
        return cast("tuple[PartScene, PartFigures]", found)


def _place_of(network: Network) -> Mapping[str, int]:
    found = network.made.get("place of part")
    if found is None:
        found = network.made["place of part"] = {place.part: at for at, place in enumerate(network.places)}
    return cast("Mapping[str, int]", found)


def _opened(place: Place, forced_off: frozenset[str]) -> int:
    """Return the fuses of a part that a fault has opened, as bits of the network."""
    slots = place.template.slots
    return sum(1 << place.fuse + at for at, slot in enumerate(place.template.fuses) if slots[slot].name in forced_off)


def cast_of(network: Network, scenes: tuple[PartScene, ...]) -> Cast:
    """Return the parts of a network together; made once."""
    key = ("cast", scenes)
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = Cast(network, scenes)
    return cast(Cast, found)
