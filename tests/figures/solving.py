"""Settled operating points a second, assembly included, beside ngspice on the same decks in one process."""

from __future__ import annotations

import subprocess
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from app.circuit.netlist import netlist
from app.circuit.network import build_circuit
from app.circuit.pure import solve_each
from app.circuit.settling import best_solver
from app.circuit.situation import Fault, Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all_with
from tests.figures.jobs import DUAL_FUEL, opened
from tests.figures.measure import timed

ROUNDS = 20


def decks_of(situations: list[Situation]) -> list[str]:
    """Return a deck for each situation of the dual-fuel demo."""
    job = opened(DUAL_FUEL)
    circuit = build_circuit(job.job.layouts["as-left"], job.catalogue)
    return [netlist(circuit, situation) for situation in situations]


def ngspice_seconds_a_deck(decks: list[str]) -> float:
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
    start = time.perf_counter()
    done = subprocess.run(
        ["ngspice", "-b", str(script)], capture_output=True, text=True, check=False, timeout=600, cwd=folder
    )
    elapsed_s = time.perf_counter() - start
    solved = done.stdout.count("No. of Data Rows : 1")
    if solved != len(decks):
        raise RuntimeError(f"ngspice solved {solved} of {len(decks)} decks: {done.stdout[-300:]} {done.stderr[-300:]}")
    return elapsed_s


def figures() -> Iterator[str]:
    """Yield operating points a second: arrays, the pure way, ngspice."""
    job = opened(DUAL_FUEL)
    layout = job.job.layouts["as-left"]
    situations = situations_of(layout, job.catalogue)
    faulty = [
        situation.model_copy(update={"faults": (Fault(**{"is": "conductor-open", "at": f"conductor:{conductor}"}),)})
        for conductor in layout.conductors
        for situation in situations
    ]
    rates = {}
    for word, solver in (("arrays", best_solver()), ("pure", solve_each)):
        for sort, asked in (("calls", situations), ("calls by one conductor open", faulty)):
            found = timed(
                lambda solver=solver, asked=asked: solve_all_with(solver, build_circuit(layout, job.catalogue), asked),
                repeats=5,
            )
            rates[word, sort] = len(asked) / found.median_s
            yield f"{word}, {len(asked)} {sort}: {rates[word, sort]:.0f} operating points a second, {found.ms()}"
    rate = 1 / ngspice_seconds_a_deck(decks_of(situations))
    yield f"ngspice, the same decks already settled, one process: {rate:.0f} a second"
    for (word, sort), ours in rates.items():
        yield f"{word}, {sort}: {ours / rate:.1f} times ngspice"
