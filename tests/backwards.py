"""A document in another order, for what must not depend on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

Name = TypeVar("Name")
Thing = TypeVar("Thing")


def backwards(things: Mapping[Name, Thing]) -> dict[Name, Thing]:
    """Return the same by the same names, the last first."""
    return dict(reversed(list(things.items())))
