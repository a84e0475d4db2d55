"""Every wire gets its way: first as if it were alone, then pushed apart; what then has no lane is laid one by one.

Rules of the file: a wire that found no lane of its own looks for another way between those that did. What stands in the
way of one that finds none is laid again. A wire is lifted at most ``LIFTED_MOST`` times for another, so laying ends;
one that is left without a way is named in ``without``.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.nudging import nudge
from app.drawing.routing.ports import Port, Window
from app.drawing.routing.search import cost_of, find_way
from app.drawing.routing.tracks import tracks_of, without_idle

WINDOWS = ((6, 4), (24, 8))
"""How many lanes around its two ports a wire first looks for a way, and with how many bends at most, before it looks
everywhere: a few bends more are better than a way around the whole sheet."""
LIFTED_MOST = 2
WORTH_ANOTHER_LOOK = 4
"""A wire that crosses fewer others than this stays where it is."""
Way = list[Node]


@dataclass(frozen=True)
class Wire:
    """A wire to lay: its ports, the left one first, and the bundle beside which it likes to run."""

    name: str
    ports: tuple[Port, Port]
    bundle: str


@dataclass
class Laid:
    """The ways found, by wire, and the wires that are left without one."""

    ways: dict[str, Way] = field(default_factory=dict)
    without: list[str] = field(default_factory=list)


def lay_wires(order: Sequence[Wire], field_: Field) -> Laid:
    """Lay wires into a field that holds none yet, and return their ways; the first of an ``order`` choose first."""
    bare = field_.copy()
    laid = Laid(_lay_apart(order, field_, bare))
    bundles: dict[str, int] = {}
    for wire in order:
        if wire.name in laid.ways:
            _join_bundle(bundles, wire, laid.ways[wire.name])
    _lay_one_by_one([wire for wire in order if wire.name not in laid.ways], order, field_, bare, laid, bundles)
    _reconsider(order, field_, bare, laid, bundles)
    return laid


def _lay_apart(order: Sequence[Wire], field_: Field, bare: Field) -> dict[str, Way]:
    """Lay those wires for which there are lanes where their ways, found each by itself, were pushed apart."""
    alone = [(wire, way) for wire in order if (way := _find(bare, wire, 0)) is not None]
    tracks = [tracks_of(without_idle(way), *wire.ports) for wire, way in alone]
    without = nudge(tracks, [wire.bundle for wire, _ in alone], bare)
    apart: dict[str, Way] = {}
    for number, (wire, _) in enumerate(alone):
        way = tracks[number].nodes()
        if number not in without and field_.fits(way, [port.at for port in wire.ports]):
            field_.lay(way)
            apart[wire.name] = way
    return apart


def _lay_one_by_one(
    some: Sequence[Wire], order: Sequence[Wire], field_: Field, bare: Field, laid: Laid, bundles: dict[str, int]
) -> None:
    """Lay some wires between those that are laid, of which a few are lifted where there is no other way."""
    by_name = {wire.name: wire for wire in order}
    lifted = dict.fromkeys(by_name, 0)
    waiting = deque(some)
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
        _join_bundle(bundles, wire, way)


def _join_bundle(bundles: dict[str, int], wire: Wire, way: Way) -> None:
    """Note the columns in which a wire runs down, so that others of its bundle like to run beside it."""
    for start, end in pairwise(way):
        if start.i == end.i:
            bundles[wire.bundle] = bundles.get(wire.bundle, 0) | 1 << start.i


def _reconsider(order: Sequence[Wire], field_: Field, bare: Field, laid: Laid, bundles: Mapping[str, int]) -> None:
    """Look once more for each wire that crosses others, now that all of them are there."""
    for wire in order:
        old = laid.ways.get(wire.name)
        if old is None:
            continue
        # At each of its bends a laid way counts itself, along and down.
        if field_.crossings(old) - 2 * (len(old) - 2) < WORTH_ANOTHER_LOOK:
            continue
        field_.lift(old, bare)
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
