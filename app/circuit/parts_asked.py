"""The parts of a network as situations ask them to be: all as at rest, but for those that something is asked of."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple, cast

from app.catalogue.kind import CallName, Choice
from app.circuit.faults import Injected
from app.circuit.figures import PartFigures
from app.circuit.logic import PartScene
from app.circuit.network import Network, Place
from app.circuit.part_scenes import Wish, part_scene_and_figures
from app.circuit.situation import Situation
from app.job.model import Layout

NONE: frozenset[str] = frozenset()
Said = tuple[tuple[str, Choice, type], ...]
"""Values by name with their types: 1 and true are equal to Python, but not to a kind."""


class Wanted(NamedTuple):
    """What is asked of one part; names are those of its kind."""

    said: Said = ()
    calls: tuple[CallName, ...] = ()
    forced_on: frozenset[str] = NONE
    forced_off: frozenset[str] = NONE
    dead: frozenset[str] = NONE

    def with_fault(self, fault: Wanted) -> Wanted:
        """Return this with what a fault makes of the part; what the fault says goes first."""
        names = {name for name, _, _ in fault.said}
        said = tuple(each for each in self.said if each[0] not in names) + fault.said
        return Wanted(said, self.calls, fault.forced_on, fault.forced_off, fault.dead)


AT_REST = Wanted()


def wanted_of(
    calls: Iterable[tuple[str, tuple[CallName, ...]]], set_values: Iterable[tuple[str, Choice]], injected: Injected
) -> dict[str, Wanted]:
    """Return what is asked of each part of which anything is asked."""
    wanted = asked_of(calls, set_values)
    if injected.key is None:
        return wanted
    for part, fault in faulty_of(injected).items():
        wanted[part] = wanted.get(part, AT_REST).with_fault(fault)
    return wanted


def asked_of(
    calls: Iterable[tuple[str, tuple[CallName, ...]]], set_values: Iterable[tuple[str, Choice]]
) -> dict[str, Wanted]:
    """Return what calls and settings ask of each part."""
    said: dict[str, Said] = {}
    for full, value in set_values:
        part, _, name = full.partition(".")
        said[part] = (*said.get(part, ()), (name, value, value.__class__))
    called = {part: tuple(names) for part, names in calls}
    if not said:
        return {part: Wanted((), names) for part, names in called.items()}
    return {part: Wanted(said.get(part, ()), called.get(part, ())) for part in {**called, **said}}


def faulty_of(injected: Injected) -> dict[str, Wanted]:
    """Return what faults make of each part that they change."""
    parts = {*injected.overrides, *injected.dead, *injected.forced_on, *injected.forced_off}
    return {
        part: Wanted(
            tuple((name, value, value.__class__) for name, value in injected.overrides.get(part, {}).items()),
            (),
            injected.forced_on.get(part, NONE),
            injected.forced_off.get(part, NONE),
            injected.dead.get(part, NONE),
        )
        for part in sorted(parts)
    }


@dataclass(frozen=True, slots=True, eq=False)
class PartsAsked:
    """What is asked of all parts of a network alike. ``turned`` are sources that are tried at 180°."""

    network: Network
    layout: Layout
    outdoor_c: float
    mains_off: frozenset[str]
    turned: frozenset[str]

    @property
    def key(self) -> tuple[Hashable, ...]:
        """What tells this from another of the same network."""
        return self.outdoor_c, self.mains_off, self.turned

    def at_rest(self) -> tuple[tuple[PartScene, ...], tuple[PartFigures, ...]]:
        """Return all parts with nothing asked of any; worked out once."""
        key = ("at rest", *self.key)
        found = self.network.made.get(key)
        if found is None:
            each = [self.part(at, AT_REST) for at in range(len(self.network.places))]
            found = tuple(scene for scene, _ in each), tuple(figures for _, figures in each)
            self.network.made[key] = found
        return cast("tuple[tuple[PartScene, ...], tuple[PartFigures, ...]]", found)

    def part(self, at: int, wanted: Wanted) -> tuple[PartScene, PartFigures]:
        """Return the part at a place; worked out once for the same."""
        place = self.network.places[at]
        outdoor_c = self.outdoor_c if place.template.asks_outdoor else 0.0
        key = ("part", at, wanted, outdoor_c, self.mains_off, self.turned)
        found = self.network.made.get(key)
        if found is None:
            wish = Wish(
                part=self.layout.parts[place.part],
                overrides={name: value for name, value, _ in wanted.said},
                calls=wanted.calls,
                outdoor_c=outdoor_c,
                mains_off=self.mains_off,
                forced_on=wanted.forced_on,
                forced_off=wanted.forced_off,
                dead=wanted.dead,
                turned=frozenset(s.name for s in place.template.slots if f"{place.part}.{s.name}" in self.turned),
            )
            found = self.network.made[key] = part_scene_and_figures(place, wish)
        return cast("tuple[PartScene, PartFigures]", found)


def parts_asked_by(network: Network, layout: Layout, situation: Situation, phases: Mapping[str, int]) -> PartsAsked:
    """Return what a situation asks of all parts of a network alike; made once for the same.

    Args:
        phases: for sources of unknown phase, by ``part.element``, the phase that is tried.
    """
    outdoor_c = situation.outdoor_c if asks_outdoor(network) else 0.0
    turned = frozenset(name for name, phase in phases.items() if phase == 180) if phases else NONE
    mains_off = supplies_off(situation)
    key = ("parts asked", outdoor_c, mains_off, turned)
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = PartsAsked(network, layout, outdoor_c, mains_off, turned)
    return cast(PartsAsked, found)


def asks_outdoor(network: Network) -> bool:
    """Return whether anything in a network depends on the outdoor temperature."""
    found = network.made.get("asks outdoor")
    if found is None:
        found = network.made["asks outdoor"] = any(place.template.asks_outdoor for place in network.places)
    return bool(found)


def supplies_off(situation: Situation) -> frozenset[str]:
    """Return the supplies whose mains are off."""
    return frozenset(name for name, state in situation.mains.items() if state == "off") if situation.mains else NONE


def place_of(network: Network) -> Mapping[str, int]:
    """Return the number of the place of each part of which the kind is known."""
    found = network.made.get("place of part")
    if found is None:
        found = network.made["place of part"] = {place.part: at for at, place in enumerate(network.places)}
    return cast("Mapping[str, int]", found)


def opened_fuses(place: Place, forced_off: frozenset[str]) -> int:
    """Return the fuses of a part that a fault has opened, as bits of the part."""
    slots = place.template.slots
    return sum(1 << at for at, slot in enumerate(place.template.fuses) if slots[slot].name in forced_off)
