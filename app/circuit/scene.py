"""A situation as one network sees it: its parts, their figures, joins that a fault adds.

What two situations have in common in a network is worked out once and shared.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

from app.circuit.cast import Cast
from app.circuit.faults import Injected
from app.circuit.impedance import IDEAL_SIEMENS
from app.circuit.logic import PartScene
from app.circuit.network import Network
from app.circuit.network_figures import NetworkFigures, network_figures
from app.circuit.parts_asked import (
    PartsAsked,
    Wanted,
    opened_fuses,
    parts_asked_by,
    place_of,
    wanted_of,
)
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
    calls = tuple([(part, names) for part, names in situation.calls.items() if part in own])
    set_values = tuple([each for each in situation.set.items() if part_of(each[0]) in own]) if situation.set else ()
    parts_asked = parts_asked_by(network, layout, situation, phases)
    if not calls and not set_values and injected.key is None:
        key = ("setting at rest", *parts_asked.key)
        found = network.made.get(key)
        if found is None:
            found = network.made[key] = _make_setting(parts_asked, {}, injected)
        return cast(Setting, found)
    return _make_setting(parts_asked, wanted_of(calls, set_values, injected), injected)


def _make_setting(parts_asked: PartsAsked, wanted: Mapping[str, Wanted], injected: Injected) -> Setting:
    network = parts_asked.network
    resting, resting_figures = parts_asked.at_rest()
    scenes, figures = list(resting), resting_figures
    opened = 0
    for part, each in wanted.items():
        at = place_of(network).get(part)
        if at is not None:
            scenes[at], its_figures = parts_asked.part(at, each)
            if its_figures is not figures[at]:
                figures = (*figures[:at], its_figures, *figures[at + 1 :])
            if each.forced_off:
                opened |= opened_fuses(network.places[at], each.forced_off) << network.places[at].fuse
    wires = {name: ohms for name, ohms in injected.wires.items() if name in network.branch_of}
    return cast_of(network, tuple(scenes)), network_figures(network, figures, wires), opened


def cast_of(network: Network, scenes: tuple[PartScene, ...]) -> Cast:
    """Return the parts of a network together; made once."""
    key = ("cast", scenes)
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = Cast(network, scenes)
    return cast(Cast, found)
