"""The ladder is proved: a circuit rebuilt from the ladder alone is the one that was drawn, in every situation."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue
from app.circuit.axes import axes_of
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.situations import groups, situations_of
from app.circuit.solve import solve_all
from app.drawing.ladder.graph import LOADS, graph_of
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.model import Ladder
from app.job.model import Layout
from tests.circuit.chance import layout_by_chance, situation_by_chance, without_opaque
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.ladder.rebuilt import pieces_placed, rebuilt
from tests.drawing.ladder.same_circuit import doing_otherwise, joined_otherwise

CATALOGUE = builtin_catalogue()
SEEN_THROUGH = without_opaque(CATALOGUE)
MOST_SITUATIONS = 150
"""Of one group of a demo; the simplest come first."""


def every_situation(layout: Layout, catalogue: Catalogue) -> list[Situation]:
    """Return the situations that a check looks at, the simplest of each group."""
    found = [*situations_of(layout, catalogue)]
    for group in groups(layout, catalogue):
        deviations = axes_of([group], layout, catalogue).deviations()
        found += (deviation.situation() for deviation, _ in zip(deviations, range(MOST_SITUATIONS), strict=False))
    return found


def drawn(ladder: Ladder) -> set[str]:
    """Return the names of all pieces that stand on a rung or on a rail."""
    return {piece.name for piece, _, _ in pieces_placed(ladder)}


def proved(layout: Layout, catalogue: Catalogue, situations: list[Situation]) -> Ladder:
    """Return the ladder of a layout after it was held against the circuit."""
    ladder = ladder_of(layout, catalogue)
    names = drawn(ladder)
    again = rebuilt(ladder, layout, catalogue)
    ours = build_circuit(layout, catalogue)
    theirs = build_circuit(again.layout, again.catalogue)
    assert joined_otherwise(ours, theirs, names) == []
    if not ladder.why:
        # Beside the unseen an answer may be more or less sure, depending on how many screws there are to ask about.
        points, others = solve_all(ours, situations), solve_all(theirs, situations)
        assert doing_otherwise(points, others, names) == []
    assert_every_piece_once(ladder, layout, catalogue)
    return ladder


def assert_every_piece_once(ladder: Ladder, layout: Layout, catalogue: Catalogue) -> None:
    """Each piece stands in one place, and each load on one rung."""
    found = Counter((*sorted((piece.a, piece.b)), piece.name) for piece, _, _ in pieces_placed(ladder))
    found.update((*sorted((piece.a, piece.b)), piece.name) for piece in (*ladder.unused, *ladder.loops))
    pieces = graph_of(layout, catalogue).pieces
    assert found == Counter((*sorted((piece.a, piece.b)), piece.name) for piece in pieces)
    on_rungs = Counter(load.name for rung in ladder.rungs() for load in rung.loads())
    assert on_rungs == Counter(piece.name for piece in pieces if piece.sort in LOADS)


@pytest.mark.parametrize(("name", "layout"), [pytest.param(*pair, id="-".join(pair)) for pair in layouts()])
def test_the_ladder_of_a_demo_is_its_circuit(name: str, layout: str) -> None:
    opened = demo(name)
    found = opened.job.layouts[layout]
    whole = (
        situations_of(found, opened.catalogue) if len(found.parts) > 50 else every_situation(found, opened.catalogue)
    )
    proved(found, opened.catalogue, whole)


def _prove_by_chance(seed: int, fewest: int, most: int, situations: int) -> Ladder:
    """Prove the ladder of a layout by chance; in three of four nothing is unseen, so that all of it is computed."""
    chance = Random(f"ladder {seed}")
    catalogue, unknown = (CATALOGUE, 0.1) if chance.random() < 0.25 else (SEEN_THROUGH, 0.0)
    layout = layout_by_chance(chance, catalogue, fewest=fewest, most=most, unknown=unknown)
    asked = [situation_by_chance(chance, layout, catalogue) for _ in range(situations)]
    return proved(layout, catalogue, asked)


@pytest.mark.parametrize("hundred", [*range(5), *(pytest.param(more, marks=pytest.mark.slow) for more in (5, 6))])
def test_ladders_by_chance_are_their_circuits(hundred: int) -> None:
    ladders = [_prove_by_chance(seed, 3, 6, 2) for seed in range(100 * hundred, 100 * hundred + 100)]
    tangled = sum(any(section.bridges for section in ladder.sections) for ladder in ladders)
    # Both sorts are tried: circuits of series and parallel ways alone, and others; and most are computed.
    assert 0 < tangled < 100
    assert sum(not ladder.why for ladder in ladders) > 60


@pytest.mark.slow
@pytest.mark.parametrize("hundred", range(10))
def test_a_thousand_larger_ladders_are_their_circuits(hundred: int) -> None:
    for seed in range(10_000 + 100 * hundred, 10_100 + 100 * hundred):
        _prove_by_chance(seed, 4, 12, 8)
