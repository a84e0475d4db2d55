"""How the lack of a common shows on a meter and what mends it, for the rules that speak of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.checks.context import CheckContext
from app.checks.facts.commons import MissingCommon, Stranded
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Device
from app.checks.facts.probes import common_beside, measured
from app.checks.finding import Evidence
from app.checks.fixes import Fix, best_goal, has_room, join_to, land
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of

Lead = tuple[str, int]
"""A conductor, and the index of the end that is meant."""


def ways_back_words(context: CheckContext, missing: MissingCommon) -> str:
    """Return which common is meant, in words."""
    return " or ".join(f"the common of {context.label_of(winding.part)}" for winding in missing.windings)


def shown_at(context: CheckContext, missing: MissingCommon) -> Evidence:
    """Return the evidence at the first stranded device: next to nothing across it while its hot side is hot."""
    first = min(missing.stranded, key=lambda each: (each.common != missing.terminals[0], each.device.name))
    for point in context.points:
        if _is_hot(context, first, context.islands_at(point)):
            return measured(context, point, first.hot, first.common)
    return measured(context, context.idle, first.hot, first.common)


def fix_of(context: CheckContext, missing: MissingCommon) -> Fix | None:
    """Return the lead that gives the way back; None where two sources leave open which one is meant."""
    if len(missing.windings) != 1 or _goes_to_another(context, missing):
        return None
    (winding,) = missing.windings
    goals = [node for node in context.wired.members(winding.common) if context.function_of(node) == "common"]
    return join_to(context, missing.terminals[0], goals)


def shown_through(context: CheckContext, point: OperatingPoint, out: str, through: Iterable[Device]) -> Evidence:
    """Return the evidence at a load that serves as the way back of ``out``: the volts that are left across it."""
    across = max(through, key=lambda device: (point.elements[device.name].volts or 0.0, device.name))
    for terminal in context.wired.members(out):
        if part_of(terminal) == across.part and terminal in context.terminals:
            common = common_beside(context, terminal)
            if common not in (None, terminal):
                return measured(context, point, terminal, common)
    return Evidence()


def lead_on(context: CheckContext, terminal: str) -> list[Lead]:
    """Return the conductor on a terminal, with the index of its far end, where it is a single one."""
    landed = context.wiring.landed_on(terminal)
    return [(conductor, 1 - index) for conductor, index in landed] if len(landed) == 1 else []


def land_on_common(context: CheckContext, lead: Sequence[Lead]) -> Fix | None:
    """Land the far end of a lead on common, in the place where it is now if it can be."""
    for conductor, index in lead:
        end = context.layout.conductors[conductor].ends[index]
        goals = [
            node
            for winding in context.windings
            for node in context.wired.members(winding.common)
            if context.function_of(node) == "common" and has_room(context, node)
        ]
        if isinstance(end, str) and goals and len(context.windings) == 1:
            return land(context, conductor, index, best_goal(context, end, sorted(goals)))
    return None


def _is_hot(context: CheckContext, stranded: Stranded, islands: Islands) -> bool:
    return any(islands.same(stranded.hot, winding.hot) for winding in context.windings)


def _goes_to_another(context: CheckContext, missing: MissingCommon) -> bool:
    """A common that already goes to another source is not to be joined with a second one."""
    other = [winding for winding in context.windings if winding not in missing.windings]
    return any(context.at_rest.same(missing.terminals[0], winding.common) for winding in other)
