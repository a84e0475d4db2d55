"""The volts at which contactor coils must close and let go, and between which they may stay."""

from __future__ import annotations

from functools import partial

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import figure
from app.catalogue.kind import Coil
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.job.sketch import sketch
from app.sequence.change import Change
from app.sequence.run import run_sequence
from tests.circuit.bench import CATALOGUE
from tests.outside.record import Check, Near, Source, Within

STIFF = {"kind": "supply", "settings": {"va": 200, "regulation": 0.01}}
LAYOUT = sketch({"xf": STIFF, "ou": "contactor"}, "xf.R ou.A", "xf.C ou.B")
LADDER = [40.0 + 0.5 * step for step in range(141)]
"""Percent of the supply, from 40 to 110."""


def coil_volts(percent: float, before: float) -> tuple[float, str]:
    """Return volts and state of a coil after the supply went from one level to another."""
    circuit = build_circuit(LAYOUT, CATALOGUE)
    change = Change(1.0, "supply", supply_percent=percent)
    run = run_sequence(circuit, [change], 2.0, Situation(supply_percent=before))
    found = run.point_at(1.5).elements["ou.coil"]
    assert found.volts is not None
    return found.volts, found.state


def closes_at() -> float:
    """Return the least volts at which a coil at rest has pulled in."""
    return next(volts for volts, state in (coil_volts(each, 10.0) for each in LADDER) if state == "pulled-in")


def lets_go_at() -> float:
    """Return the most volts at which a coil that was in has let go."""
    return next(volts for volts, state in (coil_volts(each, 100.0) for each in reversed(LADDER)) if state == "released")


def of_all_coils(share: str, worst: str) -> float:
    """Return a share of the rated volts of the coils in the catalogue, the largest or the least, at 24 V."""
    catalogue = builtin_catalogue()
    shares = []
    for name in catalogue:
        kind = catalogue.kind(name)
        defaults = {setting: said.default for setting, said in kind.settings.items()}
        shares += [figure(getattr(e, share), defaults) for e in kind.elements.values() if isinstance(e, Coil)]
    return 24 * (max(shares) if worst == "largest" else min(shares))


SOURCE = Source(
    title="IEC 60947-4-1: limits of operation of contactor coils (85 to 110 %, drop-out 75 to 20 %)",
    status="from memory, unconfirmed",
    how="a coil of 24 V whose supply is raised from 10 % or lowered from 100 % in a run, and the figures of all kinds",
    checks=(
        Check("a coil at rest closes by 85 %", Within(0.0, 20.4, "V"), closes_at),
        Check("a coil that is in lets go between 75 and 20 %", Within(4.8, 18.0, "V"), lets_go_at),
        Check(
            "closing is sure for every coil of the catalogue by 85 %",
            Within(0.0, 20.4, "V"),
            partial(of_all_coils, "pull_in_guaranteed", "largest"),
        ),
        Check(
            "drop-out of every coil of the catalogue, the highest",
            Within(4.8, 18.0, "V"),
            partial(of_all_coils, "drop_out", "largest"),
        ),
        Check(
            "drop-out of every coil of the catalogue, the lowest",
            Within(4.8, 18.0, "V"),
            partial(of_all_coils, "drop_out", "least"),
        ),
        Check("a real coil closes at 65 to 75 %", Within(15.6, 18.2, "V"), closes_at, "common practice, no source"),
        Check(
            "it holds with a sag that would not have let it close",
            Near(1.0, "", absolute=0.0),
            lambda: float(lets_go_at() < closes_at()),
            "common practice, no source",
        ),
    ),
)
