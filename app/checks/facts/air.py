"""Air: compressors that run while no fan moves the air of their stream."""

from __future__ import annotations

from app.checks.context import Called, CheckContext
from app.checks.facts.calls import AIR_ONLY
from app.checks.facts.commons import parts_without_common
from app.checks.facts.fed import starved_parts
from app.checks.facts.silence import falling_short
from app.checks.facts.strain import is_calm
from app.checks.facts.supplies import parts_without_supply


def stranded_compressors(context: CheckContext) -> tuple[tuple[Called, str, tuple[str, ...]], ...]:
    """Return (call, part, fans) where a compressor runs and no fan of its air stream does, though one is wired.

    A fan that lacks supply, common or volts explains it, and so does a call that comes out as something else: a call
    for air that starts a compressor is no call for it in the first place.
    """
    troubled = context.once(parts_without_common) | context.once(parts_without_supply) | context.once(starved_parts)
    crossed = {each.called.text() for each in context.once(falling_short) if each.called.call != "fan"}
    found: list[tuple[Called, str, tuple[str, ...]]] = []
    for called in context.called:
        explained = called.text() in crossed or called.call in AIR_ONLY
        if explained or not is_calm(context, called.point, called.control):
            continue
        for part, effect in sorted(context.effects_of(called)):
            fans = tuple(fans_in_air_of(context, part)) if effect == "compressor" else ()
            if not fans or troubled & set(fans) or set(fans) & set(called.point.runs("indoor-fan")):
                continue
            if not any((fan, "indoor-fan") in called.point.effects_in_doubt for fan in fans):
                found.append((called, part, fans))
    return tuple(found)


def fans_in_air_of(context: CheckContext, part: str) -> list[str]:
    """Return the wired parts with a fan in the air stream of a part, sorted."""
    return context.once(_fans_by_air).get(context.layout.parts[part].air, [])


def _fans_by_air(context: CheckContext) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for part in sorted(context.wired_parts):
        kind = context.kind_of(part)
        if kind is not None and "indoor-fan" in kind.effects:
            found.setdefault(context.layout.parts[part].air, []).append(part)
    return found


def stray_effects(context: CheckContext) -> frozenset[tuple[str, str]]:
    """Return the (part, effect) that run at rest or in a call for air alone: another rule speaks of them."""
    for_air = (effect for called in context.called if called.call in AIR_ONLY for effect in called.point.effects)
    return context.effects_at_rest | frozenset(for_air)
