"""Length and gauge of a run in the units of the job."""

from __future__ import annotations

from app.tables.figures import METRES_PER_FOOT


def length_words(length_m: float | None, size_awg: int | None, units: str) -> str:
    """Return ``46 ft, 18 AWG`` or ``14 m, 18 AWG``; what is not known is left out."""
    said = []
    if length_m is not None:
        said.append(f"{in_units(length_m, units):g} {unit_of(units)}")
    if size_awg is not None:
        said.append(f"{size_awg} AWG")
    return ", ".join(said)


def in_units(length_m: float, units: str) -> float:
    """Return a length as it is shown, to a tenth."""
    return round(length_m / METRES_PER_FOOT if units == "us" else length_m, 1)


def unit_of(units: str) -> str:
    """Return the unit in which lengths are shown."""
    return "ft" if units == "us" else "m"
