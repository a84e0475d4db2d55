"""What a small transformer gives with and without a load, worked out from its rating and regulation."""

from __future__ import annotations

from functools import partial

from tests.circuit.bench import faulty
from tests.outside.asked import FOOT_M, amps, load_of, ohms, supplied, volts, with_lengths
from tests.outside.record import Check, Near, Source

SERIES_OHMS = {20: 2.88, 40: 1.44, 50: 1.15, 75: 0.77}
RATED_AMPS = {20: 0.83, 40: 1.67, 50: 2.08, 75: 3.13}
COIL_OHMS = {5: 115.0, 10: 57.6, 20: 28.8, 40: 14.4}
SHORTED = faulty({"is": "short", "at": ("terminal:xf.R", "terminal:xf.C")})


def number(found: float | str) -> float:
    """Return a reading as the number that it must be."""
    assert isinstance(found, float)
    return found


def series_ohms(va: float) -> float:
    """Return the series ohms of a transformer, from its volts with and without a load."""
    layout = supplied(load_of(10), va=va)
    loaded = number(volts(layout, "xf.R", "xf.C"))
    return (26.4 - loaded) / amps(layout, "ld.load")


def relay_ohms(va: float) -> float:
    """Return the size of the impedance of a coil that has pulled in."""
    return ohms(supplied({"kind": "relay", "settings": {"va": float(va)}}, va=200), "ld.coil")


def shorted_amps(va: float, regulation: float) -> float:
    """Return what the model gives into a bolted short."""
    layout = supplied(load_of(0.1), va=va, regulation=regulation)
    return amps(layout, "xf.secondary", SHORTED)


RUN = with_lengths(supplied(load_of(40)), 100 * FOOT_M)

SOURCE = Source(
    title="Open-circuit volts, regulation and sag of a transformer",
    status="calculated",
    how="readings across a transformer and a load on it, by ideal joins or over 100 ft of 18 AWG",
    note="The series model is for loads. What it gives into a short is set down here because the handbook warns of it, "
    "not because a real transformer would.",
    checks=(
        Check(
            "24 V, 10 %, nothing connected",
            Near(26.4, "V", absolute=0.005),
            partial(volts, supplied(load_of(0.1), volts=24.0).model_copy(update={"conductors": {}}), "xf.R", "xf.C"),
        ),
        Check(
            "40 VA at full load",
            Near(24.00, "V", absolute=0.005),
            partial(volts, supplied(load_of(40)), "ld.A", "ld.B"),
        ),
        Check(
            "40 VA load over 100 ft, at the transformer",
            Near(24.18, "V", absolute=0.005),
            partial(volts, RUN, "xf.R", "xf.C"),
        ),
        Check(
            "40 VA load over 100 ft, at the load", Near(22.21, "V", absolute=0.005), partial(volts, RUN, "ld.A", "ld.B")
        ),
        *(
            Check(f"series ohms of {va} VA, 10 %", Near(figure, "Ω", absolute=0.005), partial(series_ohms, va))
            for va, figure in SERIES_OHMS.items()
        ),
        *(
            Check(
                f"rated amps of {va} VA",
                Near(figure, "A", absolute=0.006),
                partial(amps, supplied(load_of(va), va=va), "xf.secondary"),
            )
            for va, figure in RATED_AMPS.items()
        ),
        *(
            Check(f"coil of {va} VA at 24 V", Near(figure, "Ω", 0.005), partial(relay_ohms, va))
            for va, figure in COIL_OHMS.items()
        ),
        Check("bolted short of 40 VA, 10 %", Near(18, "A", absolute=0.5), partial(shorted_amps, 40, 0.10)),
        Check("bolted short of 20 VA, 15 %", Near(6, "A", absolute=0.5), partial(shorted_amps, 20, 0.15)),
        Check("bolted short of 75 VA, 5 %", Near(66, "A", absolute=0.5), partial(shorted_amps, 75, 0.05)),
    ),
)
