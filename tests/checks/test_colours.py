"""Which cores of a cable have changed places, and which only look as if they had."""

from __future__ import annotations

import pytest

from app.checks.samples import dual_fuel, with_wires
from app.job.model import Cable, Layout
from tests.checks.bench import found


def in_one_cable(**insulation: str | None) -> Layout:
    """Return a dual-fuel system whose leads for supply, compressor (w5) and fan (w7) lie in one cable."""
    layout = dual_fuel()
    for name, colour in insulation.items():
        layout = with_wires(layout, name, cable="cb1", insulation=colour)
    return layout.model_copy(update={"cables": {"cb1": Cable()}})


def misleading(layout: Layout) -> list[tuple[str, ...]]:
    return [each.subjects for each in found("insulation-misleads", layout)]


def test_yellow_for_the_fan_misleads_where_the_compressor_has_another_colour() -> None:
    assert misleading(in_one_cable(w3="RD", w5="BN", w7="YE")) == [("conductor:w7", "conductor:w5")]


@pytest.mark.parametrize("compressor", ["YE", "YE/BK", None], ids=["yellow-too", "yellow-with-black", "not-seen"])
def test_yellow_for_the_fan_has_changed_places_with_nothing_that_is_yellow_or_unseen(compressor: str | None) -> None:
    assert misleading(in_one_cable(w3="RD", w5=compressor, w7="YE")) == []
