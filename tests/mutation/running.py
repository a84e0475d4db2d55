"""One run: pytest collects once, and then, instead of the tests, mutants are run with them."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from types import CodeType, FrameType

import pytest

from tests.mutation.mutants import ROOT, Mutant
from tests.mutation.putting_in import living_functions
from tests.mutation.trying import Outcome, Trials

TESTS = ("tests/circuit", "tests/checks", "tests/outside")
WITHOUT = ("terminal", "randomly", "xdist", "cacheprovider")
"""Plugins of pytest that would print, shuffle, share out or write."""


@dataclass
class Run:
    """A plugin of pytest that tries mutants with the tests that were collected."""

    mutants: Sequence[Mutant]
    minutes: float
    """No mutant is begun when so much time has passed."""
    workers: int
    outcomes: list[Outcome] = field(default_factory=list)
    _failed: bool = False
    _run_at_import: set[CodeType] = field(default_factory=set)

    def go(self) -> None:
        """Run pytest with this.

        Raises:
            RuntimeError: the tests could not be collected.
        """
        without = [word for name in WITHOUT for word in ("-p", f"no:{name}")]
        done = pytest.main([*without, "--hypothesis-profile=mutation", *TESTS], plugins=[self])
        if done:
            raise RuntimeError(f"pytest ended with {done!r}; pytest --collect-only {' '.join(TESTS)} may say why")

    @pytest.hookimpl(wrapper=True)
    def pytest_collection(self) -> Iterator[None]:
        """Remember which functions run while modules are imported: those that make examples run at no other time."""

        def remember(frame: FrameType, event: str, _: object) -> None:
            if event == "call":
                self._run_at_import.add(frame.f_code)

        sys.setprofile(remember)
        try:
            return (yield)
        finally:
            sys.setprofile(None)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Try the mutants; nothing else is run in this process."""
        start = time.monotonic()
        items = {item.nodeid: item for item in session.items}
        trials = Trials(items, self._passes, living_functions(), self.workers)
        reach = trials.reach(self.mutants)
        took_s = time.monotonic() - start
        print(
            f"{len(items)} tests run what {len(reach.tests)} of {len(self.mutants)} break, {took_s:.0f} s", flush=True
        )
        for test in reach.failed:
            print(f"fails without any mutant, so nobody asks it: {test}", flush=True)
        mutants = [mutant for mutant in self.mutants if mutant in reach.tests or not self._only_at_import(mutant)]
        if len(mutants) < len(self.mutants):
            print(f"{len(self.mutants) - len(mutants)} are in functions that run only while modules are imported")
        for outcome in trials.outcomes(mutants, reach, start + 60 * self.minutes):
            self.outcomes.append(outcome)
            if outcome.noticed_by is None:
                asked = f"all {outcome.asked} tests that were asked passed" if outcome.asked else "no test runs this"
                print(f"\n{outcome.mutant.told()}\n  {asked}", flush=True)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Remember that something failed."""
        self._failed |= report.failed

    def _only_at_import(self, mutant: Mutant) -> bool:
        place = (str(ROOT / mutant.path), mutant.function)
        return any((code.co_filename, code.co_qualname) == place for code in self._run_at_import)

    def _passes(self, item: pytest.Item) -> bool:
        self._failed = False
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
        return not self._failed
