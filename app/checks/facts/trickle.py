"""Controls that take their power through something else: current from their supply, through their electronics, and on
through a coil or an input to common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.commons import MissingCommon, is_control_alone, missing_commons, needs_common
from app.checks.facts.inside import BURNING, SUPPLY_FUNCTIONS
from app.checks.facts.joins import Device
from app.checks.facts.strain import bridges

AT_WORK = ("pulled-in", "on")
"""The states of a coil that has pulled in and of an input that sees a call."""


@dataclass(frozen=True, slots=True)
class Trickle:
    """A control, its electronics, the terminal by which the trickle leaves it, and what it then goes through.

    ``missing`` is the common that it lacks; None where the control is made to be powered so.
    """

    control: str
    electronics: Device
    out: str
    through: tuple[Device, ...]
    missing: MissingCommon | None


def trickles(context: CheckContext) -> tuple[Trickle, ...]:
    """Return the controls that take a trickle through loads, sorted by control."""
    return tuple(sorted((*_by_wiring(context), *_by_make(context)), key=lambda each: each.control))


def starved_by_trickle(context: CheckContext) -> frozenset[str]:
    """Return the controls that take a trickle and are left without enough to stay awake at rest."""
    return frozenset(each.control for each in context.once(trickles) if not is_awake(context, each))


def is_awake(context: CheckContext, trickle: Trickle) -> bool:
    """Return whether the electronics have enough at rest; where that is not known they are taken to have."""
    return context.idle.elements[trickle.electronics.name].state != "off"


def worked_by(context: CheckContext, trickle: Trickle) -> tuple[Device, ...]:
    """Return what the trickle works at rest: coils that have pulled in, inputs that see a call."""
    return tuple(each for each in trickle.through if context.idle.elements[each.name].state in AT_WORK)


def false_heat(context: CheckContext, trickle: Trickle) -> list[str]:
    """Return the fires and heaters that run with no call on what the trickle works."""
    parts = {device.part for device in worked_by(context, trickle)}
    return [effect for part, effect in context.idle.effects if part in parts and effect in BURNING]


def _by_wiring(context: CheckContext) -> Iterator[Trickle]:
    """A control whose common is not landed on common but on a load.

    Beside a short nothing can be said of a trickle: there it is told as a common that is missing.
    """
    if context.once(bridges):
        return
    for missing in context.once(missing_commons):
        if not is_control_alone(context, missing):
            continue
        own = {each.device.name for each in missing.stranded}
        through = tuple(device for device in returning_from(context, missing.terminals[0]) if device.name not in own)
        for each in missing.stranded:
            if through and each.device.inner in context.inside(each.device.part).awake_by:
                yield Trickle(each.device.part, each.device, each.common, through, missing)


def _by_make(context: CheckContext) -> Iterator[Trickle]:
    """A control whose electronics lie between its supply and one of its calls."""
    for part, kind in context.wiring.kinds.items():
        if not kind.calls or not needs_common(context, part):
            continue
        inside = context.inside(part)
        for inner in inside.awake_by:
            letters = inside.devices[inner].all()
            calls = [letter for letter in letters if kind.terminals[letter].function == "call"]
            if len(letters) == 2 and len(calls) == 1 and _has_supply(context, part, letters):
                device = next(each for each in context.wiring.devices if each.name == f"{part}.{inner}")
                out = f"{part}.{calls[0]}"
                through = tuple(each for each in returning_from(context, out) if each.name != device.name)
                if through:
                    yield Trickle(part, device, out, through, None)


def _has_supply(context: CheckContext, part: str, letters: tuple[str, ...]) -> bool:
    return any(context.function_of(f"{part}.{letter}") in SUPPLY_FUNCTIONS for letter in letters)


def returning_from(context: CheckContext, terminal: str) -> list[Device]:
    """Return the devices between the island of a terminal and the common side of a source, at rest."""
    same = context.at_rest.same
    network = context.network_of(terminal.partition(".")[0])
    commons = [winding.common for winding in context.windings if context.network_of(winding.part) == network]
    return [
        device
        for device in context.devices_by_network.get(network, [])
        for near, far in ((device.a, device.b), (device.b, device.a))
        if same(near, terminal) and any(same(far, common) for common in commons)
    ]
