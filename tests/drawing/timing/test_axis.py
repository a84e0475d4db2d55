"""The axis: true where it says so, marked where it is not, and wide enough for what stands on it."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.timing.axis import CIRCLE_ROOM, LONGEST, stretches
from app.drawing.timing.chart import When
from app.drawing.timing.words import clock_of, lasts
from tests.drawing.timing.seen import SeenChart
from tests.sequence.playing import demo_circuit


def axis(*times_s: float) -> list[tuple[int, str]]:
    """Return (width, manner) of the stretches between times."""
    columns = [When(round(at * 1000)) for at in times_s]
    return [tuple(stretch) for stretch in stretches(columns, [0] * len(columns))]  # type: ignore[misc]


def test_short_and_long_stretches_of_one_run_are_both_readable() -> None:
    # 50 ms, 30 s and 9 min 30 s: the width of each in u.
    found = axis(0, 0.05, 30.05, 600.05)
    assert all(CIRCLE_ROOM < width <= LONGEST for width, _ in found)
    # No scale holds more than one of them: the rest is marked as what it is.
    assert [manner for _, manner in found] in (["wider", "wider", "to-scale"], ["wider", "to-scale", "cut"])


@given(st.lists(st.integers(0, 86_400_000), min_size=2, max_size=30, unique=True))
def test_what_is_to_scale_is_and_what_is_not_says_how(times_ms: list[int]) -> None:
    columns = [When(at) for at in sorted(times_ms)]
    found = stretches(columns, [0] * len(columns))
    lasting = [later.at_ms - earlier.at_ms for earlier, later in pairwise(columns)]
    true = [(stretch.width, ms) for stretch, ms in zip(found, lasting, strict=True) if stretch.manner == "to-scale"]
    assert true or all(stretch.manner != "to-scale" for stretch in found)
    for width, ms in true:
        for other_width, other_ms in true:
            # Widths are whole u, so that each may be half a u off.
            assert abs(width / ms - other_width / other_ms) <= 0.5 / ms + 0.5 / other_ms + 1e-9
    for stretch, ms in zip(found, lasting, strict=True):
        for width, true_ms in true:
            if stretch.manner == "wider":
                assert stretch.width >= width * ms / true_ms - 1
            if stretch.manner == "cut":
                assert stretch.width <= width * ms / true_ms + 1


def test_a_stretch_that_is_not_to_scale_is_marked_above_and_below() -> None:
    chart = SeenChart(demo_circuit("bell-loft-heat-only:as-left"), "0:tc=heat-1", "6000:tc=idle")
    slanted = [
        line
        for line in chart.recorder.drawn("line")
        if line.points[0].x != line.points[-1].x and line.points[0].y != line.points[-1].y and len(line.points) == 2
    ]
    names = {mark.name for mark in chart.drawing.marks}
    assert slanted
    assert len(slanted) % 4 == 0
    assert {"cut", "wider", "to-scale"} <= names


def test_every_time_is_written_and_how_long_it_is_to_the_next() -> None:
    words = SeenChart(
        demo_circuit("bell-loft-heat-only:as-left"), "0:tc=heat-1", "60:main=off", "60.05:main=on"
    ).words()
    for said in ("0:00", "0:05", "0:20", "0:40", "1:00", "1:00.05", "50 ms", "15 s", "20 s"):
        assert said in words.split("\n"), said


@pytest.mark.parametrize(
    ("ms", "said"),
    [
        (50, "50 ms"),
        (1000, "1 s"),
        (1500, "1.5 s"),
        (90_000, "1 min 30 s"),
        (3_600_000, "1 h"),
        (3_660_250, "1 h 1 min 0.25 s"),
    ],
)
def test_how_long_something_lasts(ms: int, said: str) -> None:
    assert lasts(ms) == said


@pytest.mark.parametrize(
    ("changes", "for_s", "said"),
    [
        (("0:tc=heat-1",), 3600.0, "settled"),
        (("0:tc=heat-1",), 30.0, "cut off"),
        (("0:tc=heat-1", "10:fb.flame=open"), 9000.0, "and so on"),
    ],
)
def test_the_axis_says_how_the_run_ends(changes: tuple[str, ...], for_s: float, said: str) -> None:
    chart = SeenChart(demo_circuit("bell-loft-heat-only:as-left"), *changes, for_s=for_s)
    words = chart.words().split("\n")
    assert {said, clock_of(round(chart.run.until_s * 1000))} <= set(words)
    assert ("repeats" in {mark.name for mark in chart.drawing.marks}) == (said == "and so on")


def test_what_is_done_is_written_whole_though_something_else_is_done_soon() -> None:
    calls = "tc=heat-1+aux-heat"
    circuit = demo_circuit("bakery-flat-heat-pump:as-left")
    chart = SeenChart(circuit, f"0:{calls}", "1:tc=cool-1", "2:outdoor=-8", "3:outdoor=-12.5", "900:tc=idle")
    done = [text.words for text in chart.texts]
    # Once on its row (and again where the chart goes on below), and once in the table.
    assert min(done.count(words) for words in ("heat 1 and aux heat", "cool 1", "-8 °C", "-12.5 °C")) >= 2
    assert not [words for words in done if "…" in words and not words.startswith("coil ")]
