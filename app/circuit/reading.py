"""What a meter shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Meter = Literal["ideal", "high", "low", "ohms"]
METERS: tuple[Meter, ...] = get_args(Meter)
"""Draws nothing; a usual digital meter; one with a low input resistance; resistance with the power off."""


@dataclass(frozen=True, slots=True)
class Reading:
    """Exactly one of four holds: ``volts`` (RMS), ``ohms``, ``floating``, or ``unknown`` with why.

    ``floating`` with an ohmmeter means that no path joins the two. ``why`` may also stand beside figures that a
    person could misread, such as volts that only come through the insulation of a cable. ``between_ohms`` gives the
    least and the most where a resistance is known only roughly; ``ohms`` is then None and ``unknown`` holds.
    """

    volts: float | None = None
    ohms: float | None = None
    floating: bool = False
    unknown: bool = False
    why: str = ""
    between_ohms: tuple[float, float] | None = None
