"""One conductor after another is laid into the field; what stands in the way of one that finds none is laid again.

Rules of the file: a conductor is lifted at most ``LIFTED_MOST`` times for another, so laying ends; one that is left
without a way is named in ``without``.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.ports import Port, Window
from app.drawing.routing.search import cost_of, find_way

WINDOWS = ((6, 4), (24, 4))
"""How many lanes around its two ports a conductor first looks for a way, and with how many bends at most, before it
looks everywhere."""
LIFTED_MOST = 2
WORTH_ANOTHER_LOOK = 4
"""A wire that crosses fewer others than this stays where it is."""
Way = list[Node]


@dataclass(frozen=True)
class Wire:
    """A conductor to lay: its ports, the left one first, and the bundle beside which it likes to run."""

    name: str
    ports: tuple[Port, Port]
    bundle: str


@dataclass
class Laid:
    """The ways found, by conductor, and the conductors that are left without one."""

    ways: dict[str, Way] = field(default_factory=dict)
    without: list[str] = field(default_factory=list)


def lay_wires(order: Sequence[Wire], field_: Field) -> Laid:
    """Lay wires in this order into a field that holds none yet, and return their ways."""
    bare = field_.copy()
    by_name = {wire.name: wire for wire in order}
    lifted = dict.fromkeys(by_name, 0)
    bundles: dict[str, int] = {}
    laid = Laid()
    waiting = deque(order)
    while waiting:
        wire = waiting.popleft()
        way = _find(field_, wire, bundles.get(wire.bundle, 0))
        if way is None:
            way = _find(bare, wire, 0)
            moved = _in_the_way(way, laid.ways) if way is not None else []
            if way is None or any(lifted[name] >= LIFTED_MOST for name in moved):
                laid.without.append(wire.name)
                continue
            for name in moved:
                lifted[name] += 1
                field_.lift(laid.ways.pop(name), bare)
            waiting.extendleft(by_name[name] for name in reversed(moved))
        field_.lay(way)
        laid.ways[wire.name] = way
        for start, end in pairwise(way):
            if start.i == end.i:
                bundles[wire.bundle] = bundles.get(wire.bundle, 0) | 1 << start.i
    _reconsider(order, field_, bare, laid, bundles)
    return laid


def _reconsider(order: Sequence[Wire], field_: Field, bare: Field, laid: Laid, bundles: Mapping[str, int]) -> None:
    """Look once more for each wire that crosses others, now that all of them are there."""
    for wire in order:
        old = laid.ways.get(wire.name)
        if old is None:
            continue
        field_.lift(old, bare)
        if field_.crossings(old) < WORTH_ANOTHER_LOOK:
            field_.lay(old)
            continue
        new = _find(field_, wire, bundles.get(wire.bundle, 0))
        if new is None or cost_of(new, field_, *wire.ports) >= cost_of(old, field_, *wire.ports):
            new = old
        field_.lay(new)
        laid.ways[wire.name] = new


def _find(field_: Field, wire: Wire, near: int) -> Way | None:
    a, b = wire.ports
    right, bottom = field_.columns - 1, field_.rows - 1
    left, top = min(a.at.i, b.at.i), min(a.at.j, b.at.j)
    for lanes, bends in WINDOWS:
        window = Window(
            max(left - lanes, 0),
            max(top - lanes, 0),
            min(max(a.at.i, b.at.i) + lanes, right),
            min(max(a.at.j, b.at.j) + lanes, bottom),
        )
        way = find_way(field_, a, b, window, near, bends)
        if way is not None:
            return way
    return find_way(field_, a, b, Window(0, 0, right, bottom), near)


def _in_the_way(way: Way, ways: Mapping[str, Way]) -> list[str]:
    """Return the names of the laid ways that share more with ``way`` than straight crossings."""
    across: dict[int, int] = {}
    down: dict[int, int] = {}
    for start, end in pairwise(way):
        if start.j == end.j:
            across[start.j] = across.get(start.j, 0) | span(start.i, end.i)
        else:
            down[start.i] = down.get(start.i, 0) | span(start.j, end.j)
    return [
        name
        for name, other in sorted(ways.items())
        if any(
            across.get(a.j, 0) & span(a.i, b.i) if a.j == b.j else down.get(a.i, 0) & span(a.j, b.j)
            for a, b in pairwise(other)
        )
    ]
