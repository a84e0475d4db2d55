"""The order of elimination is what it says: ordinary nodes, then the late ones, then the last."""

from __future__ import annotations

from random import Random

from app.circuit.plan import plan_elimination


def test_late_nodes_go_after_all_others_and_the_last_at_the_end() -> None:
    chance = Random("order")
    for _ in range(50):
        size = chance.randint(3, 12)
        pairs = tuple((chance.randrange(size), chance.randrange(size)) for _ in range(2 * size))
        nodes = chance.sample(range(size), size)
        last, late = tuple(nodes[:1]), tuple(nodes[1:3])
        order = [step.node for step in plan_elimination(size, pairs, last, late).steps]
        assert sorted(order) == list(range(size))
        ranks = [2 if node in last else 1 if node in late else 0 for node in order]
        assert ranks == sorted(ranks)
