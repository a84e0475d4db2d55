"""Temperatures in words. A job holds them in °C; they are told in °F where it measures in feet."""

from __future__ import annotations

from typing import Literal

Units = Literal["us", "si"]
CELSIUS = "°C"
"""The unit of a setting that is a temperature, in a kind and in a job."""


def temperature_words(celsius: float, units: Units) -> str:
    """Return ``23 °F`` in a job that measures in feet, else ``-5 °C``; to a tenth."""
    degrees = celsius * 9 / 5 + 32 if units == "us" else celsius
    # Zero has no sign: what is a little below it would be told as -0.
    return f"{round(degrees, 1) + 0.0:g} {unit_of_temperature(units)}"


def unit_of_temperature(units: Units) -> str:
    """Return the unit in which temperatures are told."""
    return "°F" if units == "us" else CELSIUS
