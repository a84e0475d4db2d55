"""Where to put the two probes, and what a meter then shows: the evidence of a finding."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.checks.context import Called, CheckContext
from app.checks.facts.driven import driving_terminals
from app.checks.facts.joins import Device
from app.checks.finding import Evidence
from app.circuit.deviations import AT_REST_C
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

TOLERANCE_VOLTS = 1.0
"""A meter's own error and a supply that is a little off."""
TOLERANCE_SHARE = 0.1
"""Mains may be a tenth off either way."""


def call_text(point: OperatingPoint) -> str | None:
    """Return the call of a point as commands say it, None for idle."""
    for control, calls in point.situation.calls.items():
        if calls:
            return f"{control}={calls[-1]}"
    return None


def otherwise(point: OperatingPoint) -> dict[str, Any]:
    """Return what else than one call has to be so, as commands take it: ``with`` positions and more, by name."""
    situation = point.situation
    found: dict[str, Any] = {}
    if len(situation.calls) > 1:
        found["calls"] = {control: list(calls) for control, calls in situation.calls.items()}
    if situation.set:
        found["with"] = dict(situation.set)
    if situation.supply_percent != 100:
        found["supply_percent"] = situation.supply_percent
    if situation.outdoor_c != AT_REST_C:
        found["outdoor_c"] = situation.outdoor_c
    return found


def measured(
    context: CheckContext, point: OperatingPoint, a: str, b: str, more: Mapping[str, Any] | None = None
) -> Evidence:
    """Return the evidence that a meter between ``a`` and ``b`` gives at ``point``.

    Terminals of two places give no probe pair, because nobody can reach both; a pair that floats gives no volts.
    """
    call = call_text(point)
    more = {**otherwise(point), **(more or {})}
    if context.place_of(a) != context.place_of(b):
        return Evidence(call=call, more=more)
    volts = point.volts_between(a, b)
    tolerance = None if volts is None else max(TOLERANCE_VOLTS, TOLERANCE_SHARE * volts)
    return Evidence(probe=(a, b), volts=volts, tolerance_volts=tolerance, call=call, more=more)


def measured_to_common(
    context: CheckContext, point: OperatingPoint, terminal: str, more: Mapping[str, Any] | None = None
) -> Evidence:
    """Return the evidence that a meter gives between a terminal and the common beside it; no probes without one."""
    common = common_beside(context, terminal)
    if common is None:
        return Evidence(call=call_text(point), more=dict(more or {}))
    return measured(context, point, terminal, common, more)


def measured_across(context: CheckContext, point: OperatingPoint, device: Device) -> Evidence:
    """Return the evidence that a meter gives across a device; no probes where a side of it cannot be reached."""
    if {device.a, device.b} <= set(context.terminals):
        return measured(context, point, device.a, device.b)
    return Evidence(call=call_text(point))


def common_beside(context: CheckContext, terminal: str) -> str | None:
    """Return the common terminal of the same part that has most room, else one of the same place on a common side."""
    own = [t for t in context.wiring.terminals_of(part_of(terminal)) if context.function_of(t) == "common"]
    if own:
        return max(own, key=lambda each: context.terminals[each].holds)
    return _in_place(context, terminal, [winding.common for winding in context.windings])


def supply_beside(context: CheckContext, terminal: str) -> str | None:
    """Return a terminal of the same place on the hot side of the source that feeds a terminal's network."""
    own = context.network_of(part_of(terminal))
    return _in_place(
        context, terminal, [winding.hot for winding in context.windings if context.network_of(winding.part) == own]
    )


def _in_place(context: CheckContext, terminal: str, nodes: list[str]) -> str | None:
    """Return the first terminal of the same place, by name, on the wired island of one of ``nodes``."""
    place = context.place_of(terminal)
    for node in nodes:
        for other in context.wired.members(node):
            if other != terminal and other in context.terminals and context.place_of(other) == place:
                return other
    return None


def telling_terminal(context: CheckContext, called: Called, part: str) -> str | None:
    """Return the call terminal of a part that is hot in a call and neither at rest nor for the fan alone."""
    others = [
        context.idle,
        *(each.point for each in context.called if each.control == called.control and each.call == "fan"),
    ]
    hot = [
        t
        for t in context.wiring.terminals_of(part)
        if context.function_of(t) == "call" and _is_hot(context, t, called.point)
    ]
    telling = [t for t in hot if not any(_is_hot(context, t, other) for other in others)]
    return next(iter([t for t in telling if context.wiring.landed_on(t)] or telling or hot), None)


def shown_at_part(context: CheckContext, called: Called, part: str) -> Evidence:
    """Return the evidence at the terminal of a part that tells that a call has reached it."""
    terminal = telling_terminal(context, called, part)
    return Evidence(call=called.text()) if terminal is None else shown_by(context, called, terminal)


def shown_at_effect(context: CheckContext, called: Called, part: str, effect: str) -> Evidence:
    """Return the evidence at the terminal of a part on which the call for an effect arrives."""
    terminals = driving_terminals(context, called, part, effect)
    landed = [terminal for terminal in terminals if context.wiring.landed_on(terminal)]
    return shown_by(context, called, (landed or terminals)[0]) if terminals else Evidence(call=called.text())


def _is_hot(context: CheckContext, terminal: str, point: OperatingPoint) -> bool:
    islands = context.islands_at(point)
    return any(islands.same(terminal, winding.hot) for winding in context.windings)


def shown_by(context: CheckContext, called: Called, terminal: str) -> Evidence:
    """Return the evidence at a terminal in a call: its volts to the common beside it."""
    common = common_beside(context, terminal)
    if common is None:
        return Evidence(call=called.text())
    return measured(context, called.point, terminal, common)
