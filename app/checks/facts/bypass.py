"""Ways around contacts: which contacts have both sides joined by something else than the contact itself.

Rules of the file: what is said here follows from the joins alone. A contact inside a part whose inner node nothing
else can reach costs one look.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Join
from app.circuit.operating_point import OperatingPoint
from app.job.names import part_of


@dataclass(frozen=True, slots=True)
class Bypass:
    """A safety's contact and the way around it, from its first to its second node, at the point that shows it.

    ``always`` is true where wires, traces, fuses and fitted jumpers alone make the way.
    """

    contact: Join
    switch: str
    path: tuple[tuple[Join, str], ...]
    point: OperatingPoint
    always: bool

    def culprits(self) -> tuple[Join, ...]:
        """Return the conductors and jumpers that make the way around: all that a person can take off, apart from the
        safety's own leads, which belong where they are unless nothing else is there."""
        return culprits_on(self.path, self.contact)


def culprits_on(path: Iterable[tuple[Join, str]], around: Join) -> tuple[Join, ...]:
    """Return the conductors and jumpers by which a path leads around a contact or fuse, apart from its own leads, which
    belong where they are unless nothing else is there."""
    movable = tuple(join for join, _ in path if join.sort in ("conductor", "jumper"))
    own = {around.a, around.b}
    return tuple(join for join in movable if not own & {join.a, join.b}) or movable


def wired_across(context: CheckContext) -> tuple[Join, ...]:
    """Return the contacts of wired parts that wires, traces, fuses and fitted jumpers go around."""
    of = context.wired.of
    return tuple(
        join for join in context.wiring.contacts if of(join.a) == of(join.b) and join.part in context.wired_parts
    )


def safety_contacts(context: CheckContext) -> tuple[tuple[Join, str], ...]:
    """Return the contacts of safeties of wired parts, each with the name of its switch."""
    found = ((join, context.inside(join.part).safeties.get(join.inner)) for join in context.wiring.contacts)
    return tuple((join, switch) for join, switch in found if switch is not None and join.part in context.wired_parts)


def bypasses(context: CheckContext) -> tuple[Bypass, ...]:
    """Return the safeties with a way around them, at rest or in a call, once each."""
    across = set(context.once(wired_across))
    found: list[Bypass] = []
    for join, switch in context.once(safety_contacts):
        if join in across:
            path = context.wired.path(join.a, join.b) or []
            found.append(Bypass(join, switch, tuple(path), context.idle, always=True))
        elif _has_a_way_around(context, join):
            found.extend(_in_a_call(context, join, switch))
    return tuple(found)


def safeties_bypassed_by(context: CheckContext, near: str, far: str) -> Iterator[Join]:
    """Yield the contacts of safeties that one more join would go around at all times."""
    for join in contacts_gone_around_by(context, near, far):
        if join.inner in context.inside(join.part).safeties:
            yield join


def contacts_gone_around_by(context: CheckContext, near: str, far: str) -> Iterator[Join]:
    """Yield the contacts between the two islands that one more join would make one; of parts that are wired then."""
    here = {part_of(near), part_of(far)}
    for join in context.once(_contacts_by_sides).get(frozenset({context.wired.of(near), context.wired.of(far)}), ()):
        if join.part in here or join.part in context.wired_parts:
            yield join


def _contacts_by_sides(context: CheckContext) -> Mapping[frozenset[str], list[Join]]:
    """Return the contacts by the two islands between which they lie."""
    of = context.wired.of
    found: dict[frozenset[str], list[Join]] = {}
    for join in context.wiring.contacts:
        sides = frozenset({of(join.a), of(join.b)})
        if len(sides) == 2:
            found.setdefault(sides, []).append(join)
    return found


def _has_a_way_around(context: CheckContext, join: Join) -> bool:
    """Return whether something could go around a contact: the wiring reaches both its sides, and some contacts,
    were they closed, would join these."""
    leads = context.inside(join.part).contacts[join.inner]
    if not leads.first or not leads.second:
        return False
    others = [each for each in context.contacts_by_network[context.network_of(join.part)] if each != join]
    return Islands(others, context.wired).same(join.a, join.b)


def _in_a_call(context: CheckContext, join: Join, switch: str) -> Iterator[Bypass]:
    """Yield the first call in which hot comes to both sides without the contact.

    Where something runs with no call at all, 24 V has been led past a contact of the control, and the rule that says
    so has said enough. A way through the control's own contact is none: there the safety goes around the control.
    """
    network = context.network_of(join.part)
    if any(context.network_of(part) == network for part, _ in context.effects_at_rest):
        return
    for called in context.called:
        if context.network_at(called.point) != network:
            continue
        islands = context.islands_at(called.point)
        without = Islands([each for each in islands.added if each != join], context.wired)
        hot = any(without.same(join.a, winding.hot) for winding in context.windings)
        path = (without.path(join.a, join.b) or []) if hot else []
        if path and not any(f"{each.part}.{each.inner}" in context.wiring.by_calls for each, _ in path):
            yield Bypass(join, switch, tuple(path), called.point, always=False)
            return
