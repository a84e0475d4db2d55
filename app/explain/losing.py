"""What is lost without a conductor: each is opened in each situation, all in one batch."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Fault, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.explain.situation_words import said_in_options
from app.job.names import part_of

MOST_HAPPENINGS = 500
Effects = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Lost:
    """What one situation loses when a conductor is opened, and what runs then that did not run before.

    ``situation`` is said in options: ``idle``, ``tc=cool-1``; effects are (part, effect).
    """

    situation: str
    effects: Effects
    instead: Effects


def lost_without(
    circuit: Circuit, conductors: Sequence[str], points: Sequence[OperatingPoint]
) -> Mapping[str, tuple[Lost, ...]]:
    """Return for each conductor what each situation loses without it; situations that lose nothing are left out.

    Args:
        circuit: the layout, compiled.
        conductors: ids.
        points: operating points of the situations, with the conductors whole.
    """
    asked = [(name, point) for name in conductors for point in points]
    opened = solve_all(circuit, [_without(point.situation, name) for name, point in asked])
    found: dict[str, list[Lost]] = {name: [] for name in conductors}
    for (name, before), after in zip(asked, opened, strict=True):
        lost = tuple(effect for effect in before.effects if effect not in after.effects)
        instead = tuple(effect for effect in after.effects if effect not in before.effects)
        if lost or instead:
            found[name].append(Lost(said_in_options(before.situation), lost, instead))
    return {name: tuple(each) for name, each in found.items()}


def happenings(circuit: Circuit, conductor: str) -> list[Situation]:
    """Return every call with one thing besides that is no safety: a frosted coil, humid air, a door.

    Only what lies in the network of the conductor is tried.
    """
    landed = circuit.layout.conductors[conductor].landed()
    here = circuit.network_of[part_of(landed[0])] if landed else -1
    found: list[Situation] = []
    for part, its in sorted(circuit.layout.parts.items()):
        kind = circuit.catalogue.kind_of(its)
        if kind is None or circuit.network_of[part] != here:
            continue
        for name, switch in sorted(kind.switches.items()):
            for position in switch.positions if not switch.safety and not kind.calls else ():
                if position != switch.rest:
                    happens = {"set": {f"{part}.{name}": position}}
                    found += [
                        each.model_copy(update=happens) for each in situations_of(circuit.layout, circuit.catalogue)
                    ]
    return found[:MOST_HAPPENINGS]


def _without(situation: Situation, conductor: str) -> Situation:
    opened = Fault.model_validate({"is": "conductor-open", "at": f"conductor:{conductor}"})
    return situation.model_copy(update={"faults": (*situation.faults, opened)})
