"""Paths that nobody drew on purpose: through another load, backwards through a contact, from one source to another.

The three clues are those of sneak circuit analysis (NASA, 1970): power to power, ground to ground, reversed current.
Every search begins with something cheap that a sound layout does not have.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.kind import Coil, Contact, Input
from app.checks.context import CheckContext
from app.checks.facts.air import stray_effects
from app.checks.facts.astray import mixed_calls
from app.checks.facts.commons import missing_commons
from app.checks.facts.driven import drive_behind
from app.checks.facts.joins import Device, Join
from app.checks.facts.silence import falling_short
from app.checks.facts.strain import is_calm
from app.checks.facts.trickle import trickles
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Fault
from app.circuit.solve import solve_all

LEAST_AMPS = 0.001
"""Less than this flows through a leaking snubber."""


@dataclass(frozen=True, slots=True)
class ThroughLoads:
    """Devices of which none lies between hot and common alone: the current goes through one after another.

    ``cause`` names those that have no common of their own at rest.
    """

    point: OperatingPoint
    devices: tuple[Device, ...]
    cause: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SelfHeld:
    """A contact that, once closed, holds what closes it: ``terminal`` gets hot through it while ``point`` lasts.

    ``held`` is the operating point with the contact closed, ``added`` what then runs that did not.
    """

    contact: Join
    terminal: str
    point: OperatingPoint
    held: OperatingPoint
    added: tuple[tuple[str, str], ...]


def through_loads(context: CheckContext) -> Iterator[ThroughLoads]:
    """Yield chains of devices that carry current at rest or in a call, each once, apart from what has a rule."""
    told = {device.name for each in context.once(trickles) for device in (each.electronics, *each.through)}
    told |= {each.device.name for missing in context.once(missing_commons) for each in missing.stranded}
    suspects = {device.name for device in _without_common(context)} - told
    seen: set[frozenset[str]] = set()
    for point in (context.idle, *(called.point for called in context.called)) if suspects else ():
        chain = tuple(_in_a_row(context, point))
        names = {device.name for device in chain}
        cause = frozenset(names & suspects)
        if cause and cause not in seen and not names & told and is_calm(context, point, chain[0].part):
            seen.add(cause)
            yield ThroughLoads(point, chain, tuple(sorted(cause)))


def self_held(context: CheckContext) -> Iterator[SelfHeld]:
    """Yield the contacts that would hold themselves on somebody else's call, or for good, each once."""
    for join, terminals in _own_feeds(context):
        for terminal, other in terminals:
            found = next(iter(_held(context, join, terminal, other)), None)
            if found is not None:
                yield found


def is_told_already(context: CheckContext, found: SelfHeld) -> bool:
    """Return whether another rule speaks of the wire that makes a contact hold itself: what it holds runs in a call
    for air alone too, heats what is cooled, or the lead is missed where it belongs."""
    mixed = {part for each in context.once(mixed_calls) for part in (each.cooler, each.heater)}
    network = context.network_of(found.contact.part)
    short = any(context.network_of(each.called.control) == network for each in context.once(falling_short))
    return short or found.contact.part in mixed or bool(context.once(stray_effects) & set(found.added))


def _without_common(context: CheckContext) -> list[Device]:
    """Return the devices of wired parts with neither side on a common at rest."""
    of = context.at_rest.of
    commons = {of(winding.common) for winding in context.windings}
    wired = context.wired_parts
    return [
        device
        for device in context.wiring.devices
        if device.part in wired and of(device.a) not in commons and of(device.b) not in commons
    ]


def _in_a_row(context: CheckContext, point: OperatingPoint) -> Iterator[Device]:
    """Yield the devices that carry current at a point and do not lie between hot and common, those at work first."""
    islands = context.islands_at(point)
    hot = {islands.of(winding.hot) for winding in context.windings}
    common = {islands.of(winding.common) for winding in context.windings}
    found: list[tuple[bool, float, str, Device]] = []
    for device in context.wiring.devices:
        state = point.elements[device.name]
        if state.volts is None or state.amps < LEAST_AMPS:
            continue
        a, b = islands.of(device.a), islands.of(device.b)
        if not ((a in hot and b in common) or (b in hot and a in common)):
            found.append((state.state not in ("on", "pulled-in"), -state.volts, device.name, device))
    yield from (device for *_, device in sorted(found, key=lambda each: each[:3]))


def _own_feeds(context: CheckContext) -> Iterator[tuple[Join, list[tuple[str, str]]]]:
    """Yield contacts between two terminals with (terminal that drives it, far side) where one side is on that."""
    for join in context.wiring.contacts:
        if join.a not in context.terminals or join.b not in context.terminals or join.part not in context.wired_parts:
            continue
        kind = context.wiring.kinds[join.part]
        element = kind.elements[join.inner]
        if not isinstance(element, Contact) or element.by == "calls" or element.by in kind.switches:
            continue
        same = context.wired.same
        pairs = [
            (terminal, far)
            for letter in drive_behind(kind, element.by).letters
            for terminal in [f"{join.part}.{letter}"]
            for near, far in ((join.a, join.b), (join.b, join.a))
            if same(near, terminal)
        ]
        if pairs:
            yield join, pairs


def _held(context: CheckContext, join: Join, terminal: str, other: str) -> Iterator[SelfHeld]:
    name = f"{join.part}.{join.inner}"
    for point in context.points_of(join.part):
        islands = context.islands_at(point)
        hot = {islands.of(winding.hot) for winding in context.windings}
        if islands.of(other) not in hot or islands.of(terminal) in hot or not is_calm(context, point, join.part):
            continue
        weld = Fault.model_validate({"is": "contact-welded", "at": f"element:{name}"})
        asked = point.situation.model_copy(update={"faults": (*point.situation.faults, weld)})
        held = solve_all(context.circuit, [asked])[0]
        added = tuple(each for each in held.effects if each not in point.effects)
        if added and held.settled and not held.blown and _drives(context, join, held):
            yield SelfHeld(join, terminal, point, held, added)
            return


def _drives(context: CheckContext, join: Join, point: OperatingPoint) -> bool:
    """Return whether a coil or input that moves a contact is at work."""
    kind = context.wiring.kinds[join.part]
    element = kind.elements[join.inner]
    names = drive_behind(kind, element.by).names if isinstance(element, Contact) else frozenset()
    return any(
        point.elements[f"{join.part}.{name}"].state in ("pulled-in", "on")
        for name in names
        if isinstance(kind.elements.get(name), Coil | Input)
    )
