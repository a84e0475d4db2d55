"""Which source a dead supply terminal waits for: the one to whose common the equipment behind its contacts returns."""

from __future__ import annotations

from app.checks.context import CheckContext
from app.checks.facts.joins import Winding
from app.checks.facts.supplies import DeadSupply, is_before_fuse
from app.checks.fixes import Fix, join_to
from app.job.names import letter_of, part_of


def can_share(context: CheckContext, dead: DeadSupply) -> bool:
    """Return whether what waits on a dead supply returns to a source that feeds the supply beside it."""
    waited = windings_waited_for(context, dead)
    beside = [winding for winding in context.windings if context.at_rest.same(winding.hot, dead.fed_beside or "")]
    return not waited or any(winding in waited for winding in beside)


def windings_waited_for(context: CheckContext, dead: DeadSupply) -> tuple[Winding, ...]:
    """Return the sources to whose common side something behind a dead supply returns."""
    commons = [node for terminal in dead.terminals for node in _commons_behind(context, terminal)]
    return tuple(
        winding for winding in context.windings if any(context.at_rest.same(node, winding.common) for node in commons)
    )


def supply_fix(context: CheckContext, dead: DeadSupply) -> Fix | None:
    """Return the lead that feeds a dead supply: from the source that it waits for, behind its fuse where there is
    one; None where it is not plain which source is meant."""
    waited = windings_waited_for(context, dead)
    meant = waited or tuple(context.windings)
    if len(meant) != 1:
        return None
    hot = meant[0].hot
    goals = [node for node in context.at_rest.members(hot) if context.is_supply(node)]
    fused = [node for node in goals if _behind_fuse(context, hot, node)]
    return join_to(context, dead.entry, goals if is_before_fuse(context, dead.entry) else fused or goals)


def _commons_behind(context: CheckContext, terminal: str) -> list[str]:
    """The common sides of the devices of this part on ``terminal``, and of those that its contacts switch."""
    part = part_of(terminal)
    letter = letter_of(terminal)
    inside = context.inside(part)
    reached = {terminal}
    for leads in inside.contacts.values():
        if letter in leads.all():
            reached.update(f"{part}.{other}" for other in leads.all())
    found: list[str] = []
    for node in sorted(reached):
        for other in context.wired.members(node):
            found.extend(_commons_of_devices_at(context, other))
    return found


def _commons_of_devices_at(context: CheckContext, terminal: str) -> list[str]:
    part, _, letter = terminal.partition(".")
    if part not in context.wiring.kinds or terminal not in context.terminals:
        return []
    kind = context.wiring.kinds[part]
    return [
        f"{part}.{other}"
        for leads in context.inside(part).devices.values()
        if letter in leads.all()
        for other in leads.all()
        if kind.terminals[other].function == "common"
    ]


def _behind_fuse(context: CheckContext, hot: str, node: str) -> bool:
    path = context.at_rest.path(hot, node) or []
    return any(join.sort == "fuse" for join, _ in path)
