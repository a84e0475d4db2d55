"""Defrost as it is on the drawing: what a heat pump does once its outdoor coil has frosted, and what it then puts out
to call for tempering heat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.catalogue.kind import Choice
from app.checks.context import Called, CheckContext
from app.checks.facts.driven import drive_of
from app.circuit.operating_point import OperatingPoint
from app.circuit.solve import solve_all


@dataclass(frozen=True, slots=True)
class Defrost:
    """A heat pump in defrost. ``moved`` is the switch that frost moves, as ``part.name``, and its position;
    ``outputs`` the terminals that defrost makes hot and nothing else does."""

    part: str
    called: Called
    point: OperatingPoint
    moved: tuple[str, Choice]
    outputs: tuple[str, ...]


def defrosts(context: CheckContext) -> tuple[Defrost, ...]:
    """Return the defrost of each wired heat pump that has one, in the first call in which it heats."""
    return tuple(
        found
        for part in sorted(context.wired_parts)
        if (kind := context.kind_of(part)) is not None and "defrost" in kind.effects
        for found in _first_defrost(context, part)
    )


def _first_defrost(context: CheckContext, part: str) -> Iterator[Defrost]:
    heating = (each for each in context.called if (part, "heat-pump-heating") in each.point.effects)
    called = next(heating, None)
    for name, position in _frost_switches(context, part) if called is not None else ():
        assert called is not None
        asked = called.point.situation.model_copy(update={"set": {f"{part}.{name}": position}})
        point = solve_all(context.circuit, [asked])[0]
        if (part, "defrost") in point.effects:
            outputs = tuple(_outputs(context, part, called.point, point))
            yield Defrost(part, called, point, (f"{part}.{name}", position), outputs)
            return


def _frost_switches(context: CheckContext, part: str) -> Iterator[tuple[str, Choice]]:
    """Yield each other position of each switch that defrost depends on and that is no safety."""
    kind = context.wiring.kinds[part]
    for name in sorted(drive_of(kind, "defrost").names & set(kind.switches)):
        switch = kind.switches[name]
        present = context.wiring.settings[part].get(name, switch.rest)
        for position in switch.positions if not switch.safety else ():
            if position != present:
                yield name, position


def _outputs(context: CheckContext, part: str, before: OperatingPoint, after: OperatingPoint) -> Iterator[str]:
    """Yield the terminals onto which contacts that defrost closes put the part's supply."""
    for join in context.contacts_by_network.get(context.network_of(part), []):
        name = f"{part}.{join.inner}"
        if join.part == part and after.elements[name].state == "closed" and before.elements[name].state != "closed":
            for near, far in ((join.a, join.b), (join.b, join.a)):
                if context.is_supply(near) and context.function_of(far) == "call":
                    yield far
