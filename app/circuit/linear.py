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


Star = list[tuple[complex, int, int]]
"""Branches of a node when it goes: siemens, neighbour, and the neighbour's place in the step."""


def eliminate(plan: Plan, entries: list[complex], injected: list[complex]) -> Solution:
    """Return the solution of a network; both lists are used up.

    Args:
        plan: order and places.
        entries: siemens between pairs of nodes, as ``plan`` numbers them.
        injected: amps into each node; they add up to zero in each component.
    """
    gone: list[tuple[int, complex, Star]] = []
    for node, later, first, mesh in plan.steps:
        star: Star = []
        total = 0j
        at = first
        for place, other in enumerate(later):
            y = entries[at]
            at += 1
            if y:
                star.append((y, other, place))
                total += y
        gone.append((node, total, star))
        amps = injected[node]
        if len(star) == 1:
            injected[star[0][1]] += amps
        elif star:
            _make_mesh(star, total, mesh, entries)
            if amps:
                for y, other, _ in star:
                    injected[other] += amps * (y / total)
    return _substitute(gone, injected)


def _make_mesh(star: Star, total: complex, mesh: tuple[tuple[int, ...], ...], entries: list[complex]) -> None:
    """Put the branches between neighbours that stand for a node which goes."""
    count = len(star)
    for i in range(count - 1):
        y, _, place = star[i]
        share = y / total
        row = mesh[place]
        for j in range(i + 1, count):
            other, _, other_place = star[j]
            entries[row[other_place - place - 1]] += share * other


def _substitute(gone: list[tuple[int, complex, Star]], injected: list[complex]) -> Solution:
    volts = [0j] * len(injected)
    root = list(range(len(injected)))
    for node, total, star in reversed(gone):
        if star:
            amps = injected[node]
            for y, other, _ in star:
                amps += y * volts[other]
            volts[node] = amps / total
            root[node] = root[star[0][1]]
    return Solution(volts, root)
