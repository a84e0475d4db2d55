"""Check and draw: the two demos of the budget, and growth with independent systems."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from app.catalogue.opening import Opened
from app.checks.check import check_layout
from app.checks.outcome import Outcome, groups_of, outcomes_of
from app.circuit.kept_networks import forget_networks
from app.drawing.connection.diagram import draw_connection
from tests.figures.anew import circuit_anew
from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS, opened, row_of
from tests.figures.measure import growth_exponent, timed, yardstick
from tests.figures.zones import zoned_group

SIZES = (10, 30, 100, 300, 1000)
ZONED_SIZES = (10, 20, 30, 40, 50, 60)
BUDGET_MS = {
    ("check", DUAL_FUEL): 15,
    ("draw", DUAL_FUEL): 15,
    ("check", HUNDRED_PARTS): 80,
    ("draw", HUNDRED_PARTS): 150,
}


def check(job: Opened) -> object:
    """Check the layout that is meant by default, with everything worked out anew."""
    forget_networks()
    return check_again(job)


def check_again(job: Opened) -> object:
    """Check it with the networks kept that a check before has compiled and settled, as after a change elsewhere."""
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
        found = timed(partial(act, job))
        yield f"{word} {name}: {found.ms()}, budget {budget_ms} ms, {found.median_s / unit:.2f} yardsticks"
    for name in (DUAL_FUEL, HUNDRED_PARTS):
        job = opened(name)
        found = timed(partial(check_again, job))
        yield f"check {name} again, its networks kept: {found.ms()}, {found.median_s / unit:.2f} yardsticks"
    for name in (DUAL_FUEL, HUNDRED_PARTS):
        yield f"situations of {name}: {situations(opened(name))}"
    rows, zones = [row_of(size) for size in SIZES], [zoned_group(size) for size in ZONED_SIZES]
    for word, act in ACTS.items():
        yield f"{word} of independent systems, {growth(act, rows)} (aim 1.3 or less)"
    yield f"check of one zoned group, {growth(check, zones)}"


def situations(job: Opened) -> str:
    """Return how many are looked at, what they come to, and the time of that with its circuit built anew."""
    layout = job.job.layouts[job.job.default_layout()]

    def outcomes() -> tuple[Outcome, ...]:
        circuit = circuit_anew(layout, job.catalogue)
        return outcomes_of(circuit, groups_of(circuit))

    found = timed(outcomes)
    made = sum(len(outcome.deviations) for outcome in outcomes())
    return f"{made} looked at, {len(outcomes())} outcomes, {found.ms()}"


def growth(act: Callable[[Opened], object], jobs: Sequence[Opened]) -> str:
    """Return parts and time of each job, and the exponent."""
    parts = [len(job.job.layouts["as-left"].parts) for job in jobs]
    seconds = [timed(partial(act, job), repeats=5).median_s for job in jobs]
    each = ", ".join(f"{count}: {second * 1e3:.0f} ms" for count, second in zip(parts, seconds, strict=True))
    return f"parts and time: {each}; exponent {growth_exponent(parts, seconds):.2f}"
