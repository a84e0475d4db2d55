"""Defrost as it is on the drawing: what a heat pump does once its outdoor coil has frosted, and what it then puts out
to call for tempering heat."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from app.catalogue.kind import Choice, Contact
from app.checks.context import Called, CheckContext
from app.checks.facts.driven import drive_behind, drive_of
from app.circuit.operating_point import OperatingPoint
from app.circuit.solve import solve_all
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Defrost:
    """A heat pump in defrost. ``moved`` is the switch that frost moves, as ``part.name``, and its position;
    ``outputs`` the terminals on which its defrost puts supply."""

    part: str
    called: Called
    point: OperatingPoint
    moved: tuple[str, Choice]
    outputs: tuple[str, ...]


def defrosting_parts(context: CheckContext) -> list[str]:
    """Return the wired parts that have a defrost, sorted."""
    kinds = context.wiring.kinds
    return [part for part in sorted(context.wired_parts) if part in kinds and "defrost" in kinds[part].effects]


def defrost_outputs(context: CheckContext, part: str) -> list[str]:
    """Return the terminals onto which a contact that frost has a say in puts the supply of a part."""
    kind = context.wiring.kinds[part]
    frost = {name for name, _ in _frost_switches(context, part)}
    return [
        far
        for element in kind.elements.values()
        if isinstance(element, Contact) and frost & drive_behind(kind, element.by).names
        for near, far in _both_ways(f"{part}.{node}" for node in element.between)
        if context.is_supply(near) and context.function_of(far) == "call"
    ]


def first_defrost(context: CheckContext, part: str) -> Iterator[Defrost]:
    """Yield the defrost of a part, in the first call in which it heats."""
    heating = (each for each in context.called if (part, "heat-pump-heating") in each.point.effects)
    called = next(heating, None)
    for name, position in _frost_switches(context, part) if called is not None else ():
        assert called is not None
        asked = called.point.situation.model_copy(update={"set": {f"{part}.{name}": position}})
        point = solve_all(context.circuit, [asked])[0]
        if (part, "defrost") in point.effects:
            hot = tuple(each for each in defrost_outputs(context, part) if _is_hot(context, each, point))
            yield Defrost(part, called, point, (f"{part}.{name}", position), hot)
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


def _both_ways(nodes: Iterable[str]) -> list[tuple[str, str]]:
    a, b = nodes
    return [(a, b), (b, a)]


def _is_hot(context: CheckContext, output: str, point: OperatingPoint) -> bool:
    """Return whether a contact that puts supply on an output is closed."""
    return any(
        output in (join.a, join.b)
        and point.elements[f"{join.part}.{join.inner}"].state == "closed"
        and any(context.is_supply(side) for side in (join.a, join.b))
        for join in context.contacts_by_network.get(context.network_of(part_of(output)), [])
    )
