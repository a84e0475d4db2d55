"""A stretch of a path on a drawing, and the place at which a path stops."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Leg:
    """Along a conductor (``conductor:w3``) or through a part (``part:fb``), from one screw to another.

    ``end`` is empty where the conductor is landed nowhere.
    """

    on: str
    start: str
    end: str


@dataclass(frozen=True, slots=True)
class Stopped:
    """Where a path stops, ``terminal:tc.Y`` or ``end:w5.1``, and the few words for a flag: ``Y not landed``."""

    place: str
    words: str


@dataclass(frozen=True, slots=True)
class Stretch:
    """Legs one after another, and where they stop."""

    legs: tuple[Leg, ...]
    stop: Stopped
