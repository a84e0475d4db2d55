"""The search against a plain walk over the lattice: it finds a way where there is one, with as few bends."""

from __future__ import annotations

import random
from collections import deque
from itertools import pairwise

import pytest

from app.drawing.routing.field import Field, Node
from app.drawing.routing.ports import Port, Window
from app.drawing.routing.search import find_way
from app.drawing.surface.geometry import GRID, Box

SIZE = 14
STEPS = ((1, 0), (-1, 0), (0, 1), (0, -1))


def a_field(chance: random.Random) -> tuple[Field, Port, Port]:
    """Return a field with boxes and wires by chance, and two ports on free points."""
    field = Field(Box(0, 0, (SIZE - 1) * GRID, (SIZE - 1) * GRID))
    for _ in range(chance.randrange(1, 9)):
        x, y = chance.randrange(SIZE), chance.randrange(SIZE)
        field.block(
            Box(
                x * GRID,
                y * GRID,
                min(chance.randrange(4), SIZE - 1 - x) * GRID,
                min(chance.randrange(4), SIZE - 1 - y) * GRID,
            )
        )
    for _ in range(chance.randrange(3)):
        i, j = chance.randrange(SIZE), chance.randrange(SIZE)
        path = [Node(i, j), Node(chance.randrange(SIZE), j)]
        if all(field.free_across[j] >> x & 1 for x in range(min(i, path[1].i), max(i, path[1].i) + 1)):
            field.lay(path)
    ports: list[Port] = []
    while len(ports) < 2:
        node = Node(chance.randrange(SIZE), chance.randrange(SIZE))
        if (
            field.free_across[node.j] >> node.i & 1
            and field.free_down[node.j] >> node.i & 1
            and node not in [p.at for p in ports]
        ):
            di, dj = chance.choice(STEPS)
            ports.append(Port(node, di, dj))
    for port in ports:
        field.reserve(port.at, port.sideways)
    return field, ports[0], ports[1]


def fewest_bends(field: Field, a: Port, b: Port) -> int | None:
    """Return the fewest bends of any way, by walking from point to point, one bend more at a time."""
    start = (a.at, a.di, a.dj)
    best = {start: 0}
    waiting = deque([start])
    while waiting:
        node, di, dj = waiting.popleft()
        bends = best[node, di, dj]
        if node == b.at:
            continue
        for step_i, step_j in STEPS:
            turns = (step_i, step_j) != (di, dj)
            if (step_i, step_j) == (-di, -dj):
                continue
            if turns and not can_turn(field, node, a, b):
                continue
            state = (Node(node.i + step_i, node.j + step_j), step_i, step_j)
            if not can_enter(field, state[0], step_j == 0, b):
                continue
            if bends + turns < best.get(state, 99):
                best[state] = bends + turns
                (waiting.append if turns else waiting.appendleft)(state)
    arrivals = [
        bends + ((di, dj) != (-b.di, -b.dj))
        for (node, di, dj), bends in best.items()
        if node == b.at and (di, dj) != (b.di, b.dj) and ((di, dj) == (-b.di, -b.dj) or can_turn(field, node, a, b))
    ]
    return min(arrivals, default=None)


def can_enter(field: Field, node: Node, level: bool, b: Port) -> bool:
    """Return whether a wire may come to a point along its row (``level``) or column."""
    if not (0 <= node.i < SIZE and 0 <= node.j < SIZE):
        return False
    if node == b.at and level == b.sideways:
        return True
    return bool((field.free_across if level else field.free_down)[node.j] >> node.i & 1)


def can_turn(field: Field, node: Node, a: Port, b: Port) -> bool:
    """Return whether a wire may bend at a point: free both ways; at a port, the way that is not the port's."""
    across, down = field.free_across[node.j] >> node.i & 1, field.free_down[node.j] >> node.i & 1
    for port in (a, b):
        if node == port.at:
            return bool(down if port.sideways else across)
    return bool(across and down)


def bends_of(way: list[Node], a: Port, b: Port) -> int:
    """Return how often a wire turns, its ports included."""
    directions = [(a.di, a.dj)]
    directions += [((q.i > p.i) - (q.i < p.i), (q.j > p.j) - (q.j < p.j)) for p, q in pairwise(way)]
    directions.append((-b.di, -b.dj))
    return sum(one != other for one, other in pairwise(directions))


@pytest.mark.parametrize("seed", range(10), ids=lambda seed: f"seed-{seed}-fields")
def test_a_way_is_found_with_as_few_bends_as_there_can_be(seed: int) -> None:
    chance = random.Random(seed)
    found_some = False
    for _ in range(40):
        field, a, b = a_field(chance)
        way = find_way(field, a, b, Window(0, 0, SIZE - 1, SIZE - 1))
        fewest = fewest_bends(field, a, b)
        assert (way is None) == (fewest is None), (a, b)
        if way is not None:
            found_some = True
            assert way[0] == a.at
            assert way[-1] == b.at
            assert bends_of(way, a, b) == fewest, (way, a, b)
    assert found_some


def test_a_lifted_wire_leaves_the_field_as_it_was() -> None:
    chance = random.Random(7)
    for _ in range(200):
        field, a, b = a_field(chance)
        before = field.copy()
        way = find_way(field, a, b, Window(0, 0, SIZE - 1, SIZE - 1))
        if way is not None:
            field.lay(way)
            field.lift(way, before)
            assert field.free_across == before.free_across
            assert field.free_down == before.free_down
            assert field.free_column == before.free_column
            assert field.wires_down == before.wires_down
            assert field.wires_across == before.wires_across
            assert [field.runs(j) for j in range(SIZE)] == [before.runs(j) for j in range(SIZE)]
