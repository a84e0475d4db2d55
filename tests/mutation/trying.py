"""Tries mutants in forks of one process that has imported and collected everything: one mutant, one fork.

A test that keeps the processor much longer than it did without the mutant is stopped by a signal: a mutant that never
ends is noticed by time. Limits count the time of the processor, so that a machine that has much else to do judges as
an idle one does.
"""

from __future__ import annotations

import os
import resource
import signal
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

import pytest

from tests.mutation.mutants import Mutant
from tests.mutation.putting_in import Living, forget, put_in
from tests.mutation.reaching import Passes, Reach, reach_of

FORK = get_context("fork")
TIMES_AS_LONG, AND_SECONDS = 10.0, 2.0
"""A test may take this many times as long as it did, and these seconds more."""
WAITING_SECONDS = 600.0
"""What a mutant may take by the clock on the wall; only one that waits for something comes to that."""
MEMORY_BYTES = 4 * 2**30


@dataclass(frozen=True)
class Outcome:
    """What became of a mutant."""

    mutant: Mutant
    asked: int
    """How many tests were chosen for it."""
    noticed_by: str | None
    """The test that failed, "time", or "its end" where the process ended; None for a survivor."""


@dataclass
class Trials:
    """Tries mutants with tests, some at a time."""

    items: dict[str, pytest.Item]
    passes: Passes
    living: Living
    workers: int

    def reach(self, mutants: Sequence[Mutant]) -> Reach:
        """Return what the tests reach, found in forks so that this process keeps nothing of it."""
        items = list(self.items.values())
        started = []
        for part in range(self.workers):
            here, there = FORK.Pipe(duplex=False)
            process = FORK.Process(target=self._trace, args=(items[part :: self.workers], mutants, there))
            process.start()
            there.close()
            started.append((process, here))
        whole = Reach()
        for process, here in started:
            whole.add(here.recv())
            process.join()
        return whole

    def outcomes(self, mutants: Sequence[Mutant], reach: Reach, until: float) -> Iterator[Outcome]:
        """Yield what becomes of each mutant, in the order of their ends; none is begun after ``until``."""
        left = list(reversed(mutants))
        running: list[_Trial] = []
        while running or (left and time.monotonic() < until):
            while left and len(running) < self.workers and time.monotonic() < until:
                running.append(self._begin(left.pop(), reach))
            wait([trial.process.sentinel for trial in running], timeout=1.0)
            for trial in [trial for trial in running if trial.has_ended()]:
                running.remove(trial)
                yield trial.outcome()

    def _begin(self, mutant: Mutant, reach: Reach) -> _Trial:
        limits = {test: TIMES_AS_LONG * reach.seconds[test] + AND_SECONDS for test in reach.asked_about(mutant)}
        here, there = FORK.Pipe(duplex=False)
        process = FORK.Process(target=self._try, args=(mutant, limits, there))
        process.start()
        there.close()
        return _Trial(mutant, len(limits), process, here, time.monotonic() + WAITING_SECONDS)

    def _trace(self, items: Sequence[pytest.Item], mutants: Sequence[Mutant], to: Connection) -> None:
        _be_silent()
        to.send(reach_of(items, self.passes, mutants, self.living))

    def _try(self, mutant: Mutant, limits: dict[str, float], to: Connection) -> None:
        _be_silent()
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
        put_in(mutant, self.living)
        forget()
        for test, seconds in limits.items():
            signal.setitimer(signal.ITIMER_PROF, seconds)
            if not self.passes(self.items[test]):
                to.send(test)
                return
        signal.setitimer(signal.ITIMER_PROF, 0)
        to.send(None)


@dataclass
class _Trial:
    mutant: Mutant
    asked: int
    process: BaseProcess
    said: Connection
    until: float

    def has_ended(self) -> bool:
        """Whether it is over; one that waits too long is ended."""
        if time.monotonic() > self.until:
            self.process.kill()
            self.process.join()
        return not self.process.is_alive()

    def outcome(self) -> Outcome:
        """Return what came out of it."""
        try:
            noticed_by: str | None = self.said.recv()
        except EOFError:
            noticed_by = "time" if self.process.exitcode in (-signal.SIGPROF, -signal.SIGKILL) else "its end"
        self.process.join()
        self.said.close()
        return Outcome(self.mutant, self.asked, noticed_by)


def _be_silent() -> None:
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)
