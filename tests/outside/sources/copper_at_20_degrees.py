"""Ohms of solid copper conductors at 20 °C."""

from __future__ import annotations

from functools import partial

from tests.outside.asked import FOOT_M, conductor_ohms
from tests.outside.record import Check, Near, Source

THOUSAND_FEET_M = 1000 * FOOT_M
EXACT_DIAMETER = {14: 2.525, 16: 4.016, 18: 6.385, 20: 10.15, 22: 16.14, 24: 25.67}
ROUNDED_DIAMETER = {18: 6.386, 20: 10.128, 22: 16.203, 24: 25.671}
THREE_FIGURES = {14: 2.52, 16: 4.02, 18: 6.39, 22: 16.2, 24: 25.7}
OHMS_A_KM = {14: 8.286, 16: 13.174, 18: 20.948, 20: 33.309, 22: 52.963, 24: 84.215}

SOURCE = Source(
    title="Copper conductors at 20 °C (wire tables of the NBS Circular 31 and Handbook 100 families)",
    status="published (seen)",
    how="the volts along a conductor of 1000 ft (or 1 km) that carries a load, over its amps",
    note="Tables from exact and from rounded diameters differ among themselves by up to 0.4 %. The three-figure value "
    "of 20 AWG, 10.1, is left out: rounding alone moves it by 0.3 % from the 10.128 that it stands for.",
    checks=(
        *(
            Check(
                f"1000 ft of {size} AWG, exact diameter",
                Near(figure, "Ω", 0.005),
                partial(conductor_ohms, THOUSAND_FEET_M, size),
            )
            for size, figure in EXACT_DIAMETER.items()
        ),
        *(
            Check(
                f"1000 ft of {size} AWG, diameter rounded to four decimals",
                Near(figure, "Ω", 0.005),
                partial(conductor_ohms, THOUSAND_FEET_M, size),
                "calculated",
            )
            for size, figure in ROUNDED_DIAMETER.items()
        ),
        *(
            Check(
                f"1000 ft of {size} AWG, three figures",
                Near(figure, "Ω", 0.005),
                partial(conductor_ohms, THOUSAND_FEET_M, size),
                "from memory, unconfirmed",
            )
            for size, figure in THREE_FIGURES.items()
        ),
        *(
            Check(f"1 km of {size} AWG", Near(figure, "Ω", 0.0005), partial(conductor_ohms, 1000.0, size), "calculated")
            for size, figure in OHMS_A_KM.items()
        ),
    ),
)
