"""A situation: calls, switch positions, supply, outdoor temperature, mains, injected faults."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import Field

from app.catalogue.kind import CallName, Choice
from app.job.model import Frozen

FaultName = Literal[
    "conductor-open",
    "joint-ohms",
    "short",
    "to-ground",
    "swapped",
    "coil-open",
    "coil-shorted",
    "contact-welded",
    "contact-dead",
    "fuse-open",
    "source-dead",
    "wrong-setting",
]


class Fault(Frozen):
    """Something broken. ``at`` is a subject string such as ``conductor:w3``, or a pair of them for a short."""

    is_: FaultName = Field(alias="is")
    at: str | tuple[str, str]
    ohms: Annotated[float, Field(ge=0)] | None = None


class Situation(Frozen):
    """What is asked of the circuit.

    ``calls`` gives for each control what it asks for (no entry: idle). ``set`` gives positions by ``part.name`` and
    goes before what the layout says. ``mains`` gives ``on`` or ``off`` by supply; a supply that is not named is on.
    """

    calls: Mapping[str, tuple[CallName, ...]] = Field(default_factory=dict)
    set: Mapping[str, Choice] = Field(default_factory=dict)
    supply_percent: Annotated[float, Field(ge=0, le=200)] = 100.0
    outdoor_c: Annotated[float, Field(ge=-80, le=80)] = 20.0
    mains: Mapping[str, Literal["on", "off"]] = Field(default_factory=dict)
    faults: tuple[Fault, ...] = ()
