"""The words in which the wiring is said: joins, devices, sources.

A node is ``part.NODE``, a terminal or an inner node of a part.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from app.catalogue.kind import Element, Source

JoinSort = Literal["conductor", "trace", "fuse", "jumper", "contact"]


EARTH = "earth"
"""The node on which everything grounded lies; it belongs to no part."""


@dataclass(frozen=True, slots=True)
class Join:
    """Something of next to no resistance between two nodes. ``by`` is its subject string; ``inner`` its element."""

    a: str
    b: str
    by: str
    sort: JoinSort
    part: str = ""
    inner: str = ""


def new_join(a: str, b: str) -> Join:
    """Return the join that a conductor would make that is not there yet."""
    return Join(a, b, "conductor:", "conductor")


@dataclass(frozen=True, slots=True)
class Device:
    """A coil, load or input: something that does its work when there are volts across it."""

    name: str
    part: str
    inner: str
    a: str
    b: str
    element: Element


@dataclass(frozen=True, slots=True)
class Winding:
    """A source: its hot and its common node."""

    name: str
    part: str
    hot: str
    common: str
    element: Source
