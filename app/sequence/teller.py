"""Collects the events of a run: what everything shows now, and what was told of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from app.sequence.event import UNEXPLAINED, Event


@dataclass(slots=True, eq=False)
class Teller:
    """``shown`` gives for each subject string what it is now; what stays as it is, is not told again.

    ``last`` gives for each network, by number, the subject of its last event at this instant.
    """

    shown: dict[str, str] = field(default_factory=dict)
    events: list[Event] = field(default_factory=list)
    last: dict[int, str] = field(default_factory=dict)
    order: dict[str, int] = field(default_factory=dict)
    """The subjects told at this instant, and the place of each in their order."""
    now_s: float = 0.0

    def begin(self, at_ms: int) -> None:
        """Begin an instant."""
        self.now_s = at_ms / 1000
        self.last.clear()
        self.order.clear()

    def show(self, what: str, now: str) -> None:
        """Note what something is at the beginning, of which nothing is told."""
        self.shown[what] = now

    def tell(self, network: int, what: str, now: str, cause: str | None) -> None:
        """Tell that something has become something else."""
        if self.shown.get(what) == now:
            return
        self.shown[what] = now
        self.events.append(Event(self.now_s, what, now, cause or self.last.get(network) or UNEXPLAINED))
        self.last[network] = what
        self.order[what] = len(self.events)

    def latest(self, subjects: Iterable[str]) -> str | None:
        """Return which of some subjects was told last at this instant."""
        told = [what for what in subjects if what in self.order]
        return max(told, key=lambda what: self.order[what], default=None)
