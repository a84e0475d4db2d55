"""The role of a conductor: its name, and what else is said with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

RoleName = Literal[
    "supply",
    "common",
    "ground",
    "compressor",
    "compressor-2",
    "reversing-valve",
    "furnace-heat",
    "furnace-heat-2",
    "auxiliary-heat",
    "emergency-heat",
    "electric-heat",
    "boiler-heat",
    "defrost-output",
    "pump",
    "humidifier",
    "zone-open",
    "zone-close",
    "ventilation",
    "dehumidifier",
    "indoor-fan",
    "outdoor-fan",
    "signal",
    "sensor",
    "bus",
    "millivolt",
    "line",
    "spare",
    "unknown",
    "no-effect",
]
RANK: tuple[RoleName, ...] = (
    "compressor",
    "compressor-2",
    "reversing-valve",
    "furnace-heat",
    "furnace-heat-2",
    "emergency-heat",
    "auxiliary-heat",
    "electric-heat",
    "boiler-heat",
    "defrost-output",
    "humidifier",
    "dehumidifier",
    "ventilation",
    "pump",
    "indoor-fan",
    "outdoor-fan",
    "zone-open",
    "zone-close",
    "signal",
)
"""Which of several roles gives a conductor its name."""


@dataclass(frozen=True, slots=True)
class Role:
    """What a conductor is for.

    ``mode`` is ``heating`` or ``cooling`` for a supply of one side and for the mode in which a reversing valve is
    energised. ``hot_in`` names the situations in which it is hot: ``idle``, else calls as ``tc=cool-1``. ``also``
    are the other things that it carries.
    """

    name: RoleName
    mode: str = ""
    hot_in: tuple[str, ...] = ()
    also: tuple[RoleName, ...] = ()
