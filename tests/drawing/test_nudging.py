"""Ways that share channels, pushed apart: what an order costs, that everything stays free, and what has no lane."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from app.drawing.routing.channels import channels_of
from app.drawing.routing.field import Field, Node
from app.drawing.routing.lanes import lanes_of
from app.drawing.routing.nudging import nudge
from app.drawing.routing.ordering import ordered
from app.drawing.routing.pieces import pieces_of
from app.drawing.routing.ports import Port, Window
from app.drawing.routing.preference import preference
from app.drawing.routing.search import find_way
from app.drawing.routing.tracks import Tracks, tracks_of, without_idle
from app.drawing.surface.geometry import GRID, Box

SIZE = 40
WHOLE = Window(0, 0, SIZE - 1, SIZE - 1)


def empty_field() -> Field:
    """Return a field on which nothing lies."""
    return Field(Box(0, 0, (SIZE - 1) * GRID, (SIZE - 1) * GRID))


def to_the_right(i: int, j: int) -> Port:
    """Return a port from which a wire leaves to the right."""
    return Port(Node(i, j), 1, 0)


def to_the_left(i: int, j: int) -> Port:
    """Return a port from which a wire leaves to the left."""
    return Port(Node(i, j), -1, 0)


def by_chance(chance: random.Random, rows: list[int]) -> Tracks:
    """Return a way with one piece down the middle, that comes from and goes to either side."""
    ends = [to_the_right(2, rows.pop()) if chance.random() < 0.5 else to_the_left(37, rows.pop()) for _ in range(2)]
    return Tracks(ends[0], ends[1], [ends[0].at.j, 20, ends[1].at.j])


def crossings(ways: list[Tracks]) -> int:
    """Return how often two ways cross."""
    field = empty_field()
    field.lay(ways[0].nodes())
    return field.crossings(ways[1].nodes())


@pytest.mark.parametrize("seed", range(60), ids=lambda seed: f"seed-{seed}-pair")
def test_a_preference_is_the_crossings_that_the_other_order_saves(seed: int) -> None:
    chance = random.Random(seed)
    ways = [by_chance(chance, rows) for rows in [chance.sample(range(3, 37), 4)] for _ in range(2)]
    found = list(pieces_of(ways, empty_field(), across=False))
    cost = preference(found[0], found[1], ways)
    ways[0].at[1], ways[1].at[1] = 20, 21
    lower = crossings(ways)
    ways[0].at[1], ways[1].at[1] = 21, 20
    assert cost == lower - crossings(ways)


def test_wires_that_run_together_around_a_box_do_not_cross() -> None:
    field = empty_field()
    field.block(Box(15 * GRID, 10 * GRID, 8 * GRID, 29 * GRID))
    ends = [(to_the_right(5, 20 + 2 * n), to_the_left(35, 20 + 2 * n)) for n in range(6)]
    ways = [tracks_of(without_idle(find_way(field, *pair, WHOLE) or []), *pair) for pair in ends]
    assert len({tuple(way.at[2:3]) for way in ways}) == 1
    assert nudge(ways, ["cable"] * 6, field) == set()
    laid = field.copy()
    for way in ways:
        assert laid.fits(way.nodes(), [way.first.at, way.last.at])
        assert laid.crossings(way.nodes()) == 0
        laid.lay(way.nodes())
    # Those of one cable lie side by side.
    for k in (1, 2, 3):
        tracks = sorted(way.at[k] for way in ways)
        assert tracks == list(range(tracks[0], tracks[0] + 6))


def test_ways_keep_their_ends_and_come_to_nothing_that_is_taken() -> None:
    for seed in range(30):
        chance = random.Random(seed)
        field = empty_field()
        for _ in range(4):
            field.block(Box(chance.randrange(8, 30) * GRID, chance.randrange(38) * GRID, 4 * GRID, GRID))
        rows = chance.sample(range(1, 39), 16)
        ends = [(to_the_right(3, rows.pop()), to_the_left(36, rows.pop())) for _ in range(8)]
        ways = [tracks_of(without_idle(find_way(field, *pair, WHOLE) or []), *pair) for pair in ends]
        without = nudge(ways, [str(n // 2) for n in range(8)], field)
        for number, (way, pair) in enumerate(zip(ways, ends, strict=True)):
            if number not in without:
                nodes = way.nodes()
                assert (nodes[0], nodes[-1]) == (pair[0].at, pair[1].at)
                assert len(nodes) <= len(way.at) + 1
                assert field.fits(nodes, nodes[:1] + nodes[-1:])


@pytest.mark.parametrize("lanes", [1, 2, 3, 5])
def test_a_channel_takes_as_many_wires_as_it_has_lanes(lanes: int) -> None:
    ends = [(to_the_right(10, 5 + 2 * n), to_the_left(9 + lanes, 20 + 2 * n)) for n in range(lanes + 2)]
    ways = [Tracks(*pair, [pair[0].at.j, 10, pair[1].at.j]) for pair in ends]
    assert len(nudge(ways, [""] * len(ways), empty_field())) == 2


def test_pieces_that_need_different_lanes_get_them_in_their_order() -> None:
    chance = random.Random(5)
    rows = chance.sample(range(1, 39), 24)
    ways = [by_chance(chance, rows) for _ in range(12)]
    (channel,) = channels_of(pieces_of(ways, empty_field(), across=False))
    order = ordered(channel, ways, ["a", "b"] * 6)
    lanes = lanes_of(order, channel)
    for (i, track), (j, other) in pairwise(zip(order, lanes, strict=True)):
        assert j not in channel.near[i] or track < other
    for i, track in zip(order, lanes, strict=True):
        assert channel.pieces[i].least <= track <= channel.pieces[i].most


def test_tracks_and_nodes_are_the_same_way() -> None:
    first, last = to_the_right(3, 4), Port(Node(20, 30), 0, -1)
    for way in (
        [Node(3, 4), Node(20, 4), Node(20, 30)],
        [Node(3, 4), Node(3, 9), Node(20, 9), Node(20, 30)],
        [Node(3, 4), Node(8, 4), Node(8, 9), Node(20, 9), Node(20, 30)],
    ):
        assert tracks_of(way, first, last).nodes() == way
