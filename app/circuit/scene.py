"""A situation as one network sees it: its parts, their figures, joins that a fault adds.

What two situations have in common in a network is worked out once and shared.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

from app.catalogue.kind import Choice
from app.circuit.cast import Cast
from app.circuit.faults import Injected
from app.circuit.figures import PartFigures
from app.circuit.impedance import IDEAL_SIEMENS
from app.circuit.logic import PartScene
from app.circuit.network import Network
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
    number_of, node_of = network.number_of, network.node_of
    joins: list[AddedJoin] = []
    extras: list[Extra] = []
    for one, other, ohms in injected.joins:
        if one in number_of and other in number_of:
            joins.append((number_of[one], number_of[other], ohms))
            a, b = node_of[number_of[one]], node_of[number_of[other]]
            if a != b:
                extras.append((min(a, b), max(a, b), 1 / ohms if ohms else IDEAL_SIEMENS))
    setting = _setting(network, layout, situation, injected, phases)
    return Scene(network, *setting[:2], situation.supply_percent / 100, setting[2], tuple(sorted(extras)), tuple(joins))


def _setting(network: Network, layout: Layout, situation: Situation, injected: Injected, phases: Phases) -> Setting:
    own = network.own
    calls = tuple((part, names) for part, names in situation.calls.items() if part in own)
    set_values = tuple((name, value) for name, value in situation.set.items() if part_of(name) in own)
    mains_off = frozenset(name for name, state in situation.mains.items() if state == "off")
    key = ("setting", calls, set_values, mains_off, situation.outdoor_c, injected.key, tuple(phases.items()))
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = _make_setting(network, layout, situation, injected, phases)
    return cast(Setting, found)


def _make_setting(
    network: Network, layout: Layout, situation: Situation, injected: Injected, phases: Phases
) -> Setting:
    overrides: dict[str, dict[str, Choice]] = {}
    for name, value in situation.set.items():
        overrides.setdefault(part_of(name), {})[name.partition(".")[2]] = value
    for part, values in injected.overrides.items():
        overrides.setdefault(part, {}).update(values)
    mains_off = frozenset(name for name, state in situation.mains.items() if state == "off")
    turned = {name for name, phase in phases.items() if phase == 180}
    none = frozenset[str]()
    scenes: list[PartScene] = []
    figures: list[PartFigures] = []
    opened = 0
    for place in network.places:
        part, template = place.part, place.template
        wish = Wish(
            part=layout.parts[part],
            overrides=overrides.get(part, {}),
            calls=tuple(situation.calls.get(part, ())),
            outdoor_c=situation.outdoor_c,
            mains_off=mains_off,
            forced_on=injected.forced_on.get(part, none),
            forced_off=injected.forced_off.get(part, none),
            dead=injected.dead.get(part, none),
            turned=frozenset(slot.name for slot in template.slots if f"{part}.{slot.name}" in turned)
            if turned
            else none,
        )
        scene, its_figures = part_scene_and_figures(place, wish)
        scenes.append(scene)
        figures.append(its_figures)
        for at, slot in enumerate(template.fuses):
            opened |= (template.slots[slot].name in wish.forced_off) << (place.fuse + at)
    wires = {name: ohms for name, ohms in injected.wires.items() if name in network.branch_of}
    return cast_of(network, tuple(scenes)), network_figures(network, figures, wires), opened


def cast_of(network: Network, scenes: tuple[PartScene, ...]) -> Cast:
    """Return the parts of a network together; made once."""
    key = ("cast", scenes)
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = Cast(network, scenes)
    return cast(Cast, found)
