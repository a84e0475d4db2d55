"""How far a call gets: from a control's outputs through switches, relays, panels and valves that pass it on.

The fault lies at the end of the chain: where a panel's output has nothing landed on it, the panel is to be looked at
and not each thermostat behind it.
"""

from __future__ import annotations

from app.checks.context import Called, CheckContext
from app.checks.facts.calls import STAGE_BELOW
from app.checks.facts.inside import SUPPLY_FUNCTIONS
from app.job.names import part_of

LONGEST = 8
"""More relays than this in a row are not followed."""

_PASSING_ON = frozenset({"zone-open", "pump"})
"""A part with other effects than these is where a call arrives, not where it is passed on."""


def steps_of(context: CheckContext, called: Called) -> list[tuple[str, ...]]:
    """Return the terminals on which a call comes out, step by step, those of the control first."""
    steps = [own_outputs(context, called)]
    while len(steps) < LONGEST and (further := _passed_on(context, called, steps)):
        steps.append(further)
    return steps


def own_outputs(context: CheckContext, called: Called) -> tuple[str, ...]:
    """Return the outputs of a call that neither the fan call nor the first stage uses; all where none are left."""
    outputs = context.outputs_of(called)
    shared = set(context.outputs(called.control, "fan")) if called.call != "fan" else set()
    if (below := STAGE_BELOW.get(called.call)) is not None:
        first_stage = context.outputs(called.control, below, called.outdoor_c)
        shared |= set(first_stage) if first_stage != outputs else set()
    return tuple(output for output in outputs if output not in shared) or outputs


def _passed_on(context: CheckContext, called: Called, steps: list[tuple[str, ...]]) -> tuple[str, ...]:
    seen = {context.wired.of(terminal) for step in steps for terminal in step}
    found: dict[str, str] = {}
    for output in steps[-1]:
        for node in context.wired.members(output):
            for terminal in _outputs_behind(context, called, node):
                top = context.wired.of(terminal)
                if top not in seen:
                    found.setdefault(top, _face(context, terminal))
    return tuple(sorted(found.values()))


def _outputs_behind(context: CheckContext, called: Called, node: str) -> list[str]:
    """Return the terminals onto which the part at ``node`` puts what arrives there, in this call."""
    part, _, letter = node.partition(".")
    kind = context.kind_of(part)
    if kind is None or kind.calls or set(kind.effects) - _PASSING_ON:
        return []
    inside = context.inside(part)
    works_devices = any(letter in leads.all() for leads in inside.devices.values())
    found: list[str] = []
    for inner, leads in inside.contacts.items():
        name = f"{part}.{inner}"
        closed = called.point.elements[name].state == "closed"
        moved = closed and context.idle.elements[name].state != "closed"
        if (works_devices and moved) or (not inside.devices and closed and letter in leads.all()):
            found.extend(f"{part}.{each}" for each in leads.all() if _is_output(context, f"{part}.{each}"))
    return found


def _is_output(context: CheckContext, terminal: str) -> bool:
    return context.function_of(terminal) not in SUPPLY_FUNCTIONS | {"common", "line"}


def _face(context: CheckContext, terminal: str) -> str:
    """Return the terminal that stands for an island which several parts put their call on: where most lands."""
    rivals = [
        node
        for node in context.wired.members(terminal)
        if node in context.terminals and context.layout.parts[part_of(node)].kind == _kind_at(context, terminal)
    ]
    return min(rivals or [terminal], key=lambda node: (-len(context.wiring.landed_on(node)), node))


def _kind_at(context: CheckContext, terminal: str) -> str:
    return context.layout.parts[part_of(terminal)].kind
