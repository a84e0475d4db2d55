"""Nothing fails on any layout, whatever is asked of it; a hundred thousand of them in the slow run."""

from __future__ import annotations

from collections.abc import Callable
from itertools import chain

import pytest

from tests.sweeps.__main__ import Told
from tests.sweeps.sweeping import sweep

SLICE = 40
CHUNKS, A_CHUNK = 50, 2000


def swept(name: str, count: int) -> Told:
    told = Told()
    for number in range(count):
        told.add(sweep(f"{name}-{number}"))
    return told


@pytest.mark.parametrize("name", ["dale", "fell"])
def test_some_layouts_by_chance_are_borne(name: str) -> None:
    assert swept(name, SLICE).complaints == []


@pytest.mark.slow
@pytest.mark.parametrize("name", [f"{chunk}-th" for chunk in range(1, CHUNKS + 1)])
def test_a_hundred_thousand_layouts_by_chance_are_borne(name: str, tell: Callable[[str], None]) -> None:
    told = swept(f"many-{name}", A_CHUNK)
    assert told.complaints == []
    tell(f"layouts by chance, {name} part: " + "; ".join(chain(told.lines())))
