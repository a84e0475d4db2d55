"""The elimination of ``app.circuit.linear`` with a column for each question.

The steps, their order and their arithmetic are the same; only the loop over questions is numpy's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, cast

import numpy as np
from numpy.typing import NDArray

from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.plan import Plan
from app.circuit.state import Question

Columns = NDArray[np.complex128]
Whole = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class _Rows:
    """A step with its numbers as arrays: neighbours, and for each pair of them (one, other) the entry it adds to."""

    node: int
    later: Whole
    first: int
    one: Whole
    other: Whole
    entry: Whole


def solve_together(network: Network, questions: Sequence[Question]) -> list[Solution]:
    """Return the solution of each question of one network."""
    extra = frozenset((a, b) for question in questions for a, b, _ in question.extras)
    plan = network.plan_with(extra)
    rows = _rows(network, plan)
    entries, injected = _assemble(network, plan, questions)
    volts, root = _eliminate(rows, entries, injected)
    return [Solution(v, r) for v, r in zip(volts.T.tolist(), root.T.tolist(), strict=True)]


def _assemble(network: Network, plan: Plan, questions: Sequence[Question]) -> tuple[Columns, Columns]:
    """Return (entries, injected amps), a column for each question."""
    count = len(questions)
    branches = len(network.branches)
    on = _bits([question.on for question in questions], branches)
    figures = list({id(question.figures): question.figures for question in questions}.values())
    place = {id(each): at for at, each in enumerate(figures)}
    which = np.array([place[id(question.figures)] for question in questions])
    when_on = np.array([each.on for each in figures], dtype=complex)[which]
    when_off = np.array([each.off for each in figures], dtype=complex)[which]
    siemens = np.where(on, when_on, when_off).T
    where = np.array(plan.entries(branch.nodes for branch in network.branches), dtype=np.intp)
    entries = np.zeros((plan.size + 1, count), dtype=complex)
    # The last row takes the branches whose ends are one node; it is thrown away.
    np.add.at(entries, np.where(where < 0, plan.size, where), siemens)
    injected = np.zeros((network.size, count), dtype=complex)
    for at, source in enumerate(figures[0].sources):
        emf = np.array([each.sources[at].emf * each.sources[at].siemens for each in figures])[which]
        amps = np.where(on[:, source.slot], emf, 0.0)
        a, b = network.branches[source.slot].nodes
        injected[a] += amps
        injected[b] -= amps
    for column, question in enumerate(questions):
        for a, b, extra in question.extras:
            entries[plan.entry_of[a, b], column] += extra
    return entries[:-1], injected


def _bits(numbers: Sequence[int], width: int) -> NDArray[np.bool_]:
    """Return the bits of each number as a row, lowest first."""
    size = (width + 7) // 8
    packed = np.frombuffer(b"".join(number.to_bytes(size, "little") for number in numbers), dtype=np.uint8)
    return np.unpackbits(packed.reshape(len(numbers), size), axis=1, count=width, bitorder="little").astype(bool)


def _rows(network: Network, plan: Plan) -> list[_Rows]:
    key = ("rows", id(plan))
    found = network.made.get(key)
    if found is None:
        found = network.made[key] = [
            _Rows(
                step.node,
                np.array(step.later, dtype=np.intp),
                step.first,
                np.array([i for i, row in enumerate(step.mesh) for _ in row], dtype=np.intp),
                np.array([i + 1 + j for i, row in enumerate(step.mesh) for j in range(len(row))], dtype=np.intp),
                np.array([entry for row in step.mesh for entry in row], dtype=np.intp),
            )
            for step in plan.steps
        ]
    return cast("list[_Rows]", found)


def _eliminate(rows: Sequence[_Rows], entries: Columns, injected: Columns) -> tuple[Columns, NDArray[Any]]:
    """Return (volts, root) of every node, a column for each question."""
    totals: list[Columns] = []
    for step in rows:
        star = entries[step.first : step.first + len(step.later)]
        total = star.sum(axis=0)
        totals.append(total)
        if not len(step.later) or not star.any():
            continue
        share = star / np.where(total == 0, 1, total)
        injected[step.later] += share * injected[step.node]
        if len(step.entry):
            entries[step.entry] += share[step.one] * star[step.other]
    volts = np.zeros_like(injected)
    root = np.zeros(injected.shape, dtype=np.intp)
    for step, total in zip(reversed(rows), reversed(totals), strict=True):
        star = entries[step.first : step.first + len(step.later)]
        alone = total == 0
        amps = injected[step.node] + (star * volts[step.later]).sum(axis=0)
        volts[step.node] = np.where(alone, 0, amps / np.where(alone, 1, total))
        root[step.node] = step.node
        for at, other in enumerate(step.later):
            root[step.node] = np.where(star[at] != 0, root[other], root[step.node])
    return volts, root
