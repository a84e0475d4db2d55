"""The shape of an explanation: what was asked about, how it stands, the path, where it stops, and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Verdict = Literal["runs", "does-not-run", "unknown", "unsettled"]
Stop = Literal[
    "",
    "call",
    "set-up",
    "asleep",
    "safety",
    "switch",
    "coil",
    "logic",
    "timer",
    "jumper",
    "fuse",
    "cut",
    "broken",
    "no-supply",
    "no-common",
    "mains",
    "low-volts",
    "power-through",
    "coil-fault",
    "unknown",
    "unsettled",
]


@dataclass(frozen=True, slots=True)
class Step:
    """One thing on the path from hot to common.

    ``subject`` is a subject string. ``state`` is ``live``, ``whole``, ``closed``, ``open``, ``removed``, ``cut``,
    ``loose``, ``unknown`` or how the device itself stands. ``volts`` is what a meter reads across it, ``to_common``
    what it reads from the terminal reached to the common of the source; None where it cannot be said. ``reaches`` is
    the terminal or inner node behind it.
    """

    subject: str
    state: str
    reaches: str
    volts: float | None = None
    amps: float | None = None
    to_common: float | None = None


@dataclass(frozen=True, slots=True)
class Reason:
    """Why something stands as it does: the sort of it, what it is about, in words, and what lies behind it."""

    sort: Stop
    subject: str
    words: str
    behind: Explanation | None = None


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why something runs or does not.

    ``steps`` is the path of what carries most, or the one that lacks least; ``stops_at`` the index of the first step
    that does not conduct, None where all do. ``reasons`` tell why what switches stands as it does, in the order of
    the path; ``stop`` is the sort of the first that stops it. ``others`` counts further paths. ``words`` are
    sentences for people.
    """

    subject: str
    verdict: Verdict
    stop: Stop
    steps: tuple[Step, ...]
    stops_at: int | None
    reasons: tuple[Reason, ...]
    others: int
    words: tuple[str, ...]

    @property
    def root(self) -> Reason | None:
        """Return the reason at the end of the chain: what would have to change first; None where nothing stops it."""
        if not self.stop or not self.reasons:
            return None
        first = self.reasons[0]
        deeper = first.behind.root if first.behind is not None else None
        return deeper or first
