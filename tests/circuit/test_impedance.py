"""The formulas of the engine, by hand."""

from __future__ import annotations

import cmath
import math

import pytest

from app.circuit.impedance import load_siemens, source_behind


def test_a_source_of_40_va_and_10_percent() -> None:
    assert source_behind(24, 40, 0.1) == pytest.approx((26.4, 1 / 1.44))


def test_regulation_is_at_least_1_percent() -> None:
    assert source_behind(24, 40, 0.0) == pytest.approx((24.24, 1 / 0.144))


def test_a_load_takes_its_va_at_its_volts_and_lags() -> None:
    amps = 24 * load_siemens(24, 10, 0.6)
    assert abs(24 * amps) == pytest.approx(10)
    assert math.degrees(cmath.phase(amps)) == pytest.approx(-math.degrees(math.acos(0.6)))
