"""Check and draw: the two demos of the budget, and growth with independent systems."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.catalogue.opening import Opened
from app.checks.check import check_layout
from app.drawing.connection import draw_connection
from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS, opened, row_of
from tests.figures.measure import growth_exponent, timed, yardstick

SIZES = (10, 25, 50, 100, 200, 300)
BUDGET_MS = {
    ("check", DUAL_FUEL): 15,
    ("draw", DUAL_FUEL): 15,
    ("check", HUNDRED_PARTS): 80,
    ("draw", HUNDRED_PARTS): 150,
}


def check(job: Opened) -> object:
    """Check the layout that is meant by default, building its circuit anew."""
    return check_layout(job.job, job.job.default_layout(), job.catalogue)


def draw(job: Opened) -> object:
    """Draw its connection diagram."""
    return draw_connection(job.job, job.job.default_layout(), job.catalogue, dated="2026-01-01")


ACTS: dict[str, Callable[[Opened], object]] = {"check": check, "draw": draw}


def figures() -> Iterator[str]:
    """Yield check and draw of two demos beside budget and yardstick, then growth."""
    unit = yardstick().median_s
    for (word, name), budget_ms in BUDGET_MS.items():
        job = opened(name)
        act = ACTS[word]
        found = timed(lambda act=act, job=job: act(job))
        yield f"{word} {name}: {found.ms()}, budget {budget_ms} ms, {found.median_s / unit:.2f} yardsticks"
    for word, act in ACTS.items():
        jobs = [row_of(size) for size in SIZES]
        parts = [len(job.job.layouts["as-left"].parts) for job in jobs]
        seconds = [timed(lambda act=act, job=job: act(job), repeats=5).median_s for job in jobs]
        each = ", ".join(f"{count}: {second * 1e3:.0f} ms" for count, second in zip(parts, seconds, strict=True))
        yield f"{word}, parts and time: {each}; exponent {growth_exponent(parts, seconds):.2f}"
