"""Settled operating points a second in a batch of faults, assembly included, beside ngspice on such decks.

A point is settled when every coil, input, contact and fuse is, when the effects are known and when the volts of all
nodes stand in arrays. ngspice is given decks that are settled already, and loops over them in one process. Both are
measured by the processor time that they take, which other work on the machine disturbs less than the clock.
"""

from __future__ import annotations

import random
import resource
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from statistics import median

from app.checks.outcome import groups_of
from app.circuit.batch.fault_table import FaultTable
from app.circuit.fault_points import FaultSet, fault_points, with_faults
from app.circuit.netlist import netlist
from app.circuit.outcomes import outcomes_of
from app.circuit.pure import solve_each
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all_with
from tests.circuit.every_fault import likely_faults
from tests.figures.anew import circuit_anew
from tests.figures.jobs import DUAL_FUEL, opened
from tests.figures.measure import yardstick

SUPPLIES = (100, 88, 106)
DECKS = 120
ROUNDS = 12
TURNS = 7


def cpu_seconds(act: Callable[[], object]) -> float:
    """Return the processor time of this process over an act."""
    start = time.process_time()
    act()
    return time.process_time() - start


def ngspice_seconds_a_deck(decks: Sequence[str]) -> float:
    """Return what ngspice takes to read and solve one deck, all in one process, its start taken off."""
    with tempfile.TemporaryDirectory() as folder:
        names = []
        for number, deck in enumerate(decks):
            path = Path(folder) / f"deck{number}.cir"
            path.write_text(deck, encoding="ascii")
            names.append(path)
        once = _seconds(Path(folder), names)
        many = _seconds(Path(folder), names * ROUNDS)
    return (many - once) / (len(decks) * (ROUNDS - 1))


def _seconds(folder: Path, decks: list[Path]) -> float:
    lines = ["control", ".control"]
    for deck in decks:
        lines += [f"source {deck}", "run", "destroy all", "remcirc"]
    script = folder / "control.cir"
    script.write_text("\n".join([*lines, "quit", ".endc", ".end"]) + "\n", encoding="ascii")
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        ["ngspice", "-b", str(script)], capture_output=True, text=True, check=False, timeout=600, cwd=folder
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    solved = done.stdout.count("No. of Data Rows : 1")
    if solved != len(decks):
        raise RuntimeError(f"ngspice solved {solved} of {len(decks)} decks: {done.stdout[-300:]} {done.stderr[-300:]}")
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def figures() -> Iterator[str]:
    """Yield operating points a second: a table of faults as arrays, the pure way, ngspice; then what a check asks."""
    job = opened(DUAL_FUEL)
    layout = job.job.layouts["as-left"]
    calls = situations_of(layout, job.catalogue)
    bases = [each.model_copy(update={"supply_percent": float(supply)}) for each in calls for supply in SUPPLIES]
    faults: list[FaultSet] = [(fault,) for fault in likely_faults(layout, job.catalogue)]
    situations = [with_faults(base, each) for each in faults for base in bases]
    some = random.Random("decks of the batch").sample(situations, DECKS)

    def table(asked: list[Situation]) -> None:
        settled = fault_points(circuit_anew(layout, job.catalogue), asked, faults)
        assert isinstance(settled, FaultTable)
        settled.make_ready()

    def pure() -> None:
        solve_all_with(solve_each, circuit_anew(layout, job.catalogue), some)

    circuit = circuit_anew(layout, job.catalogue)
    decks = [netlist(circuit, situation) for situation in some]
    table(calls)
    arrays_s, calls_s, pure_s, ngspice_s = [], [], [], []
    for _ in range(TURNS):
        # In turns, so that a change of pace of the machine meets all of them.
        arrays_s.append(cpu_seconds(lambda: table(bases)) / len(situations))
        calls_s.append(cpu_seconds(lambda: table(calls)) / (len(calls) * len(faults)))
        pure_s.append(cpu_seconds(pure) / len(some))
        ngspice_s.append(ngspice_seconds_a_deck(decks))
    each = {
        f"arrays, by {len(calls)} calls and {len(SUPPLIES)} supply levels": median(arrays_s),
        f"arrays, by {len(calls)} calls at one supply": median(calls_s),
        "pure Python": median(pure_s),
        "ngspice": median(ngspice_s),
    }
    yield f"a table of {len(faults)} faults of every class; the yardstick {yardstick().ms()}"
    for word, seconds in each.items():
        yield f"{word}: {1 / seconds:,.0f} a second, {seconds * 1e6:.1f} µs each"
    for word, here in (("with supply levels", arrays_s), ("at one supply", calls_s), ("pure Python", pure_s)):
        ratios = sorted(there / ours for ours, there in zip(here, ngspice_s, strict=True))
        yield f"{word}: {median(ratios):.0f} times ngspice ({ratios[0]:.0f} to {ratios[-1]:.0f}), aim of arrays 100"
    yield from _outcomes()


def _outcomes() -> Iterator[str]:
    """Yield what it costs to sort all the situations of a check by what they come to."""
    job = opened(DUAL_FUEL)
    layout = job.job.layouts["as-left"]
    asked: list[Situation] = [
        each.situation() for group in groups_of(circuit_anew(layout, job.catalogue)) for each in group.looked_at()
    ]
    seconds = median(cpu_seconds(lambda: outcomes_of(circuit_anew(layout, job.catalogue), asked)) for _ in range(TURNS))
    found = len(outcomes_of(circuit_anew(layout, job.catalogue), asked))
    yield (
        f"{len(asked)} situations of a check sorted into {found} outcomes: {seconds * 1e3:.1f} ms, "
        f"{seconds / len(asked) * 1e6:.0f} µs each"
    )
