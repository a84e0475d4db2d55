"""Two equal transformers that are joined, the right way round, the wrong way round, and on other legs of the line."""

from __future__ import annotations

from functools import partial

from app.job.model import Layout
from tests.circuit.bench import sketch
from tests.outside.asked import amps, volts
from tests.outside.record import Check, Exactly, Near, Otherwise, Source


def pair(phase_deg: int | str, *wires: str) -> Layout:
    """Return two transformers of 40 VA and 10 %, their commons joined."""
    other = {"kind": "supply", "settings": {"phase_deg": phase_deg}}
    return sketch({"xa": "supply", "xb": other}, "xa.C xb.C", *wires)


def apart(phase_deg: int | str) -> float | str:
    """Return the volts between the two hot sides."""
    return volts(pair(phase_deg), "xa.R", "xb.R")


def through(phase_deg: int) -> float:
    """Return the amps that go round when the hot sides are joined, too."""
    return amps(pair(phase_deg, "xa.R xb.R"), "xa.secondary")


SOURCE = Source(
    title="Two equal sources joined",
    status="calculated",
    how="readings on two transformers of 40 VA, 26.4 V behind 1.44 Ω, with a common joined",
    checks=(
        Check("in phase, between the hot sides", Near(0.0, "V", absolute=1e-9), partial(apart, 0)),
        Check("in phase, amps when joined", Near(0.0, "A", absolute=1e-9), partial(through, 0)),
        Check("opposed, between the hot sides", Near(52.8, "V", absolute=0.005), partial(apart, 180)),
        Check("opposed, amps when joined", Near(18.33, "A", absolute=0.005), partial(through, 180)),
    ),
    otherwise=(
        Otherwise(
            "on two legs of a three-phase line, between the hot sides",
            Near(45.7, "V", absolute=0.05),
            Exactly("unknown"),
            partial(apart, "unknown"),
            "a phase is 0°, 180° or not known; on such a line it is not known, and 0 V and 52.8 V are the bounds",
        ),
    ),
)
