"""What a meter shows on a conductor that floats beside a live one."""

from __future__ import annotations

from functools import partial

from app.circuit.meter import read_with
from app.circuit.network import build_circuit
from app.circuit.reading import Meter
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Cable, Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE
from tests.outside.record import Check, Exactly, Near, Source, Within


def beside_live(length_m: float) -> Layout:
    """Return a cable of two conductors: one live from a source of 24.0 V, one landed on nothing that has volts."""
    source = Part(kind="supply", settings={"volts": 24.0 / 1.1})
    return Layout(
        parts={"xf": source, **{name: Part(kind="joint") for name in ("far", "one", "other")}},
        cables={"cb": Cable(length_m=length_m)},
        conductors={
            "live": Conductor(ends=("xf.R", "far.A"), cable="cb"),
            "spare": Conductor(ends=("one.A", "other.A"), cable="cb"),
        },
    )


def shown(meter: Meter, length_m: float = 15.0) -> float | str:
    """Return what a meter shows from the floating conductor to common."""
    circuit = build_circuit(beside_live(length_m), CATALOGUE)
    reading = read_with(meter, circuit, solve(circuit, Situation()), "other.A", "xf.C")
    return "floating" if reading.volts is None else reading.volts


def times_more(meter: Meter, length_m: float, shorter_m: float) -> float:
    """Return how many times what a meter shows on a short piece it shows on a long one."""
    long, short = shown(meter, length_m), shown(meter, shorter_m)
    assert isinstance(long, float)
    assert isinstance(short, float)
    return long / short


SOURCE = Source(
    title="Phantom volts: V = Vs·Zm / √(Zm² + Xc²), 50 pF/m, as reported of NEMA Bulletin 88",
    status="calculated",
    how="readings from a conductor that floats in a cable of 15 m beside a live one of 24 V",
    checks=(
        Check("meter of 10 MΩ", Near(22.6, "V", absolute=0.05), partial(shown, "high")),
        Check("meter of 3 kΩ", Near(0.02, "V", absolute=0.005), partial(shown, "low")),
        Check("a meter that draws nothing", Exactly("floating"), partial(shown, "ideal")),
        Check(
            "more with length: 15 m over 0.3 m",
            Within(5.0, 1000.0, "times"),
            partial(times_more, "high", 15.0, 0.3),
            "published (seen, secondary)",
        ),
        Check(
            "never more than the live volts",
            Within(0.0, 24.0, "V"),
            partial(shown, "high", 900.0),
            "published (seen, secondary)",
        ),
    ),
)
