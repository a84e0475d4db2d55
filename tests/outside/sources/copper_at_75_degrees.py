"""Ohms of solid uncoated copper at 75 °C: the table of the code, through the temperature coefficient."""

from __future__ import annotations

from functools import partial

from tests.outside.asked import FOOT_M, conductor_ohms
from tests.outside.record import Check, Near, Source

OHMS_A_THOUSAND_FEET = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93}
OHMS_A_KM = {18: 25.5, 16: 16.0, 14: 10.1, 12: 6.34}
COEFFICIENT_PER_K = 0.00393
"""At 20 °C, constant mass: IEC 60028, from memory; it reproduces this very table."""


def warm(length_m: float, size_awg: int) -> float:
    """Return the ohms of a conductor at 75 °C."""
    return conductor_ohms(length_m, size_awg) * (1 + COEFFICIENT_PER_K * (75 - 20))


SOURCE = Source(
    title="NEC chapter 9 table 8: direct-current resistance at 75 °C, uncoated solid copper",
    status="published (seen)",
    how="the ohms of a conductor at 20 °C as above, times the factor that the coefficient 0.00393 per kelvin gives",
    checks=(
        Check(
            "factor from 20 °C to 75 °C, both tables for 18 AWG",
            Near(1.21615, "", 0.005),
            lambda: 7.77 / conductor_ohms(1000 * FOOT_M, 18),
            "calculated",
        ),
        *(
            Check(f"1000 ft of {size} AWG", Near(figure, "Ω", 0.005), partial(warm, 1000 * FOOT_M, size))
            for size, figure in OHMS_A_THOUSAND_FEET.items()
        ),
        *(
            Check(f"1 km of {size} AWG", Near(figure, "Ω", 0.005), partial(warm, 1000.0, size))
            for size, figure in OHMS_A_KM.items()
        ),
    ),
)
