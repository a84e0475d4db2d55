"""How a figure is measured: repeated, the middle told, with the spread of the machine beside it."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Timing:
    """Seconds of one repeated act: the median, and the tenth and ninetieth percentile as the machine's noise."""

    median_s: float
    low_s: float
    high_s: float

    def ms(self) -> str:
        """Return the figure in milliseconds with its spread."""
        return f"{self.median_s * 1e3:.1f} ms ({self.low_s * 1e3:.1f} to {self.high_s * 1e3:.1f})"


def timed(act: Callable[[], object], repeats: int = 15) -> Timing:
    """Return how long ``act`` takes, after one run that warms it up."""
    act()
    seconds = []
    for _ in range(repeats):
        start = time.perf_counter()
        act()
        seconds.append(time.perf_counter() - start)
    tenths = statistics.quantiles(seconds, n=10)
    return Timing(statistics.median(seconds), tenths[0], tenths[-1])


def yardstick() -> Timing:
    """Return how long a fixed piece of pure Python takes here, so that figures of two machines can be compared."""
    return timed(lambda: sum(math.sqrt(number) for number in range(200_000)))


def growth_exponent(sizes: Sequence[int], seconds: Sequence[float]) -> float:
    """Return the slope of log seconds over log size: 1 is linear, 2 is quadratic."""
    xs, ys = [math.log(size) for size in sizes], [math.log(second) for second in seconds]
    return statistics.linear_regression(xs, ys).slope
