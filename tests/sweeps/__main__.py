"""Sweeps layouts by chance on all cores and tells what went wrong and how fast it was.

``python -m tests.sweeps [COUNT] [SEED]``; ``python -m tests.sweeps --only NAME`` takes one layout again.
"""

from __future__ import annotations

import os
import sys
import time
from multiprocessing import get_context

from tests.sweeps.sweeping import Swept, sweep

COUNT = 100_000
CHUNK = 50


class Told:
    """Adds up what comes in."""

    def __init__(self) -> None:
        self.start = time.perf_counter()
        self.count = 0
        self.complaints: list[str] = []
        self.slow: list[str] = []
        self.slowest: dict[str, tuple[float, str]] = {}
        self.spent: dict[str, float] = {}

    def add(self, swept: Swept) -> None:
        """Take one layout in; say at once what went wrong."""
        self.count += 1
        for act, seconds in swept.seconds.items():
            self.slowest[act] = max(self.slowest.get(act, (0.0, "")), (seconds, swept.name))
            self.spent[act] = self.spent.get(act, 0.0) + seconds
        self.complaints += swept.complaints
        self.slow += swept.slow
        # A long sweep may be stopped before its end.
        for said in (*swept.complaints, *swept.slow):
            print(said, flush=True)

    def lines(self) -> list[str]:
        """Return the summary."""
        rate = self.count / (time.perf_counter() - self.start)
        lines = [f"{self.count} layouts, {rate:.0f} a second, {len(self.complaints)} complaints, {len(self.slow)} slow"]
        for act, (seconds, name) in self.slowest.items():
            mean_ms = self.spent[act] / self.count * 1e3
            lines.append(f"{act}: {mean_ms:.1f} ms in the mean, {seconds:.2f} s at most ({name})")
        return lines


def main(words: list[str]) -> int:
    """Sweep, and fail when anything went wrong."""
    if words[:1] == ["--only"]:
        found = sweep(words[1])
        print(
            "\n".join(
                [*found.complaints, *found.slow, *(f"{act}: {s * 1e3:.1f} ms" for act, s in found.seconds.items())]
            )
        )
        return 1 if found.complaints or found.slow else 0
    count = int(words[0]) if words else COUNT
    seed = words[1] if len(words) > 1 else "sweep"
    told = Told()
    with get_context("spawn").Pool(os.cpu_count()) as pool:
        for swept in pool.imap_unordered(sweep, (f"{seed}-{number}" for number in range(count)), chunksize=CHUNK):
            told.add(swept)
            if told.count % 1000 == 0:
                print(told.lines()[0], flush=True)
    print("\n".join(told.lines()))
    return 1 if told.complaints or told.slow else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
