"""Ohms of copper conductors against published tables, within 0.5 %."""

from __future__ import annotations

import pytest

from app.circuit.impedance import wire_area_mm2, wire_ohms

THOUSAND_FEET_M = 304.8

EXACT_DIAMETER = {14: 2.525, 16: 4.016, 18: 6.385, 20: 10.15, 22: 16.14, 24: 25.67}
"""Ohm per 1000 ft at 20 °C, solid: industrial wire table of the NBS Circular 31 family (published, seen)."""
ROUNDED_DIAMETER = {14: 2.52, 16: 4.02, 18: 6.39, 20: 10.1, 22: 16.2, 24: 25.7}
"""The same in the style of NBS Handbook 100 (three figures, from memory, unconfirmed)."""
AT_75_C = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93}
"""Ohm per 1000 ft at 75 °C, uncoated solid copper: NEC chapter 9 table 8 (published, two reproductions seen)."""
AREA_CIRCULAR_MILS = {14: 4106.7, 16: 2582.7, 18: 1624.3, 20: 1021.5, 22: 642.4, 24: 404.0}
"""Section in circular mils: ASTM B258 formula (published; checked by calculation)."""


def named(table: dict[int, float]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize(("size_awg", "figure"), table.items(), ids=[f"{size} AWG" for size in table])


@named(EXACT_DIAMETER)
def test_exact_diameter_table(size_awg: int, figure: float) -> None:
    assert wire_ohms(THOUSAND_FEET_M, size_awg) == pytest.approx(figure, rel=0.005)


@named(ROUNDED_DIAMETER)
def test_rounded_diameter_table(size_awg: int, figure: float) -> None:
    assert wire_ohms(THOUSAND_FEET_M, size_awg) == pytest.approx(figure, rel=0.006)


@named(AT_75_C)
def test_warm_wire_table(size_awg: int, figure: float) -> None:
    # Temperature coefficient 0.00393 per K (IEC 60028, from memory; it reproduces this very table).
    assert wire_ohms(THOUSAND_FEET_M, size_awg) * (1 + 0.00393 * 55) == pytest.approx(figure, rel=0.005)


@named(AREA_CIRCULAR_MILS)
def test_section(size_awg: int, figure: float) -> None:
    square_mm_per_circular_mil = 5.067075e-4
    assert wire_area_mm2(size_awg) == pytest.approx(figure * square_mm_per_circular_mil, rel=0.0005)


@pytest.mark.parametrize(
    ("feet", "size_awg", "loop_ohms", "drop_at_20_va"),
    [(50, 18, 0.639, 0.53), (100, 18, 1.277, 1.06), (100, 20, 2.030, 1.69), (200, 22, 6.456, 5.38)],
    ids=["50 ft of 18", "100 ft of 18", "100 ft of 20", "200 ft of 22"],
)
def test_loop_and_drop(feet: int, size_awg: int, loop_ohms: float, drop_at_20_va: float) -> None:
    # Calculated by hand: go and return, drop at 0.833 A.
    loop = 2 * wire_ohms(feet * 0.3048, size_awg)
    assert loop == pytest.approx(loop_ohms, rel=0.001)
    assert loop * 20 / 24 == pytest.approx(drop_at_20_va, abs=0.01)
