"""The few formulas of the engine: wire, coil, load, source.

Ohms and siemens are at the line frequency; a coil is an inductive impedance of constant size.
"""

from __future__ import annotations

import math

RESISTIVITY = 1 / 58
"""Ohm mm² per metre of annealed copper at 20 °C (IEC 60028, from memory; reproduces the published wire tables)."""
CONTACT_OHMS = 0.02
FUSE_OHMS = 0.03
JUMPER_OHMS = 0.001
LEAST_REGULATION = 0.01
IDEAL_SIEMENS = 1e12
"""Stands for a join without resistance that is added by a fault; a bolted short of 20 A then drops 20 picovolts."""


def wire_area_mm2(size_awg: int) -> float:
    """Return the section of a solid wire in mm² from its gauge (ASTM B258: 0.005 in × 92^((36 − n) / 39))."""
    diameter_mm: float = 25.4 * 0.005 * 92.0 ** ((36 - size_awg) / 39)
    return math.pi / 4 * diameter_mm**2


def wire_ohms(length_m: float, size_awg: int) -> float:
    """Return the ohms of one solid copper conductor at 20 °C."""
    return RESISTIVITY * length_m / wire_area_mm2(size_awg)


def load_siemens(volts: float, va: float, power_factor: float) -> complex:
    """Return the admittance of a load that takes ``va`` at ``volts``: constant impedance, inductive."""
    factor = min(max(power_factor, 0.0), 1.0)
    return complex(va / volts**2 * factor, -va / volts**2 * math.sqrt(1 - factor**2))


def source_behind(volts: float, va: float, regulation: float) -> tuple[float, float]:
    """Return (open-circuit volts, series siemens) of a source of rated ``volts`` and ``va``."""
    share = max(regulation, LEAST_REGULATION)
    return volts * (1 + share), va / (volts**2 * share)
