"""Where the places of a section stand from left to right: columns, and in them a lane for every upright tie.

Rules of the file: a place is to the right of all that lead to it; places that a tie joins stand in one column and one
lane. Two ties in one column share a lane only where they share no row, and no place stands in the lane of a tie that
passes its row: so nothing is joined on paper that is not joined.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import networkx as nx

from app.drawing.ladder.model import End, Section

Place = tuple[int, int]
"""The number of a rung and the place on it."""


@dataclass(frozen=True)
class Spot:
    """A place with all that ties join with it: its column and lane, and the rows (from 0) on which it stands."""

    column: int
    lane: int
    rows: tuple[int, ...]


@dataclass(frozen=True)
class Columns:
    """The spot of every place of a section, how many columns there are, and the lanes of each."""

    spots: Mapping[Place, Spot]
    count: int
    lanes: Mapping[int, int]


def columns_of(section: Section) -> Columns:
    """Return the columns of a section. The hot rail is column 0, the common rail the last one."""
    joined = _joined(section)
    column = _columns(section, joined)
    row_of = {rung.number: row for row, rung in enumerate(section.rungs)}
    rows: dict[Place, set[int]] = {}
    for place, first in joined.items():
        rows.setdefault(first, set()).add(row_of[place[0]])
    lane, lanes = _lanes(column, rows)
    spots = {place: Spot(column[first], lane[first], tuple(sorted(rows[first]))) for place, first in joined.items()}
    return Columns(spots, max(column.values(), default=0) + 1, lanes)


def is_own_rail(end: End) -> bool:
    """Return whether a rung ends on a rail of its own section."""
    return end.ending == "rail" and not end.by_name


def is_tied(end: End) -> bool:
    """Return whether an upright line leads from this end to another rung."""
    return end.ending == "tie" and not end.by_name


def _joined(section: Section) -> Mapping[Place, Place]:
    """Return for every place the one that it is tied to, else itself."""
    found: dict[Place, Place] = {}
    ties: nx.Graph[Place] = nx.Graph()
    for rung in section.rungs:
        ties.add_nodes_from((rung.number, place) for place in range(len(rung.pieces) + 1))
    for rung in section.rungs:
        for place, end in ((0, rung.start), (len(rung.pieces), rung.end)):
            if is_tied(end):
                ties.add_edge((rung.number, place), (end.rung, end.place))
    for group in nx.connected_components(ties):
        first = min(group)
        found.update(dict.fromkeys(group, first))
    return found


def _columns(section: Section, joined: Mapping[Place, Place]) -> dict[Place, int]:
    order: nx.DiGraph[Place] = nx.DiGraph()
    left, right = set(), set()
    for rung in section.rungs:
        places = [joined[rung.number, place] for place in range(len(rung.pieces) + 1)]
        nx.add_path(order, places)
        if is_own_rail(rung.start):
            left.add(places[0])
        if is_own_rail(rung.end):
            right.add(places[-1])
    walk = list(nx.lexicographical_topological_sort(order))
    column: dict[Place, int] = {}
    held = set(left)
    for place in walk:
        before = list(order.predecessors(place))
        column[place] = 0 if place in left else max((column[each] + 1 for each in before), default=1)
        if held.intersection(before):
            held.add(place)
    last = max((at for place, at in column.items() if place not in right), default=0) + 1
    column.update(dict.fromkeys(right, last))
    for place in reversed(walk):
        # What hangs on nothing at its left stands as far to the right as it can, beside what it leads to.
        after = list(order.successors(place))
        if place not in held and place not in right and after:
            column[place] = min(column[each] for each in after) - 1
    return column


def _lanes(column: Mapping[Place, int], rows: Mapping[Place, set[int]]) -> tuple[dict[Place, int], dict[int, int]]:
    """Return the lane of each place and how many each column has."""
    lane: dict[Place, int] = {}
    taken: dict[int, list[list[tuple[int, int]]]] = {}
    for place in sorted(column, key=lambda each: (min(rows[each]), -max(rows[each]), each)):
        span = (min(rows[place]), max(rows[place]))
        lanes = taken.setdefault(column[place], [])
        free = (at for at, own in enumerate(lanes) if all(span[1] < low or high < span[0] for low, high in own))
        at = next(free, len(lanes))
        if at == len(lanes):
            lanes.append([])
        lanes[at].append(span)
        lane[place] = at
    # Ties that were laid first are the long ones: they stand at the right, and a screw that one passes before it.
    return (
        {place: len(taken[column[place]]) - 1 - at for place, at in lane.items()},
        {number: len(lanes) for number, lanes in taken.items()},
    )
