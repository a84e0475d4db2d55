"""What may happen from outside during a run: each change says what it makes of the situation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from app.catalogue.kind import CallName, Choice
from app.circuit.situation import Fault, Situation


@dataclass(frozen=True, slots=True)
class Change:
    """Something that happens at a time, in seconds from the beginning of the run. ``words`` name it in causes.

    ``calls`` gives for a control all that it asks for from now on, nothing for idle. What is not named stays.
    """

    at_s: float
    words: str
    calls: Mapping[str, tuple[CallName, ...]] = field(default_factory=dict)
    set: Mapping[str, Choice] = field(default_factory=dict)
    mains: Mapping[str, Literal["on", "off"]] = field(default_factory=dict)
    supply_percent: float | None = None
    outdoor_c: float | None = None
    faults: tuple[Fault, ...] = ()

    def made_to(self, situation: Situation) -> Situation:
        """Return the situation after this change."""
        calls = {part: names for part, names in {**situation.calls, **self.calls}.items() if names}
        supply = situation.supply_percent if self.supply_percent is None else self.supply_percent
        outdoor = situation.outdoor_c if self.outdoor_c is None else self.outdoor_c
        return situation.model_copy(
            update={
                "calls": calls,
                "set": {**situation.set, **self.set},
                "mains": {**situation.mains, **self.mains},
                "supply_percent": supply,
                "outdoor_c": outdoor,
                "faults": (*situation.faults, *(fault for fault in self.faults if fault not in situation.faults)),
            }
        )


@dataclass(frozen=True, slots=True)
class News:
    """The changes of one instant, to find the one that moved something; without any there is nothing to find."""

    changes: tuple[Change, ...] = ()

    def any(self) -> str | None:
        """Return the words of the last change."""
        return self.changes[-1].words if self.changes else None

    def call(self, part: str) -> str | None:
        """Return the words of the change that concerns the calls of a part."""
        return self._last(change.words for change in self.changes if part in change.calls)

    def set(self, name: str) -> str | None:
        """Return the words of the change that concerns a switch, jumper or setting (``part.name``)."""
        return self._last(change.words for change in self.changes if name in change.set)

    def mains(self, name: str) -> str | None:
        """Return the words of the change that concerns a supply."""
        return self._last(change.words for change in self.changes if name in change.mains)

    def outdoor(self) -> str | None:
        """Return the words of the change of the outdoor temperature."""
        return self._last(change.words for change in self.changes if change.outdoor_c is not None)

    def trouble(self) -> str | None:
        """Return the words of the change that concerns the supply or brings a fault."""
        return self._last(c.words for c in self.changes if c.faults or c.supply_percent is not None)

    @staticmethod
    def _last(words: Iterable[str]) -> str | None:
        found = tuple(words)
        return found[-1] if found else None
