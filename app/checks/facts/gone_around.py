"""Fuses that are out of the way: what they should protect is fed past them."""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.bypass import culprits_on
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join, Winding
from app.checks.facts.protection import unfused
from app.checks.facts.secondary import limiting_of
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class GoneAround:
    """A fuse of a part, the source that feeds the part past it, and the conductors and jumpers that do.

    ``ahead`` is the node before the fuse where the part is fed behind it, None where something lies across the fuse.
    """

    fuse: Join
    winding: Winding
    by: tuple[Join, ...]
    ahead: str | None


def fuses_gone_around(context: CheckContext) -> tuple[GoneAround, ...]:
    """Return the fuses past which a source that limits itself feeds what is behind them, each once.

    With a source that does not, what it feeds ahead of any fuse is told anyway. A fuse in a lead of which one side is
    not landed yet is unfinished, and is not told.
    """
    islands = context.once(unfused)
    found: dict[Join, GoneAround] = {}
    for fuse, winding in _fuses_and_sources(context, context.wired_parts):
        way = _way_around(islands, fuse, winding) if _is_past(context, islands, fuse, winding) else None
        if way is not None:
            found[fuse] = way
    return tuple(found.values())


def fuses_gone_around_by(context: CheckContext, near: str, far: str) -> Iterator[Join]:
    """Yield the fuses that one more join would put out of the way."""
    islands = context.once(unfused)
    sides = {islands.of(near), islands.of(far)}
    if len(sides) == 1:
        return
    joined = None
    for fuse, winding in _fuses_and_sources(context, context.wired_parts | {part_of(near), part_of(far)}):
        if islands.of(winding.hot) in sides and not sides.isdisjoint((islands.of(fuse.a), islands.of(fuse.b))):
            joined = joined or islands.with_join(near, far)
            if _is_past(context, joined, fuse, winding) and not _is_past(context, islands, fuse, winding):
                yield fuse


def _fuses_and_sources(context: CheckContext, parts: Set[str]) -> Iterator[tuple[Join, Winding]]:
    """Yield the fuses of some parts, each with each source that limits itself."""
    inherent = [winding for winding in context.windings if limiting_of(context, winding) == "inherent"]
    for join in context.wiring.fixed if inherent else ():
        if join.sort == "fuse" and join.part in parts:
            for winding in inherent:
                yield join, winding


def _is_past(context: CheckContext, islands: Islands, fuse: Join, winding: Winding) -> bool:
    """Return whether a source comes to both sides of a fuse without it, or to the side that is behind it: where the
    part takes its power, with nothing on the other."""
    fed = [end for end in (fuse.a, fuse.b) if islands.same(end, winding.hot)]
    if len(fed) != 1:
        return len(fed) == 2
    ahead = _other_end(fuse, fed[0])
    return islands.members(ahead) == [ahead] and _takes_power_at(context, islands, fuse.part, fed[0])


def _way_around(islands: Islands, fuse: Join, winding: Winding) -> GoneAround | None:
    across = islands.path(fuse.a, fuse.b)
    if across is not None:
        culprits = culprits_on(across, fuse)
        return GoneAround(fuse, winding, culprits, None) if culprits else None
    behind = fuse.a if islands.same(fuse.a, winding.hot) else fuse.b
    made = [join for join, _ in islands.path(winding.hot, behind) or () if join.sort in ("conductor", "jumper")]
    # The last one is landed on the part itself.
    return GoneAround(fuse, winding, (made[-1],), _other_end(fuse, behind)) if made else None


def _other_end(fuse: Join, end: str) -> str:
    return fuse.b if end == fuse.a else fuse.a


def _takes_power_at(context: CheckContext, islands: Islands, part: str, node: str) -> bool:
    """Return whether something inside a part hangs on a node."""
    wiring = context.wiring
    ends = [(device.a, device.b) for device in wiring.devices if device.part == part]
    ends += [(contact.a, contact.b) for contact in wiring.contacts if contact.part == part]
    return any(islands.same(a, node) or islands.same(b, node) for a, b in ends)
