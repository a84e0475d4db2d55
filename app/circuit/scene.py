"""A situation as one network sees it: parts with their calls and settings, figures, joins that a fault adds.

What two situations have in common in a network is worked out once and shared: part scenes, figures, solutions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import cast

from app.catalogue.kind import Choice
from app.circuit.faults import Injected
from app.circuit.figures import PartFigures, SourceFigures, figures_of
from app.circuit.impedance import IDEAL_SIEMENS
from app.circuit.logic import PartScene, enabled_calls, values_of
from app.circuit.network import Network, Place
from app.circuit.plan import Plan
from app.circuit.situation import Situation
from app.job.model import Layout

Extra = tuple[int, int, float]
"""A branch that a fault adds between two nodes, with its siemens."""


@dataclass(frozen=True, slots=True, eq=False)
class NetworkFigures:
    """The figures of all parts of a network, by branch, judged element, fuse and source."""

    on: tuple[complex, ...]
    off: tuple[complex, ...]
    rises: tuple[float, ...]
    falls: tuple[float, ...]
    fuse_amps: tuple[float, ...]
    sources: tuple[SourceFigures, ...]
    slack_volts: float
    by_plan: dict[int, tuple[list[complex], list[tuple[int, int, complex, complex]]]] = field(default_factory=dict)

    def assembled(self, network: Network, plan: Plan) -> tuple[list[complex], list[tuple[int, int, complex, complex]]]:
        """Return (entries of what never switches, [(branch, entry, siemens on, siemens off)] of what does)."""
        found = self.by_plan.get(id(plan))
        if found is None:
            fixed = [0j] * plan.size
            switching = []
            for at, entry in enumerate(plan.entries(branch.nodes for branch in network.branches)):
                if entry < 0:
                    continue
                if self.on[at] == self.off[at]:
                    fixed[entry] += self.on[at]
                else:
                    switching.append((at, entry, self.on[at], self.off[at]))
            found = self.by_plan[id(plan)] = (fixed, switching)
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """What one network is asked. ``opened`` are the fuses (bits) that a fault has opened beforehand."""

    network: Network
    parts: tuple[PartScene, ...]
    figures: NetworkFigures
    supply: float
    opened: int
    extras: tuple[Extra, ...]
    faults: Injected


Phases = Mapping[str, int]
"""For sources of unknown phase, by ``part.element``: the phase that is tried (0 or 180)."""


def scene_of(
    network: Network, layout: Layout, situation: Situation, injected: Injected, phases: Phases | None = None
) -> Scene:
    """Return the situation as a network sees it; what concerns other networks is left out."""
    overrides: dict[str, dict[str, Choice]] = {}
    for name, value in situation.set.items():
        part, _, what = name.partition(".")
        overrides.setdefault(part, {})[what] = value
    for part, values in injected.overrides.items():
        overrides.setdefault(part, {}).update(values)
    mains_off = frozenset(name for name, state in situation.mains.items() if state == "off")
    parts = []
    figures = []
    opened = 0
    for place in network.places:
        over = overrides.get(place.part, {})
        parts.append(_part_scene(network, layout, place, situation, over, mains_off, injected))
        figures.append(_part_figures(network, layout, place, over, injected, phases or {}))
        for at, slot in enumerate(place.template.fuses):
            if place.template.slots[slot].name in injected.forced_off.get(place.part, ()):
                opened |= 1 << (place.fuse + at)
    return Scene(
        network=network,
        parts=tuple(parts),
        figures=_network_figures(network, figures),
        supply=situation.supply_percent / 100,
        opened=opened,
        extras=_extras(network, injected),
        faults=injected,
    )


def _part_scene(
    network: Network,
    layout: Layout,
    place: Place,
    situation: Situation,
    over: Mapping[str, Choice],
    mains_off: frozenset[str],
    injected: Injected,
) -> PartScene:
    template = place.template
    on_names = injected.forced_on.get(place.part, frozenset())
    off_names = injected.forced_off.get(place.part, frozenset())
    asked = tuple(situation.calls.get(place.part, ()))
    outdoor_c = situation.outdoor_c if template.asks_outdoor else 0.0
    key = ("part", place.part, tuple(sorted(over.items())), asked, outdoor_c, mains_off, on_names, off_names)
    found = network.made.get(key)
    if found is None:
        values = values_of(template.kind, layout.parts[place.part], over)
        enabled = enabled_calls(template, values, outdoor_c) if asked else []
        found = PartScene(
            template=template,
            values=values,
            calls=tuple(name for name in enabled if name in asked),
            outdoor_c=outdoor_c,
            mains_off=mains_off,
            forced_on=_bits(template.slots, on_names),
            forced_off=_bits(template.slots, off_names),
        )
        network.made[key] = found
    return cast(PartScene, found)


def _bits(slots: Sequence[object], names: frozenset[str]) -> int:
    return sum(1 << at for at, slot in enumerate(slots) if getattr(slot, "name", None) in names) if names else 0


def _part_figures(
    network: Network,
    layout: Layout,
    place: Place,
    over: Mapping[str, Choice],
    injected: Injected,
    phases: Phases,
) -> PartFigures:
    template = place.template
    dead = injected.dead.get(place.part, frozenset())
    turned = (
        frozenset(slot.name for slot in template.slots if phases.get(f"{place.part}.{slot.name}") == 180)
        if phases
        else frozenset()
    )
    key = ("figures", place.part, tuple(sorted(over.items())), dead, turned)
    found = network.made.get(key)
    if found is None:
        figures = figures_of(template, values_of(template.kind, layout.parts[place.part], over), dead)
        if turned:
            figures = _turned(figures, frozenset(template.slots[s.slot].name for s in figures.sources) & turned, place)
        # Settings that change no figure must not keep situations from sharing their solutions.
        found = network.made.setdefault(("same figures", place.part, figures), figures)
        network.made[key] = found
    return cast(PartFigures, found)


def _turned(figures: PartFigures, names: frozenset[str], place: Place) -> PartFigures:
    slots = place.template.slots
    sources = tuple(
        SourceFigures(s.slot, -s.emf, s.siemens, s.va, s.phase_known, s.mains) if slots[s.slot].name in names else s
        for s in figures.sources
    )
    return PartFigures(figures.on, figures.off, figures.rises, figures.falls, figures.fuse_amps, sources)


def _network_figures(network: Network, parts: Sequence[PartFigures]) -> NetworkFigures:
    key = ("network figures", *map(id, parts))
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = _gather(network, parts)
    return cast(NetworkFigures, found)


def _gather(network: Network, parts: Sequence[PartFigures]) -> NetworkFigures:
    wires = tuple(complex(1 / branch.ohms) for branch in network.branches if branch.ohms is not None)
    places = [place for place in network.places if place.template is not None]
    sources = tuple(
        SourceFigures(place.branch + s.slot, s.emf, s.siemens, s.va, s.phase_known, s.mains)
        for place, part in zip(places, parts, strict=True)
        for s in part.sources
    )
    return NetworkFigures(
        on=tuple(y for part in parts for y in part.on) + wires,
        off=tuple(y for part in parts for y in part.off) + wires,
        rises=tuple(volts for part in parts for volts in part.rises),
        falls=tuple(volts for part in parts for volts in part.falls),
        fuse_amps=tuple(amps for part in parts for amps in part.fuse_amps),
        sources=sources,
        slack_volts=1e-9 * max((abs(s.emf) for s in sources), default=0.0),
    )


def _extras(network: Network, injected: Injected) -> tuple[Extra, ...]:
    extras = []
    for one, other, ohms in injected.joins:
        if one in network.number_of and other in network.number_of:
            a, b = (network.node_of[network.number_of[name]] for name in (one, other))
            if a != b:
                extras.append((min(a, b), max(a, b), 1 / ohms if ohms else IDEAL_SIEMENS))
    return tuple(sorted(extras))
