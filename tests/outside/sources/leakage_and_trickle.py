"""Small currents that a circuit was not meant to have: through a starved control, through an open contact."""

from __future__ import annotations

from functools import partial

from app.job.sketch import Parts
from tests.circuit.bench import sketch
from tests.outside.asked import amps, ohms, volts
from tests.outside.record import Check, Near, Otherwise, Source

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


def leak_volts(input_ohms: float) -> float | str:
    """Return the volts of an open contact with a snubber of 0.1 µF (26.5 kΩ at 60 Hz) on an input."""
    parts: Parts = {"xf": "supply", "fb": "board", "in": {"kind": "resistor", "settings": {"ohms": input_ohms}}}
    return volts(sketch(parts, "xf.R fb.R", "xf.C fb.C", "fb.OUT in.A", "in.B fb.C"), "in.A", "in.B")


def leak_amps() -> float:
    """Return the amps of the same contact into a relay at rest."""
    layout = sketch({"xf": "supply", "fb": "board", "k": "relay"}, "xf.R fb.R", "xf.C fb.C", "fb.OUT k.A", "k.B fb.C")
    return amps(layout, "fb.out")


SOURCE = Source(
    title="Leakage of an open contact, and trickle through the equipment of a control without common",
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
        Check("leakage of 26.5 kΩ, its amps", Near(0.001, "A", 0.05), leak_amps),
    ),
    otherwise=tuple(
        Otherwise(
            f"leakage of a snubber on an input of {input_ohms / 1000:g} kΩ",
            Near(theirs, "V", absolute=0.05),
            Near(ours, "V", absolute=0.05),
            partial(leak_volts, input_ohms),
            "a snubber is a capacitor, while what leaks is computed as a resistance of the same ohms",
        )
        for input_ohms, theirs, ours in ((3_000.0, 3.0, 26.4 * 3 / 29.5), (10_000.0, 9.3, 26.4 * 10 / 36.5))
    ),
)
