"""Templates of kinds."""

from __future__ import annotations

from app.circuit.template import template_of
from tests.circuit.bench import CATALOGUE


def test_a_kind_that_was_seen_is_not_made_into_a_template_again() -> None:
    relay, board = CATALOGUE.kinds["relay"], CATALOGUE.kinds["board"]
    first = template_of(relay)
    assert template_of(board) is not first
    assert template_of(relay) is first
