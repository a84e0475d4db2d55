"""No two conductors share a segment, none runs through a box or words, no words lie on others, all is on the sheet."""

from __future__ import annotations

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.job.model import Layout
from app.job.sketch import sketch
from tests.demo_jobs.demos import SCHOOL_ROW, demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout
from tests.drawing.seen import RULES, Seen, crossings

BY_CHANCE = [(seed, 10 + 7 * seed) for seed in range(6)]
BY_CHANCE_SLOW = [(seed, 10 + seed * 9 % 91) for seed in range(100, 200)]


def broken_rules(layout: Layout, catalogue: Catalogue) -> dict[str, list[str]]:
    """Return what breaks a hard rule, by rule."""
    seen = Seen(layout, catalogue)
    return {rule.__name__: found for rule in RULES if (found := rule(seen))}


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_demos_keep_the_hard_rules(name: str, layout: str) -> None:
    opened = demo(name)
    assert broken_rules(opened.job.layouts[layout], opened.catalogue) == {}


@pytest.mark.parametrize(
    ("seed", "parts"), [pytest.param(*pair, id=f"seed-{pair[0]}-of-{pair[1]}-parts") for pair in BY_CHANCE]
)
def test_layouts_by_chance_keep_the_hard_rules(seed: int, parts: int) -> None:
    assert broken_rules(generated_layout(seed, parts), CATALOGUE) == {}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("seed", "parts"), [pytest.param(*pair, id=f"seed-{pair[0]}-of-{pair[1]}-parts") for pair in BY_CHANCE_SLOW]
)
def test_a_hundred_layouts_by_chance_keep_the_hard_rules(seed: int, parts: int) -> None:
    assert broken_rules(generated_layout(seed, parts), CATALOGUE) == {}


@pytest.mark.parametrize("name", ["post-office-dual-fuel", "tannery-cold-in-winter", "assembly-rooms-zone-panel"])
def test_volts_and_effects_find_room_in_every_situation(name: str) -> None:
    opened = demo(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    circuit = build_circuit(layout, opened.catalogue)
    for situation in situations_of(layout, opened.catalogue):
        seen = Seen(layout, opened.catalogue, solve(circuit, situation))
        assert {rule.__name__: found for rule in RULES if (found := rule(seen))} == {}


def test_no_demo_needs_a_broken_conductor() -> None:
    broken = {
        (name, layout): [wire for wire, course in seen.plan.courses.items() if course.broken]
        for name, layout in layouts()
        for seen in [Seen(demo(name).job.layouts[layout], demo(name).catalogue)]
    }
    assert {pair: found for pair, found in broken.items() if found} == {}


def test_crossings_are_counted_as_they_are_drawn() -> None:
    opened = demo(SCHOOL_ROW)
    seen = Seen(opened.job.layouts["as-left"], opened.catalogue)
    assert seen.plan.crossings == crossings(seen) > 0


def test_parts_without_a_place_and_without_conductors_keep_the_hard_rules() -> None:
    assert broken_rules(sketch({f"p{n}": kind for n, kind in enumerate(sorted(CATALOGUE))}), CATALOGUE) == {}


def test_an_empty_layout_is_drawn() -> None:
    assert broken_rules(Layout(), CATALOGUE) == {}


def test_more_conductors_than_a_terminal_holds_each_get_a_lane() -> None:
    wires = [f"tc{n}.R fb.R" for n in range(9)]
    layout = sketch({"fb": "furnace-board", **{f"tc{n}": "thermostat-heat-only" for n in range(9)}}, *wires)
    assert broken_rules(layout, CATALOGUE) == {}
