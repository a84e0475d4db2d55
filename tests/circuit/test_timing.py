"""What a pass tells of its timers, for the clocks that run by it."""

from __future__ import annotations

import pytest

from app.circuit.timing import FRESH, OFF, Timer, Watch


@pytest.mark.parametrize(
    ("function", "inner", "reset", "counts"),
    [
        ("summed", True, False, True),
        ("summed", True, True, False),
        ("summed", False, False, False),
        ("times", True, False, True),
        ("times", True, True, True),
        ("after", True, False, True),
        ("after", False, False, False),
    ],
)
def test_a_sum_stands_still_while_it_is_reset(function: str, inner: bool, reset: bool, counts: bool) -> None:
    watch = Watch((FRESH,), (OFF,))
    watch.answer(Timer(0, "state", function, 5.0), inner, reset)
    assert watch.asks == [counts]
