"""What a check against the outside world is: a figure or a method of a source, how sure it is, and what we answer.

Rules of the file: an expected value is set down from the source, never from what the program said.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

Status = Literal[
    "published (seen)",
    "published (seen, secondary)",
    "published (seen), recalculated",
    "publication seen, example from memory",
    "from memory, unconfirmed",
    "common practice, no source",
    "calculated",
    "general-purpose library",
    "general-purpose simulator",
]


@dataclass(frozen=True)
class Near:
    """A number and how far ours may be from it, as a share of it or in its unit."""

    value: float
    unit: str
    relative: float = 0.0
    absolute: float = 0.0

    def holds(self, found: object) -> bool:
        """Return whether what we answer is near enough."""
        return isinstance(found, int | float) and math.isclose(
            found, self.value, rel_tol=self.relative, abs_tol=self.absolute * (1 + 1e-9)
        )

    def told(self) -> tuple[str, str]:
        """Return the figure and its tolerance as the page says them."""
        share = f"{self.relative:.2%}".replace(".00%", "%").replace("%", " %")
        return f"{self.value:g} {self.unit}".strip(), share if self.relative else f"± {self.absolute:g} {self.unit}"


@dataclass(frozen=True)
class Within:
    """A range in which ours must lie."""

    low: float
    high: float
    unit: str

    def holds(self, found: object) -> bool:
        """Return whether what we answer lies in the range."""
        return isinstance(found, int | float) and self.low <= found <= self.high

    def told(self) -> tuple[str, str]:
        """Return the range and its tolerance as the page says them."""
        return f"{self.low:g} to {self.high:g} {self.unit}", "inside"


@dataclass(frozen=True)
class Exactly:
    """A fact, said in a word."""

    value: str

    def holds(self, found: object) -> bool:
        """Return whether we say the same."""
        return found == self.value

    def told(self) -> tuple[str, str]:
        """Return the fact and its tolerance as the page says them."""
        return self.value, "exact"


@dataclass(frozen=True)
class Check:
    """One figure of a source: ``ours`` works out what the program answers. ``status`` None is that of the source."""

    what: str
    expected: Near | Within | Exactly
    ours: Callable[[], object]
    status: Status | None = None


@dataclass(frozen=True)
class Method:
    """A method of a source that a test holds against many cases: where, and within what."""

    what: str
    test: str
    tolerance: str
    status: Status | None = None


@dataclass(frozen=True)
class Otherwise:
    """A figure of a source where the program answers otherwise, and knows it: what it answers instead, and why."""

    what: str
    theirs: Near
    instead: Near | Exactly
    ours: Callable[[], object]
    why: str


@dataclass(frozen=True)
class Source:
    """A source with all that is checked against it; ``how`` says how the program comes to its answer."""

    title: str
    status: Status
    how: str
    checks: tuple[Check, ...] = ()
    methods: tuple[Method, ...] = ()
    otherwise: tuple[Otherwise, ...] = ()
    note: str = ""
