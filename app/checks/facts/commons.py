"""Common terminals that have no way back to the source that feeds their part.

One island of such terminals is one fact: a lead that is missing at the board is missing for everything behind it.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.inside import Leads
from app.checks.facts.joins import Device, Winding
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Stranded:
    """A device whose hot side a source could reach and whose common side that source's common does not."""

    device: Device
    hot: str
    common: str


@dataclass(frozen=True, slots=True)
class MissingCommon:
    """An island of common terminals without a way back. ``keepers`` are the loads that keep controls awake."""

    stranded: tuple[Stranded, ...]
    terminals: tuple[str, ...]
    nodes: tuple[str, ...]
    windings: tuple[Winding, ...]

    def parts(self) -> frozenset[str]:
        """Return the parts that lack their common."""
        return frozenset(each.device.part for each in self.stranded)


def missing_commons(context: CheckContext) -> tuple[MissingCommon, ...]:
    """Return the islands of common terminals without a way back, sorted by their first terminal."""
    by_island: dict[str, list[Stranded]] = {}
    for device in context.wiring.devices:
        for each in _stranded(context, device):
            by_island.setdefault(context.at_rest.of(each.common), []).append(each)
    return tuple(
        sorted((_missing_common(context, found) for found in by_island.values()), key=lambda each: each.terminals)
    )


def parts_without_common(context: CheckContext) -> frozenset[str]:
    """Return the parts that lack their common."""
    return frozenset(part for missing in context.once(missing_commons) for part in missing.parts())


def is_control_alone(context: CheckContext, missing: MissingCommon) -> bool:
    """Return whether only controls that need common to stay awake lack it, and nothing else."""
    return all(_is_control(context, part) for part in missing.parts())


def needs_common(context: CheckContext, part: str) -> bool:
    """Return whether a control falls asleep without common."""
    return bool(context.inside(part).awake_by) and context.wiring.settings[part].get("battery") is not True


def _is_control(context: CheckContext, part: str) -> bool:
    return bool(context.wiring.kinds[part].calls)


def _stranded(context: CheckContext, device: Device) -> list[Stranded]:
    if device.part not in context.wired_parts:
        return []
    if _is_control(context, device.part) and not needs_common(context, device.part):
        return []
    leads = context.inside(device.part).devices[device.inner]
    found: list[Stranded] = []
    for common, hot in _common_and_hot(context, device.part, leads):
        feeding = context.fed_by(hot)
        if feeding and not any(_ever_returns(context, common, winding) for winding in feeding):
            found.append(Stranded(device, hot, common))
    return found


def _ever_returns(context: CheckContext, common: str, winding: Winding) -> bool:
    """Return whether a common terminal lies on the common side of a source at rest, or in some call.

    That all contacts could be closed at once is no way back: it would count every short as one.
    """
    if context.at_rest.same(common, winding.common):
        return True
    if not context.ever.same(common, winding.common):
        return False
    return any(context.islands_at(point).same(common, winding.common) for point in context.points_of(winding.part))


def _common_and_hot(context: CheckContext, part: str, leads: Leads) -> list[tuple[str, str]]:
    """Return the first common terminal on one side of a device with each terminal on its other side."""
    kind = context.wiring.kinds[part]
    for near, far in ((leads.first, leads.second), (leads.second, leads.first)):
        commons = [letter for letter in near if kind.terminals[letter].function == "common"]
        if commons:
            return [(f"{part}.{commons[0]}", f"{part}.{letter}") for letter in far]
    return []


def _missing_common(context: CheckContext, stranded: list[Stranded]) -> MissingCommon:
    terminals = {each.common for each in stranded}
    first = min(terminals, key=lambda terminal: _entry_order(context, terminal))
    windings = {w.name: w for each in stranded for w in context.fed_by(each.hot)}
    return MissingCommon(
        stranded=tuple(stranded),
        terminals=(first, *sorted(terminals - {first})),
        nodes=tuple(context.at_rest.members(first)),
        windings=tuple(windings[name] for name in sorted(windings)),
    )


def _entry_order(context: CheckContext, terminal: str) -> tuple[bool, int, str]:
    """Common comes in at equipment before controls, and where most conductors are landed."""
    landed = len(context.wiring.landed_on(terminal))
    return (_is_control(context, part_of(terminal)), -landed, terminal)
