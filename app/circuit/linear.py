"""One linear solve in pure Python: assemble, then solve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.circuit.plan import Plan


@dataclass(frozen=True, slots=True, eq=False)
class Solution:
    """Volts of every node at 100 % supply, and for each node the last node of its component.

    Within a component volts are right up to a shift; the last node has 0. Two nodes are in one component exactly
    when their ``root`` is the same.
    """

    volts: Sequence[complex]
    root: Sequence[int]


def eliminate(plan: Plan, entries: list[complex], injected: list[complex]) -> Solution:
    """Return the solution of a network; both lists are used up.

    Args:
        plan: order and places.
        entries: siemens between pairs of nodes, as ``plan`` numbers them.
        injected: amps into each node; they add up to zero in each component.
    """
    sums: list[complex] = []
    stars: list[list[tuple[complex, int]]] = []
    for step in plan.steps:
        star = [(entries[at], i) for i, at in enumerate(range(step.first, step.first + len(step.later))) if entries[at]]
        total = sum(y for y, _ in star)
        sums.append(total)
        stars.append(star)
        if not star:
            continue
        amps = injected[step.node]
        if len(star) == 1:
            injected[step.later[star[0][1]]] += amps
            continue
        for at, (y, i) in enumerate(star):
            share = y / total
            if amps:
                injected[step.later[i]] += amps * share
            row = step.mesh[i]
            for other, j in star[at + 1 :]:
                entries[row[j - i - 1]] += share * other
    return _substitute(plan, sums, stars, injected)


def _substitute(
    plan: Plan, sums: list[complex], stars: list[list[tuple[complex, int]]], injected: list[complex]
) -> Solution:
    volts = [0j] * len(injected)
    root = [0] * len(injected)
    for step, total, star in zip(reversed(plan.steps), reversed(sums), reversed(stars), strict=True):
        node = step.node
        if not star:
            root[node] = node
            continue
        amps = injected[node]
        for y, i in star:
            amps += y * volts[step.later[i]]
        volts[node] = amps / total
        root[node] = root[step.later[star[0][1]]]
    return Solution(volts, root)
