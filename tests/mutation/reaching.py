"""Which tests run the statement that a mutant breaks, and how long each test takes: so that only these are asked.

A probe stands before each statement that will be broken, and all tests are run once. Before each test everything that
is kept is forgotten; a test would else not be seen to need what an earlier one worked out.
"""

from __future__ import annotations

import builtins
import time
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import pytest

from tests.mutation.mutants import Mutant
from tests.mutation.putting_in import PROBE, Living, forget, put_in_probes

MOST_SECONDS = 20.0
"""What the tests that are asked about one mutant may take together, as they took without one."""

Passes = Callable[[pytest.Item], bool]


@dataclass
class Reach:
    """What was seen of the tests when nothing was broken."""

    seconds: dict[str, float] = field(default_factory=dict)
    """How long each test that passed kept the processor."""
    failed: list[str] = field(default_factory=list)
    tests: dict[Mutant, list[str]] = field(default_factory=dict)
    """The tests that run what each mutant breaks."""

    def asked_about(self, mutant: Mutant) -> list[str]:
        """Return the tests to ask about a mutant, in order.

        First comes one case of every test, then a second of each, the quickest first: the cases of one test are alike.
        """
        cases: dict[str, int] = defaultdict(int)
        order: list[tuple[int, float, str]] = []
        reaching = [test for test in self.tests.get(mutant, ()) if test in self.seconds]
        for test in sorted(reaching, key=lambda test: (self.seconds[test], test)):
            name = test.partition("[")[0]
            order.append((cases[name], self.seconds[test], test))
            cases[name] += 1
        asked: list[str] = []
        left_s = MOST_SECONDS
        for _, seconds, test in sorted(order):
            if seconds <= left_s:
                asked.append(test)
                left_s -= seconds
        return asked

    def add(self, other: Reach) -> None:
        """Take in what was seen of other tests."""
        self.seconds |= other.seconds
        self.failed += other.failed
        for mutant, tests in other.tests.items():
            self.tests.setdefault(mutant, []).extend(tests)


def reach_of(items: Sequence[pytest.Item], passes: Passes, mutants: Sequence[Mutant], living: Living) -> Reach:
    """Put in the probes, run the tests and return what was seen."""
    reached: set[int] = set()
    setattr(builtins, PROBE, reached.add)
    put_in_probes(mutants, living)
    found = Reach()
    for item in items:
        forget()
        reached.clear()
        start = time.process_time()
        if passes(item):
            found.seconds[item.nodeid] = time.process_time() - start
        else:
            found.failed.append(item.nodeid)
        for number in reached:
            found.tests.setdefault(mutants[number], []).append(item.nodeid)
    return found
