"""Amps of what is always joined: ideal conductors and traces.

They are what equal tiny resistances would give: within a merged node, a network of equal resistances is solved with
the currents that its other branches take out of each point.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from app.circuit.linear import eliminate
from app.circuit.network import Network
from app.circuit.plan import Plan, plan_elimination


def join_amps(
    network: Network, branch_amps: Sequence[complex], more: Sequence[tuple[int, int, complex | None]]
) -> list[complex]:
    """Return the amps of each join of a network, from its first point to its second.

    Args:
        network: whose joins are asked.
        branch_amps: amps of each branch, from its first point to its second.
        more: branches that faults add, as (point, point, amps); amps None for one without resistance.
    """
    injected = [0j] * len(network.points)
    for branch, amps in zip(network.branches, branch_amps, strict=True):
        a, b = branch.points
        injected[a] -= amps
        injected[b] += amps
    ideal = [(a, b) for a, b, known in more if known is None]
    for a, b, known in more:
        if known is not None:
            injected[a] -= known
            injected[b] += known
    plan = _plan(network, ideal)
    entries = [0j] * plan.size
    pairs = [*(join.points for join in network.joins), *ideal]
    for entry in plan.entries(pairs):
        if entry >= 0:
            entries[entry] += 1
    level = eliminate(plan, entries, injected).volts
    return [level[join.points[0]] - level[join.points[1]] for join in network.joins]


def _plan(network: Network, ideal: Sequence[tuple[int, int]]) -> Plan:
    key = ("plan of joins", tuple(ideal))
    found = network.made.get(key)
    if found is None:
        pairs = *(join.points for join in network.joins), *ideal
        found = network.made[key] = plan_elimination(len(network.points), pairs)
    return cast(Plan, found)
