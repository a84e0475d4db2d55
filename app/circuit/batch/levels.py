"""The steps of a plan sorted into levels: the nodes of one level are eliminated together.

A node waits for those whose elimination touches it; the levels are fewer than the nodes by far, and each costs numpy
a handful of calls however many columns there are.

Rows that are summed stand in *ranks*: first the first row of every sum, then the second of those that have two, and
so on, sums with most rows first. A rank is then a slice that is added to a slice, which numpy does many times faster
than sums over runs of rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from app.circuit.plan import Plan, Step

Whole = NDArray[np.intp]
Rank = tuple[int, int]
"""The rows of a rank: first, and behind the last."""


@dataclass(frozen=True, slots=True, eq=False)
class Gathered:
    """Rows that are added into ``targets``: row ``order[i]`` of what is given stands at i of the ranks."""

    order: Whole
    ranks: tuple[Rank, ...]
    targets: Whole


@dataclass(frozen=True, slots=True, eq=False)
class Level:
    """Nodes that go together, and in ranks the rows of their branches to later nodes.

    ``star`` are the entries of these rows, ``other`` their far nodes. ``amps`` adds such rows into far nodes. ``one``
    and ``two`` are pairs of rows of one node, in the ranks of ``mesh``, which adds their products into entries.
    """

    nodes: Whole
    star: Whole
    other: Whole
    ranks: tuple[Rank, ...]
    amps: Gathered
    one: Whole
    two: Whole
    mesh: Gathered


@dataclass(frozen=True, slots=True, eq=False)
class Levels:
    """The levels in order, how many nodes and entries there are, and the turn of each node in the plan.

    Nodes that have no later neighbour are in no level: each is the last of its component.
    """

    levels: tuple[Level, ...]
    nodes: int
    entries: int
    turn: Whole


def levels_of(plan: Plan) -> Levels:
    """Return the levels of a plan."""
    height = [0] * len(plan.steps)
    for step in plan.steps:
        for other in step.later:
            height[other] = max(height[other], height[step.node] + 1)
    sorted_steps: dict[int, list[Step]] = {}
    for step in plan.steps:
        if step.later:
            sorted_steps.setdefault(height[step.node], []).append(step)
    turn = [0] * len(plan.steps)
    for at, step in enumerate(plan.steps):
        turn[step.node] = at
    levels = tuple(_level(steps) for _, steps in sorted(sorted_steps.items()))
    return Levels(levels, len(plan.steps), plan.size, _whole(turn))


def _level(steps: list[Step]) -> Level:
    steps.sort(key=lambda step: (-len(step.later), step.node))
    star: list[int] = []
    other: list[int] = []
    ranks: list[Rank] = []
    row_of: dict[tuple[int, int], int] = {}
    for rank in range(len(steps[0].later)):
        first = len(star)
        for at, step in enumerate(steps):
            if rank < len(step.later):
                row_of[at, rank] = len(star)
                star.append(step.first + rank)
                other.append(step.later[rank])
        ranks.append((first, len(star)))
    products = [
        (entry, row_of[at, i], row_of[at, i + 1 + j])
        for at, step in enumerate(steps)
        for i, row in enumerate(step.mesh)
        for j, entry in enumerate(row)
    ]
    mesh = gathered([entry for entry, _, _ in products])
    return Level(
        nodes=_whole([step.node for step in steps]),
        star=_whole(star),
        other=_whole(other),
        ranks=tuple(ranks),
        amps=gathered(other),
        one=_whole([products[at][1] for at in mesh.order]),
        two=_whole([products[at][2] for at in mesh.order]),
        mesh=mesh,
    )


def gathered(targets: Sequence[int]) -> Gathered:
    """Return how rows with these targets are added up."""
    rows: dict[int, list[int]] = {}
    for row, target in enumerate(targets):
        rows.setdefault(target, []).append(row)
    most_first = sorted(rows, key=lambda target: (-len(rows[target]), target))
    order: list[int] = []
    ranks: list[Rank] = []
    for rank in range(len(rows[most_first[0]]) if most_first else 0):
        first = len(order)
        order += (rows[target][rank] for target in most_first if rank < len(rows[target]))
        ranks.append((first, len(order)))
    return Gathered(_whole(order), tuple(ranks), _whole(most_first))


def _whole(numbers: Sequence[int]) -> Whole:
    return np.array(numbers, dtype=np.intp)
