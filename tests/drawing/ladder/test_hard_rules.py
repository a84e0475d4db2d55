"""On a ladder nothing lies on anything else, nothing looks joined that is not, and no sheet need cut a rung."""

from __future__ import annotations

from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.job.model import Layout
from app.job.sketch import sketch
from tests.circuit.chance import layout_by_chance
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import generated_layout
from tests.drawing.ladder.seen import SeenLadder, broken_rules

CATALOGUE = builtin_catalogue()


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_demos_keep_the_hard_rules(name: str, layout: str) -> None:
    opened = demo(name)
    assert broken_rules(SeenLadder(opened.job.layouts[layout], opened.catalogue)) == {}


def test_an_upright_tie_keeps_off_the_screws_that_it_passes() -> None:
    passed = 0
    for name, layout in layouts():
        seen = SeenLadder(demo(name).job.layouts[layout], demo(name).catalogue)
        for ring, _radius in seen.rings:
            for x, lines in seen.columns.items():
                if x != ring.x and any(line.box.y < ring.y < line.box.bottom for line in lines):
                    assert abs(x - ring.x) >= 18, (name, layout, ring)
                    passed += abs(x - ring.x) < 48
    assert passed


@pytest.mark.parametrize("ten", range(6))
def test_layouts_by_chance_keep_the_hard_rules(ten: int) -> None:
    for seed in range(10 * ten, 10 * ten + 10):
        chance = Random(f"drawn ladder {seed}")
        layout = layout_by_chance(chance, CATALOGUE, fewest=3, most=8, unknown=chance.choice([0.0, 0.1]))
        assert broken_rules(SeenLadder(layout, CATALOGUE)) == {}, seed


@pytest.mark.parametrize("seed", range(4))
def test_layouts_that_make_no_sense_keep_the_hard_rules(seed: int) -> None:
    assert broken_rules(SeenLadder(generated_layout(seed, 6 + 4 * seed), CATALOGUE)) == {}


@pytest.mark.slow
@pytest.mark.parametrize("hundred", range(5))
def test_five_hundred_ladders_keep_the_hard_rules(hundred: int) -> None:
    for seed in range(1000 + 100 * hundred, 1100 + 100 * hundred):
        chance = Random(f"drawn ladder {seed}")
        layout = layout_by_chance(chance, CATALOGUE, fewest=3, most=12, unknown=chance.choice([0.0, 0.1]))
        assert broken_rules(SeenLadder(layout, CATALOGUE)) == {}, seed


@pytest.mark.parametrize("name", ["post-office-dual-fuel", "smokehouse-no-way-back"])
def test_what_happens_finds_room_in_every_situation(name: str) -> None:
    opened = demo(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    circuit = build_circuit(layout, opened.catalogue)
    for situation in situations_of(layout, opened.catalogue):
        seen = SeenLadder(layout, opened.catalogue, solve(circuit, situation))
        assert broken_rules(seen) == {}, situation.calls


def test_an_empty_layout_and_parts_without_conductors_are_drawn() -> None:
    assert broken_rules(SeenLadder(Layout(), CATALOGUE)) == {}
    assert (
        broken_rules(SeenLadder(sketch({f"p{n}": kind for n, kind in enumerate(sorted(CATALOGUE))}), CATALOGUE)) == {}
    )
