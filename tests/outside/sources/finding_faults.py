"""What a meter shows across switches and loads that are open, closed or shorted."""

from __future__ import annotations

from functools import partial

from app.circuit.situation import Situation
from tests.circuit.bench import faulty, sketch
from tests.outside.asked import amps, state, volts
from tests.outside.record import Check, Exactly, Near, Source, Within

RUNG = sketch(
    {"xf": "fused-supply", "s1": "hand-switch", "s2": "hand-switch", "ld": {"kind": "lamp", "settings": {"va": 10.0}}},
    *("xf.R s1.A", "s1.B s2.A", "s2.B ld.A", "ld.B xf.C"),
)
BAD_COMMON = sketch({"xf": "supply", "la": "lamp", "lb": "lamp"}, "xf.R la.A", "la.B lb.B")
GROUNDED = sketch({"xf": "supply", "ch": "chassis", "la": "lamp"}, "xf.C ch.G", "xf.R la.A", "la.B xf.C")


def opened(*switches: str) -> Situation:
    """Return a situation in which these switches are open."""
    return Situation(set={f"{switch}.hand": "open" for switch in switches})


BURNT = faulty({"is": "conductor-open", "at": "conductor:w4"})
SHORTED = faulty({"is": "short", "at": ("terminal:ld.A", "terminal:ld.B")})

SOURCE = Source(
    title="Fault finding with a meter: Ohm's and Kirchhoff's laws on one rung",
    status="calculated",
    how="readings on a rung of two switches and a load of 10 VA behind a fuse",
    checks=(
        Check("closed switch that carries the load", Within(0.0, 0.02, "V"), partial(volts, RUNG, "s1.A", "s1.B")),
        Check(
            "open switch, the rest of the rung whole",
            Near(26.4, "V", 1e-9),
            partial(volts, RUNG, "s2.A", "s2.B", opened("s2")),
        ),
        Check(
            "two opens in series, across the first",
            Exactly("floating"),
            partial(volts, RUNG, "s1.A", "s1.B", opened("s1", "s2")),
        ),
        Check(
            "two opens in series, across the second",
            Exactly("floating"),
            partial(volts, RUNG, "s2.A", "s2.B", opened("s1", "s2")),
        ),
        Check(
            "two opens in series, across both",
            Near(26.4, "V", 1e-9),
            partial(volts, RUNG, "s1.A", "s2.B", opened("s1", "s2")),
        ),
        Check(
            "return of the load open, across the open",
            Near(26.4, "V", 1e-9),
            partial(volts, RUNG, "ld.B", "xf.C", BURNT),
        ),
        Check(
            "return of the load open, across the load",
            Near(0.0, "V", absolute=1e-9),
            partial(volts, RUNG, "ld.A", "ld.B", BURNT),
        ),
        Check("load shorted: the fuse", Exactly("open"), partial(state, RUNG, "xf.fuse", SHORTED)),
        Check(
            "load shorted: volts across it",
            Near(0.0, "V", absolute=1e-9),
            partial(volts, RUNG, "ld.A", "ld.B", SHORTED),
        ),
        Check(
            "R to C of a healthy transformer",
            Within(24.0, 28.0, "V"),
            partial(volts, RUNG, "xf.R", "xf.C"),
            "common practice, no source",
        ),
        Check(
            "bad common: a load across itself",
            Near(0.0, "V", absolute=1e-9),
            partial(volts, BAD_COMMON, "la.A", "la.B"),
        ),
        Check(
            "bad common: its common side stands at R", Near(26.4, "V", 1e-9), partial(volts, BAD_COMMON, "la.B", "xf.C")
        ),
        Check(
            "bad common: amps through the load", Near(0.0, "A", absolute=1e-12), partial(amps, BAD_COMMON, "la.load")
        ),
        Check(
            "C grounded: R to chassis",
            Within(24.0, 28.0, "V"),
            partial(volts, GROUNDED, "xf.R", "ch.G"),
            "from memory, unconfirmed",
        ),
        Check(
            "fuse of 3 A with R shorted to C",
            Exactly("open"),
            partial(state, RUNG, "xf.fuse", faulty({"is": "short", "at": ("terminal:xf.R", "terminal:xf.C")})),
            "common practice, no source",
        ),
    ),
)
