"""In which lanes the conductors on one screw lie: so that they do not cross each other where they need not."""

from __future__ import annotations

import pytest

from app.drawing.connection.plan import plan_connection
from app.job.sketch import sketch
from tests.drawing.generated import CATALOGUE


@pytest.mark.parametrize("below", [False, True], ids=["above", "below"])
def test_on_one_screw_lines_that_come_back_and_those_that_go_on_do_not_cross(below: bool) -> None:
    """Three boards stand in a column; from the last screw of one go lines to both others and to a thermostat."""
    parts = {name: {"kind": "furnace-board", "at": (0, 600 * number)} for number, name in enumerate(("a", "b", "c"))}
    parts["tc"] = {"kind": "thermostat-heat-cool", "at": (900, 1300 if below else 0)}
    start = "a" if below else "c"
    others = [name for name in ("a", "b", "c") if name != start]
    layout = sketch(parts, *(f"{start}.Y {name}.Y" for name in others), f"{start}.Y tc.Y")
    assert plan_connection(layout, CATALOGUE).crossings == 0
