"""Small currents that a circuit was not meant to have: through a starved control, through an open contact."""

from __future__ import annotations

from functools import partial

from tests.circuit.bench import sketch
from tests.outside.asked import ohms, volts
from tests.outside.record import Check, Near, Source

STARVED = sketch(
    {"xf": "supply", "stat": {"kind": "resistor", "settings": {"ohms": 1200.0}}, "fb": "board"},
    *("xf.R stat.A", "stat.B fb.W", "fb.C xf.C"),
)
DROPPED_OUT = {"kind": "contactor", "settings": {"va_inrush": 30.0}}


def trickle_volts() -> float:
    """Return the volts of 20 mA on a contactor of 30 VA inrush that has not pulled in."""
    with_trickle = sketch(
        {"xf": "supply", "stat": {"kind": "resistor", "settings": {"ohms": 1310.0}}, "ou": DROPPED_OUT},
        *("xf.R stat.A", "stat.B ou.A", "ou.B xf.C"),
    )
    return ohms(with_trickle, "ou.coil") * 0.020


SOURCE = Source(
    title="Trickle through the equipment of a control without common",
    status="common practice, no source",
    how="readings of a control of 1.2 kΩ in series with an electronic input of 3 kΩ, or with a contactor at rest",
    checks=(
        Check(
            "contactor of 30 VA inrush, not pulled in",
            Near(19.2, "Ω", 0.001),
            partial(
                lambda: ohms(
                    sketch(
                        {"xf": {"kind": "supply", "settings": {"volts": 12.0}}, "ou": DROPPED_OUT},
                        "xf.R ou.A",
                        "ou.B xf.C",
                    ),
                    "ou.coil",
                )
            ),
            "calculated",
        ),
        Check("20 mA on it", Near(0.38, "V", absolute=0.005), trickle_volts, "calculated"),
        Check("the input sees", Near(18.9, "V", absolute=0.05), partial(volts, STARVED, "fb.W", "fb.C"), "calculated"),
        Check(
            "the control keeps",
            Near(7.5, "V", absolute=0.05),
            partial(volts, STARVED, "stat.A", "stat.B"),
            "calculated",
        ),
    ),
)
