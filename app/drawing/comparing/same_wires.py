"""Which wire of the earlier layout is which of the later one.

Rules of the file: ids are only names, and whoever draws the later layout may number anew. Nobody changes a sheath, so
what has the same id must have the same insulation, as far as it is said. What then has no counterpart is found by its
cable and insulation where no other there has them, which is how a technician tells the conductors of a cable apart; in
no cable, by its insulation and the two screws on which it is landed (common practice, no source). Last comes what has
its old id and place, and an insulation that was corrected.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Mapping

from app.job.model import Conductor

Sign = Callable[[Conductor], Hashable | None]
Wires = Mapping[str, Conductor]


def same_wires(before: Wires, after: Wires) -> dict[str, str]:
    """Return the later id of each earlier wire that is still there, by its earlier id."""
    found = {name: name for name, wire in before.items() if name in after and _same_sheath(wire, after[name])}
    for sign in (_in_cable, _between_screws):
        left = {name: wire for name, wire in before.items() if name not in found}
        taken = set(found.values())
        found.update(_matched(left, {name: wire for name, wire in after.items() if name not in taken}, sign))
    corrected = before.keys() & after.keys() - found.keys() - set(found.values())
    return found | {name: name for name in sorted(corrected) if _ends(before[name]) == _ends(after[name])}


def _same_sheath(wire: Conductor, later: Conductor) -> bool:
    return None in (wire.insulation, later.insulation) or wire.insulation == later.insulation


def _matched(left: Wires, others: Wires, sign: Sign) -> dict[str, str]:
    """Return the pairs that have a sign which no other wire on either side has."""
    ours, theirs = _by_sign(left, sign), _by_sign(others, sign)
    return {ours[each]: theirs[each] for each in sorted(ours.keys() & theirs.keys(), key=str)}


def _by_sign(wires: Wires, sign: Sign) -> dict[Hashable, str]:
    signs = {name: sign(wire) for name, wire in wires.items()}
    count = Counter(signs.values())
    return {each: name for name, each in signs.items() if each is not None and count[each] == 1}


def _in_cable(wire: Conductor) -> Hashable | None:
    return (wire.cable, wire.insulation) if wire.cable and wire.insulation else None


def _between_screws(wire: Conductor) -> Hashable | None:
    if wire.cable or not wire.insulation or len(wire.landed()) < 2:
        return None
    return wire.insulation, _ends(wire)


def _ends(wire: Conductor) -> tuple[str, ...]:
    return tuple(sorted(str(end) for end in wire.ends))
