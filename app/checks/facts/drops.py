"""Runs that lose a larger share of the volts than is customary, where the coil behind them is still sure to pull in."""

from __future__ import annotations

from dataclasses import dataclass

from app.checks.context import CheckContext
from app.checks.facts.fed import Fed, weakest
from app.checks.facts.runs import Run, run_of
from app.checks.facts.secondary import wrongly_tapped
from app.checks.facts.strain import rated_volts
from app.checks.facts.weak import weak_coils

MOST_SHARE = 0.05
"""The share of the rated volts that a run may lose. Common practice, no source for controls: the informational notes
of the NEC give it for feeder and branch together (from memory)."""


@dataclass(frozen=True, slots=True)
class Drop:
    """A coil whose run loses ``lost`` volts of the ``source_volts`` at its source."""

    fed: Fed
    run: Run
    lost: float
    source_volts: float
    most: float


def long_runs(context: CheckContext) -> tuple[Drop, ...]:
    """Return the runs that lose too much, the worst first, each wire once; what makes a coil weak is told as that."""
    told = {fed.key() for weak in context.once(weak_coils) for fed in (weak.fed, *weak.beside)}
    told_wires = {name for weak in context.once(weak_coils) for name in weak.run.names()}
    found: list[Drop] = []
    for key, fed in sorted(context.once(weakest).items()):
        if key in told or not fed.pulled_in or fed.winding.name in context.once(wrongly_tapped):
            continue
        source_volts = fed.point.elements[fed.winding.name].volts
        most = MOST_SHARE * rated_volts(context, fed.winding)
        if source_volts is not None and source_volts - fed.volts > most * (1 + 1e-9):
            run = run_of(context, fed)
            if run is not None and run.wires and run.names()[0] not in told_wires:
                found.append(Drop(fed, run, source_volts - fed.volts, source_volts, most))
    kept: list[Drop] = []
    for drop in sorted(found, key=lambda each: (-round(each.lost, 9), each.fed.key())):
        if not any(set(drop.run.names()[:1]) <= set(other.run.names()) for other in kept):
            kept.append(drop)
    return tuple(kept)
