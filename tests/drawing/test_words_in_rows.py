"""How words are broken into rows, and what a view says of how many things it shows."""

from __future__ import annotations

import re

import pytest

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.drawing.frame.title_block import wrapped
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.drawing.views import VIEWS, Shown
from app.job.model import Layout
from app.job.sketch import sketch
from app.sequence.run import run_sequence
from tests.drawing.generated import CATALOGUE

TOGETHER = [
    ("aux heat, heat 1, heat 2, emergency heat", "heat 1,"),
    ("closes on rung 2; opens on rungs 11, 13–15", "rungs 11,"),
    ("Furnace transformer 24 V, 40 VA, one winding", "40 VA,"),
]


@pytest.mark.parametrize(("words", "kept"), TOGETHER)
def test_a_number_stays_with_what_it_counts(words: str, kept: str) -> None:
    for most in range(width_of(kept, SMALL), width_of(words, SMALL) + 1):
        rows = wrapped(words, SMALL, most)
        assert " ".join(rows) == words
        assert any(kept in row for row in rows), (most, rows)
        for row in rows:
            assert width_of(row, SMALL) <= most or " " not in row


def test_where_a_number_has_no_room_beside_its_word_it_stands_by_itself() -> None:
    assert wrapped("emergency 1000", SMALL, width_of("emergency", SMALL)) == ["emergency", "1000"]


def counts_in(layout: Layout) -> str:
    """Return what a reader hears of every view of a layout."""
    circuit = build_circuit(layout, CATALOGUE)
    point, run = solve(circuit, Situation()), run_sequence(circuit, ())
    shown = Shown(layout, CATALOGUE, circuit, point, "idle", run, before=Layout())
    return " ".join(view.draw(shown).description for view in VIEWS.values())


def test_one_thing_is_told_as_one() -> None:
    one = counts_in(sketch({"xf": "control-transformer"}, "xf.R -"))
    assert "1 part:" in one
    assert "1 conductor." in one
    assert "1 ladder." in one
    assert re.findall(r"\b1 (?!AWG)[a-z]+s\b", one) == []
    assert "2 flags to cut out" in one
    several = counts_in(sketch({"xf": "control-transformer", "fb": "furnace-board"}, "xf.R fb.XF", "xf.C fb.XC"))
    assert "2 parts:" in several
    assert "2 conductors." in several
