"""Calls that do not bring what they ask for, and whether another rule already says why.

One root cause gets one finding: a call is not blamed where its control is unpowered, where its source is on the wrong
tap, where what it works lacks its common or supply or the volts to pull in, or where its wire ends loose or unseen.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import Called, CheckContext
from app.checks.facts.calls import STAGE_BELOW, looks_for
from app.checks.facts.chain import steps_of
from app.checks.facts.commons import parts_without_common
from app.checks.facts.fed import starved_parts
from app.checks.facts.secondary import wrong_taps
from app.checks.facts.strain import is_calm
from app.checks.facts.supplies import parts_without_supply
from app.checks.facts.trickle import starved_by_trickle
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Silent:
    """A call that lacks what it asks for. ``brings`` is what it does instead; ``outputs`` the terminals to look at;
    ``below`` the first stage to which it should have added something."""

    called: Called
    brings: frozenset[str]
    outputs: tuple[str, ...]
    below: str | None


def falling_short(context: CheckContext) -> tuple[Silent, ...]:
    """Return the calls that lack what they ask for, apart from what dead supplies, commons and loose ends explain."""
    found: list[Silent] = []
    failed: set[tuple[str, str, float]] = set()
    for called in context.called:
        silent = _silent(context, called)
        if silent is None:
            continue
        below = STAGE_BELOW.get(called.call)
        failed.add((called.control, called.call, called.outdoor_c))
        if (called.control, below, called.outdoor_c) not in failed and not _is_explained(context, called):
            found.append(silent)
    return tuple(found)


def _silent(context: CheckContext, called: Called) -> Silent | None:
    if called.control not in context.wired_parts or not is_calm(context, called.point, called.control):
        return None
    wanted = looks_for(called.call, heat_in_layout=context.heat_in_layout)
    here = context.network_of(called.control)
    unsure = {effect for part, effect in called.point.effects_in_doubt if context.network_of(part) == here}
    if not wanted or wanted & unsure:
        return None
    brought = frozenset(effect for part, effect in called.point.effects if context.network_of(part) == here)
    added = frozenset(effect for _, effect in context.effects_of(called))
    if not wanted & brought and not _came_out_reversed(context, called):
        return Silent(called, added, _outputs_to_blame(context, called), None)
    below = _stage_below(context, called)
    if below is not None and context.effects_of(called) <= context.effects_of(below):
        return Silent(called, added, _outputs_to_blame(context, called), below.call)
    return None


def _stage_below(context: CheckContext, called: Called) -> Called | None:
    """Return the first stage, unless both stages close the same contacts in this weather."""
    below = STAGE_BELOW.get(called.call)
    stages = [other for other in context.called if other.control == called.control and other.call == below]
    for other in sorted(stages, key=lambda other: other.outdoor_c != called.outdoor_c):
        return None if context.outputs_of(called) == context.outputs_of(other) else other
    return None


def _came_out_reversed(context: CheckContext, called: Called) -> bool:
    """A unit that could have done the right thing runs: then its valve is wrong, and that has a rule of its own."""
    for part, effect in context.effects_of(called):
        kind = context.kind_of(part)
        if effect == "compressor" and kind is not None and {"cooling", "heat-pump-heating"} <= set(kind.effects):
            return called.call.startswith(("cool", "heat"))
    return False


def _outputs_to_blame(context: CheckContext, called: Called) -> tuple[str, ...]:
    """Where the call gets last: of these outputs those that go nowhere, if there are any."""
    last = steps_of(context, called)[-1]
    return tuple(output for output in last if not _works_something(context, output)) or last


def _works_something(context: CheckContext, output: str) -> bool:
    """Return whether a device hangs on the island of an output."""
    for node in context.wired.members(output):
        part, _, letter = node.partition(".")
        if part in context.wiring.kinds and any(
            letter in leads.all() for leads in context.inside(part).devices.values()
        ):
            return True
    return False


def _is_explained(context: CheckContext, called: Called) -> bool:
    troubled = context.once(parts_without_common) | context.once(parts_without_supply)
    troubled |= context.once(starved_parts) | context.once(starved_by_trickle)
    if called.control in troubled or context.network_of(called.control) in context.once(_wrongly_fed):
        return True
    if context.is_unknown_at(called.point, context.outputs_of(called)):
        return True
    return any(
        part_of(node) in troubled or node in context.wiring.veiled or _ends_loose(context, node)
        for step in steps_of(context, called)
        for output in step
        for node in context.wired.members(output)
    )


def _wrongly_fed(context: CheckContext) -> frozenset[int]:
    """Return the networks with a source on the wrong tap: their volts are wrong throughout."""
    return frozenset(context.network_of(tap.winding.part) for tap in context.once(wrong_taps))


def _ends_loose(context: CheckContext, node: str) -> bool:
    return any(
        not isinstance(context.layout.conductors[conductor].ends[1 - index], str)
        for conductor, index in context.wiring.landed_on(node)
    )
