"""Loads whose way back goes through an input or a coil of something else, which then takes their current for a call."""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.calls import unasked
from app.checks.facts.commons import MissingCommon, is_control_alone, missing_commons
from app.checks.facts.driven import drive_of
from app.checks.facts.inside import BURNING
from app.checks.facts.joins import Device
from app.checks.facts.strain import bridges, is_calm
from app.checks.facts.trickle import AT_WORK, returning_from
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class CalledThrough:
    """A common that is missing, what its loads go through instead, and what then runs that nobody asked for."""

    missing: MissingCommon
    through: tuple[Device, ...]
    point: OperatingPoint
    effects: tuple[str, ...]

    @property
    def burns(self) -> bool:
        """Whether a fire or a heater is among what runs."""
        return bool(BURNING & set(self.effects))


def called_through(context: CheckContext) -> tuple[CalledThrough, ...]:
    """Return the missing commons by which something is falsely called, each once, at the gravest and simplest point.

    A control that has nothing else behind it is told as one that takes a trickle, see ``trickle``.
    """
    if context.once(bridges):
        return ()
    found: list[CalledThrough] = []
    for missing in context.once(missing_commons):
        if not is_control_alone(context, missing):
            found += sorted(_false_calls(context, missing), key=lambda each: not each.burns)[:1]
    return tuple(found)


def _false_calls(context: CheckContext, missing: MissingCommon) -> list[CalledThrough]:
    lead, own = missing.terminals[0], {each.device.name for each in missing.stranded}
    through = [device for device in returning_from(context, lead) if device.name not in own]
    found: list[CalledThrough] = []
    for point in context.points_of(part_of(lead)) if through else ():
        islands = context.islands_at(point)
        if any(islands.same(lead, winding.hot) for winding in context.windings):
            continue
        worked = tuple(device for device in through if point.elements[device.name].state in AT_WORK)
        effects = _unasked(context, worked, point)
        if effects and is_calm(context, point, part_of(lead)):
            found.append(CalledThrough(missing, worked, point, effects))
    return found


def _unasked(context: CheckContext, worked: tuple[Device, ...], point: OperatingPoint) -> tuple[str, ...]:
    """Return the effects that what is worked brings and that the call of a point does not ask for."""
    call = next((calls[-1] for calls in point.situation.calls.values() if calls), None)
    usual = frozenset() if point is context.idle else context.effects_at_rest
    brought = {
        effect
        for part, effect in point.effects
        for device in worked
        if device.part == part
        and (part, effect) not in usual
        and device.inner in drive_of(context.wiring.kinds[part], effect).names
    }
    return tuple(sorted(unasked(call, brought)))
