"""Diameters and sections of the American Wire Gage, from its two fixed sizes and the ratio between them."""

from __future__ import annotations

import math
from functools import partial

from app.circuit.impedance import wire_area_mm2
from tests.outside.record import Check, Near, Source

DIAMETER_IN = {14: 0.06408, 16: 0.05082, 18: 0.04030, 20: 0.03196, 22: 0.02535, 24: 0.02010, 36: 0.0050, -3: 0.4600}
AREA_MM2 = {14: 2.0809, 16: 1.3087, 18: 0.8230, 20: 0.5176, 22: 0.3255, 24: 0.2047}
CIRCULAR_MILS = {14: 4106.7, 16: 2582.7, 18: 1624.3, 20: 1021.5, 22: 642.4, 24: 404.0}
MM2_OF_A_CIRCULAR_MIL = math.pi / 4 * 0.0254**2
NAMES = {-3: "0000"}


def diameter_in(size_awg: int) -> float:
    """Return the diameter of a wire in inches, from its section."""
    return math.sqrt(4 * wire_area_mm2(size_awg) / math.pi) / 25.4


def circular_mils(size_awg: int) -> float:
    """Return the section of a wire in circular mils."""
    return wire_area_mm2(size_awg) / MM2_OF_A_CIRCULAR_MIL


SOURCE = Source(
    title="ASTM B258 and NBS Handbook 100: the American Wire Gage",
    status="published (seen), recalculated",
    how="the section from which it works out the ohms of every conductor",
    checks=(
        *(
            Check(
                f"diameter of {NAMES.get(size, str(size))} AWG", Near(inches, "in", 0.0005), partial(diameter_in, size)
            )
            for size, inches in DIAMETER_IN.items()
        ),
        *(
            Check(f"section of {size} AWG in mm²", Near(area, "mm²", 0.0005), partial(wire_area_mm2, size))
            for size, area in AREA_MM2.items()
        ),
        *(
            Check(f"section of {size} AWG in circular mils", Near(mils, "cmil", 0.0005), partial(circular_mils, size))
            for size, mils in CIRCULAR_MILS.items()
        ),
    ),
)
