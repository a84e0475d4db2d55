"""How the lack of a common shows on a meter and what mends it, for the two rules that speak of it."""

from __future__ import annotations

from app.checks.context import CheckContext
from app.checks.facts.commons import MissingCommon, Stranded
from app.checks.facts.islands import Islands
from app.checks.facts.probes import measured
from app.checks.finding import Evidence
from app.checks.fixes import Fix, join_to


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
    common = missing.windings[0].common
    goals = [node for node in context.wired.members(common) if context.function_of(node) == "common"]
    return join_to(context, missing.terminals[0], goals)


def _is_hot(context: CheckContext, stranded: Stranded, islands: Islands) -> bool:
    return any(islands.same(stranded.hot, winding.hot) for winding in context.windings)


def _goes_to_another(context: CheckContext, missing: MissingCommon) -> bool:
    """A common that already goes to another source is not to be joined with a second one."""
    other = [winding for winding in context.windings if winding not in missing.windings]
    return any(context.at_rest.same(missing.terminals[0], winding.common) for winding in other)
