"""The drawing is the ladder: read back from its lines, dots and heads, it joins what the ladder joins and no more."""

from __future__ import annotations

from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.drawing.ladder.ladder import ladder_of
from tests.circuit.chance import layout_by_chance
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import generated_layout
from tests.drawing.ladder.read_back import read_from_drawing, read_from_ladder
from tests.drawing.ladder.seen import SeenLadder

CATALOGUE = builtin_catalogue()


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_the_drawing_of_a_demo_joins_what_its_ladder_joins(name: str, layout: str) -> None:
    opened = demo(name)
    found = opened.job.layouts[layout]
    assert read_from_drawing(SeenLadder(found, opened.catalogue)) == read_from_ladder(
        ladder_of(found, opened.catalogue)
    )


@pytest.mark.parametrize("fifty", range(4))
def test_drawings_by_chance_join_what_their_ladders_join(fifty: int) -> None:
    for seed in range(50 * fifty, 50 * fifty + 50):
        chance = Random(f"read back {seed}")
        layout = layout_by_chance(chance, CATALOGUE, fewest=3, most=9, unknown=chance.choice([0.0, 0.1]))
        assert read_from_drawing(SeenLadder(layout, CATALOGUE)) == read_from_ladder(ladder_of(layout, CATALOGUE)), seed


@pytest.mark.parametrize("seed", range(8))
def test_drawings_that_make_no_sense_join_what_their_ladders_join(seed: int) -> None:
    layout = generated_layout(seed, 5 + 3 * seed)
    assert read_from_drawing(SeenLadder(layout, CATALOGUE)) == read_from_ladder(ladder_of(layout, CATALOGUE))
