"""One layout by chance through check, solve, sequence and meter: what goes wrong, and how long it takes."""

from __future__ import annotations

import math
import signal
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from random import Random
from types import FrameType
from typing import get_args

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue
from app.checks.check import RULE_ERROR, check_layout
from app.circuit.meter import METERS, read_with
from app.circuit.network import Circuit, build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Layout
from app.job.refusal import Refused
from app.job.sketch import sketch_job
from app.sequence.change import Change
from app.sequence.run import Ends, run_sequence
from tests.circuit.chance import layout_by_chance, situation_by_chance

HANGS_AFTER_S = 30
MOST_SECONDS = 2.0


@dataclass(frozen=True)
class Swept:
    """What came of one layout: its name, complaints, and the processor's seconds of each thing that was asked.

    ``slow`` says what took longer than anything should.
    """

    name: str
    complaints: tuple[str, ...]
    seconds: dict[str, float]
    slow: tuple[str, ...]


class HangsError(Exception):
    """Something took far longer than anything may."""


@contextmanager
def guarded() -> Iterator[None]:
    """Raise ``HangsError`` in what takes the processor longer than ``HANGS_AFTER_S``."""

    def ring(number: int, frame: FrameType | None) -> None:
        raise HangsError(f"still under way after {HANGS_AFTER_S} s")

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, HANGS_AFTER_S)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def drawn(name: str) -> tuple[Random, Layout]:
    """Return the chance and the layout of a name; the same name always gives the same.

    Most are small, so that there can be many; one in twenty is larger.
    """
    chance = Random(name)
    most = 12 if chance.random() < 0.05 else 8
    return chance, layout_by_chance(chance, builtin_catalogue(), fewest=5, most=most, unknown=0.01)


def sweep(name: str) -> Swept:
    """Take the layout of a name through everything."""
    catalogue = builtin_catalogue()
    chance, layout = drawn(name)
    circuit = build_circuit(layout, catalogue)
    asked = situation_by_chance(chance, layout, catalogue, faults=chance.randint(0, 2))
    acts: dict[str, Callable[[], str | None]] = {
        "check": lambda: _check(layout, catalogue),
        "solve": lambda: _solve(circuit, asked),
        "sequence": lambda: _sequence(circuit, changes_by_chance(chance, layout, catalogue)),
        "read": lambda: _read(chance, circuit, asked),
    }
    complaints: list[str] = []
    slow: list[str] = []
    seconds: dict[str, float] = {}
    for act, ask in acts.items():
        start = time.process_time()
        try:
            with guarded():
                complaint = ask()
        except Exception as error:
            place = traceback.extract_tb(error.__traceback__)[-1]
            complaint = f"{type(error).__name__}: {error} at {place.filename.rpartition('/')[2]}:{place.lineno}"
        seconds[act] = time.process_time() - start
        if seconds[act] > MOST_SECONDS:
            slow.append(f"{name} {act}: {seconds[act]:.1f} s, {pace_ms():.0f} ms for the yardstick")
        if complaint:
            complaints.append(f"{name} {act}: {complaint}")
    return Swept(name, tuple(complaints), seconds, tuple(slow))


def pace_ms() -> float:
    """Return what the yardstick takes now, since a shared machine has its slow hours."""
    start = time.process_time()
    sum(math.sqrt(number) for number in range(200_000))
    return (time.process_time() - start) * 1e3


def changes_by_chance(chance: Random, layout: Layout, catalogue: Catalogue) -> list[Change]:
    """Return calls, disturbances and their end, over a quarter of an hour."""
    found = []
    for number in range(chance.randint(1, 5)):
        asked = situation_by_chance(chance, layout, catalogue)
        found.append(
            Change(
                at_s=chance.choice([0.0, 5.0, 30.0, 61.5, 200.0, 500.0]),
                words=f"change {number}",
                calls=asked.calls,
                set=asked.set,
                mains=asked.mains,
                supply_percent=asked.supply_percent,
                outdoor_c=asked.outdoor_c,
            )
        )
    return found


def _check(layout: Layout, catalogue: Catalogue) -> str | None:
    errors = [
        finding.message
        for finding in check_layout(sketch_job(layout), "as-left", catalogue).findings
        if finding.rule == RULE_ERROR
    ]
    return "; ".join(errors) or None


def _solve(circuit: Circuit, asked: Situation) -> str | None:
    point = solve(circuit, asked)
    return None if point.settled == (point.unsettled is None) else "settled and not settled at once"


def _sequence(circuit: Circuit, changes: list[Change]) -> str | None:
    run = run_sequence(circuit, changes, for_s=900.0)
    unexplained = [event for event in run.events if event.cause == "unexplained"]
    if unexplained:
        return f"moves without a cause: {unexplained[0]}"
    return None if run.ends in get_args(Ends) else f"ends with {run.ends}"


def _read(chance: Random, circuit: Circuit, asked: Situation) -> str | None:
    point = solve(circuit, asked)
    a, b = chance.choices(sorted(point.terminals), k=2)
    for meter in METERS:
        try:
            reading = read_with(meter, circuit, point, a, b)
        except Refused as refused:
            if refused.code != "power-on":
                raise
            continue
        said = [reading.volts is not None, reading.ohms is not None, reading.floating, reading.unknown]
        if not any(said):
            return f"{meter} says nothing from {a} to {b}"
    return None
