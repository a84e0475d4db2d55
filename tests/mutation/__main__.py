"""Breaks the engine and the rules a little, many times, and tells what no test noticed.

``python -m tests.mutation [COUNT] [SEED]`` tries a sample, ``python -m tests.mutation --only NAME...`` some again. It
ends in bounded time: no mutant is begun after ``MINUTES``. It fails when fewer than ``LEAST_NOTICED`` are noticed. A
survivor is for a person to look at: either a test is missing, or nobody can see a difference; then it is written down
in ``tests/mutation/equivalent.toml`` with the reason, and is not tried again.
"""

from __future__ import annotations

import os
import sys
import time
from collections import defaultdict
from collections.abc import Sequence

from tests.mutation.judged import all_judged
from tests.mutation.mutants import Mutant, all_mutants, draw
from tests.mutation.running import Run
from tests.mutation.trying import Outcome

COUNT, SEED, MINUTES = 400, "rungwright", 25.0
LEAST_NOTICED = 0.9


def run(mutants: list[Mutant], said: str) -> float:
    """Try mutants, print what happened, and return the share that was noticed."""
    start = time.monotonic()
    made = Run(mutants, MINUTES, workers=len(os.sched_getaffinity(0)))
    made.go()
    noticed = [outcome for outcome in made.outcomes if outcome.noticed_by is not None]
    by_time = sum(outcome.noticed_by == "time" for outcome in noticed)
    rate = len(noticed) / len(made.outcomes)
    print(f"\n{table(made.outcomes)}\n")
    print(
        f"mutation, {said}: {len(noticed)} of {len(made.outcomes)} mutants noticed ({rate:.1%}), {by_time} of them by "
        f"time; {len(mutants)} were drawn, {(time.monotonic() - start) / 60:.1f} minutes"
    )
    return rate


def table(outcomes: Sequence[Outcome]) -> str:
    """Return how many mutants of each module were noticed."""
    modules: dict[str, list[bool]] = defaultdict(list)
    for outcome in outcomes:
        modules[outcome.mutant.path].append(outcome.noticed_by is not None)
    return "\n".join(f"{path:52} {sum(found):3} of {len(found):3}" for path, found in sorted(modules.items()))


def not_judged(mutants: Sequence[Mutant]) -> list[Mutant]:
    """Return the mutants that nobody judged yet; say which judgements are about nothing any more."""
    judged = all_judged()
    left = [mutant for mutant in mutants if mutant.said not in judged]
    for path, function, before, _ in sorted(judged.keys() - {mutant.said for mutant in mutants}):
        print(f"judged, but no longer there: {path} in {function}: {before}")
    print(f"{len(mutants)} mutants can be made; {len(mutants) - len(left)} are known to make no difference", flush=True)
    return left


def main(words: list[str]) -> int:
    """Run what the command asks for."""
    every = all_mutants()
    if words[:1] == ["--only"]:
        return 0 if run([mutant for mutant in every if mutant.name in words[1:]], "only these") == 1 else 1
    count = int(words[0]) if words else COUNT
    seed = words[1] if len(words) > 1 else SEED
    sample = draw(not_judged(every), count, seed)
    return 0 if run(sample, f"seed {seed!r}") >= LEAST_NOTICED else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
