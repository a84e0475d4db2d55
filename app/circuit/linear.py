"""One linear solve in pure Python: assemble, then solve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from app.circuit.plan import Plan, Step


@dataclass(frozen=True, slots=True, eq=False)
class Solution:
    """Volts of every node at 100 % supply, and for each node the last node of its component.

    Within a component volts are right up to a shift; the last node has 0. Two nodes are in one component exactly
    when their ``root`` is the same.
    """

    volts: Sequence[complex]
    root: Sequence[int]
    judged: dict[float, tuple[int, int]] = field(default_factory=dict)
    """By supply, the judged elements (bits) that rise to where they come on, and those that have not fallen to where
    they go off; filled when a pass first asks."""


Star = tuple[tuple[complex, int], ...]
"""Branches of a node when it goes: siemens and neighbour."""


Gone = list[tuple[int, complex, Star]]
"""The nodes in the order in which they went, each with the sum of its branches and these; lone nodes are left out."""


def eliminate(plan: Plan, entries: list[complex], injected: list[complex]) -> Solution:
    """Return the solution of a network; both lists are used up.

    Args:
        plan: order and places.
        entries: siemens between pairs of nodes, as ``plan`` numbers them.
        injected: amps into each node; they add up to zero in each component.
    """
    return _substitute(_take_out(plan, entries, injected), injected)


def _take_out(plan: Plan, entries: list[complex], injected: list[complex]) -> Gone:
    """Take out node after node, handing on its branches and its amps; both lists are used up."""
    gone: Gone = []
    for node, first, pair, between, step in plan.lines:
        if pair is None:
            found = [(y, place) for place, y in enumerate(entries[first : first + len(step.later)]) if y]
            if found:
                gone.append(_make_mesh(step, found, entries, injected))
            continue
        one, other = entries[first], entries[first + 1]
        if one and other:
            total = one + other
            share = one / total
            entries[between] += share * other
            a, b = pair
            gone.append((node, total, ((one, a), (other, b))))
            amps = injected[node]
            if amps:
                injected[a] += amps * share
                injected[b] += amps * (other / total)
        elif one or other:
            left = pair[0] if one else pair[1]
            total = one or other
            gone.append((node, total, ((total, left),)))
            injected[left] += injected[node]
    return gone


def _make_mesh(
    step: Step, found: list[tuple[complex, int]], entries: list[complex], injected: list[complex]
) -> tuple[int, complex, Star]:
    """Put the branches between neighbours that stand for a node which goes, and hand its amps to them.

    ``found`` are the siemens of its branches, each with the place of the neighbour in ``step.later``.
    """
    later, mesh = step.later, step.mesh
    amps = injected[step.node]
    total, place = found[0]
    if len(found) == 1:
        injected[later[place]] += amps
        return step.node, total, ((total, later[place]),)
    for y, _ in found[1:]:
        total += y
    left = found.copy()
    while left:
        y, place = left.pop(0)
        share = y / total
        row = mesh[place]
        for other, other_place in left:
            entries[row[other_place - place - 1]] += share * other
        if amps:
            injected[later[place]] += amps * share
    return step.node, total, tuple([(y, later[place]) for y, place in found])


Back = tuple[int, complex, int, complex | None, Star]
"""A node that has gone: what one ampere into it adds to its volts, a neighbour, the share that it takes of the volts
of that neighbour (none where it has no other, and so takes them whole), and of each further one."""


class Eliminated:
    """A network whose nodes have gone, to be asked for what amps into its nodes do, again and again."""

    def __init__(self, plan: Plan, entries: list[complex], nodes: int) -> None:
        """Eliminate all nodes; ``entries`` are used up."""
        self._nodes = nodes
        self._gone = _take_out(plan, entries, [0j] * nodes)
        self._shares: list[Back] = [
            (node, 1 / total, star[0][1], None, ())
            if len(star) == 1
            else (node, 1 / total, star[0][1], star[0][0] / total, tuple([(y / total, other) for y, other in star[1:]]))
            for node, total, star in self._gone
        ]

    def solution(self, injected: list[complex]) -> Solution:
        """Return what ``eliminate`` gives for the same amps into each node; the list is used up."""
        for node, total, star in self._gone:
            amps = injected[node]
            if amps:
                for y, other in star:
                    injected[other] += amps * (y / total)
        return _substitute(self._gone, injected)

    def volts(self, start: int, end: int) -> Sequence[complex]:
        """Return the volts of each node when one ampere enters at one node and leaves at another."""
        injected = [0j] * self._nodes
        injected[start] += 1
        injected[end] -= 1
        for node, _, first, share, rest in self._shares:
            amps = injected[node]
            if not amps:
                continue
            if share is None:
                injected[first] += amps
                continue
            injected[first] += amps * share
            for part, other in rest:
                injected[other] += amps * part
        volts = [0j] * self._nodes
        for node, ohms, first, share, rest in reversed(self._shares):
            found = volts[first] if share is None else volts[first] * share
            for part, other in rest:
                found += part * volts[other]
            amps = injected[node]
            volts[node] = found + amps * ohms if amps else found
        return volts


def _substitute(gone: Gone, injected: list[complex]) -> Solution:
    root = list(range(len(injected)))
    for node, _, star in reversed(gone):
        root[node] = root[star[0][1]]
    return Solution(_volts(gone, injected), root)


def _volts(gone: Gone, injected: list[complex]) -> list[complex]:
    volts = [0j] * len(injected)
    for node, total, star in reversed(gone):
        amps = injected[node]
        for y, other in star:
            amps += y * volts[other]
        volts[node] = amps / total
    return volts
