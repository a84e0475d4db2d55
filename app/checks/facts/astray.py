"""Calls that bring what they do not ask for, and what leads the current there.

Rules of the file: the culprit is whatever can go, so that the call no longer brings what it should not, still brings
what it should, and what it brought astray still comes in the calls that ask for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.catalogue.kind import CallName
from app.checks.context import Called, CheckContext
from app.checks.facts.air import stray_effects
from app.checks.facts.driven import driving_terminals
from app.checks.facts.inside import BURNING
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join
from app.checks.facts.silence import falling_short
from app.checks.facts.strain import is_calm
from app.checks.facts.valves import COOL_CALLS, wrong_valves

HEAT_CALLS: frozenset[CallName] = frozenset({"heat-1", "heat-2", "aux-heat", "emergency-heat"})

Running = tuple[str, str]
"""A part and an effect that it has."""


@dataclass(frozen=True, slots=True)
class Mixed:
    """A call in which one air stream is cooled and heated. ``astray`` is what nobody asked for, ``culprits`` what
    leads there: conductors, jumpers, or contacts of parts other than the control."""

    called: Called
    cooler: str
    heater: str
    astray: Running
    culprits: tuple[Join, ...]

    def goes_through_a_contact(self) -> bool:
        """Return whether a contact leads the current astray."""
        return any(join.sort == "contact" for join in self.culprits)


def mixed_calls(context: CheckContext) -> tuple[Mixed, ...]:
    """Return the calls that heat and cool one air stream, each pair of parts once.

    What runs with no call is told elsewhere, and so is a valve that stands the wrong way round.
    """
    found: dict[tuple[str, str], Mixed] = {}
    for called in context.called:
        if called.call in COOL_CALLS or called.call in HEAT_CALLS:
            for cooler, heat in _in_one_air(context, called):
                if (cooler, heat[0]) not in found:
                    found[cooler, heat[0]] = _mixed(context, called, cooler, heat)
    return tuple(mixed for mixed in found.values() if not _is_told_elsewhere(context, mixed))


def culprits(
    context: CheckContext, called: Called, astray: Running, rightful: Running, rightly: Iterable[CallName]
) -> tuple[Join, ...]:
    """Return each single thing on the way to ``astray`` that can go: then the call no longer gets there, it still
    brings ``rightful``, and a call among ``rightly`` still brings ``astray``."""
    terminals = driving_terminals(context, called, *astray)
    if not terminals:
        return ()
    others = [each for each in context.called if each.call in rightly and each.call != called.call]

    def is_culprit(join: Join) -> bool:
        return (
            not any(_is_hot_without(context, called, terminal, join) for terminal in terminals)
            and _still_brings(context, called, rightful, join)
            and any(_still_brings(context, other, astray, join) for other in others)
        )

    return tuple(join for join in _way(context, called, terminals[0]) if is_culprit(join))


def movable(joins: Iterable[Join]) -> tuple[Join, ...]:
    """Return what a person can take off."""
    return tuple(join for join in joins if join.sort in ("conductor", "jumper"))


def _is_told_elsewhere(context: CheckContext, mixed: Mixed) -> bool:
    """Return whether the two also run together in heating, or the lead that went astray is missed where it belongs."""
    together = {(mixed.cooler, "heat-pump-heating"), (mixed.heater, "furnace-heat")}
    if any(together <= set(called.point.effects) for called in context.called):
        return True
    rightly = HEAT_CALLS if mixed.called.call in COOL_CALLS else COOL_CALLS
    return not mixed.culprits and any(
        each.called.call in rightly and each.called.control == mixed.called.control
        for each in context.once(falling_short)
    )


def _in_one_air(context: CheckContext, called: Called) -> list[tuple[str, Running]]:
    coolers = called.point.runs("cooling")
    if not coolers or not is_calm(context, called.point, called.control):
        return []
    heats = [(part, effect) for part, effect in called.point.effects if effect in BURNING]
    if not heats:
        return []
    stray = context.once(stray_effects)
    turned = {valve.part for valve in context.once(wrong_valves)}
    air_of = context.layout.parts
    return [
        (cooler, heat)
        for cooler in coolers
        for heat in heats
        if air_of[cooler].air == air_of[heat[0]].air and cooler not in turned
        if (cooler, "cooling") not in stray and heat not in stray
    ]


def _mixed(context: CheckContext, called: Called, cooler: str, heat: Running) -> Mixed:
    cool: Running = (cooler, "cooling")
    if called.call in COOL_CALLS:
        return Mixed(called, cooler, heat[0], heat, culprits(context, called, heat, cool, HEAT_CALLS))
    return Mixed(called, cooler, heat[0], cool, culprits(context, called, cool, heat, COOL_CALLS))


def _way(context: CheckContext, called: Called, terminal: str) -> list[Join]:
    """Return what could go of the way from a hot side to a terminal: all but the control's own contacts."""
    islands = context.islands_at(called.point)
    paths = (islands.path(winding.hot, terminal) for winding in context.windings)
    path = next((path for path in paths if path is not None), [])
    return [
        join
        for join, _ in path
        if join.sort in ("conductor", "jumper") or (join.sort == "contact" and join.part != called.control)
    ]


def _still_brings(context: CheckContext, called: Called, wanted: Running, without: Join) -> bool:
    terminals = driving_terminals(context, called, *wanted) if wanted in called.point.effects else ()
    return bool(terminals) and all(_is_hot_without(context, called, each, without) for each in terminals)


def _is_hot_without(context: CheckContext, called: Called, terminal: str, join: Join) -> bool:
    """Return whether a hot side lies on a terminal in a call once a join is gone."""
    closed = [each for each in context.islands_at(called.point).added if each != join]
    islands = Islands([each for each in context.wiring.fixed if each != join] + closed)
    return any(islands.same(terminal, winding.hot) for winding in context.windings)
