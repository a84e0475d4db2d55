"""A small wiring for the page of a kind: sound as it stands, and with one change that a rule names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from app.job.model import Layout
from app.job.sketch import sketch

Parts = Mapping[str, str | Mapping[str, Any]]


@dataclass(frozen=True)
class Sample:
    """Parts and wires that are sound. ``wrong`` puts other ends on wires by id (None leaves one out) and
    ``wrong_parts`` changes parts; ``rule`` names what then stands. ``subject`` is the part that it is about."""

    name: str
    parts: Parts
    wires: tuple[str, ...]
    fault: str
    rule: str
    wrong: Mapping[str, str | None] = field(default_factory=dict)
    wrong_parts: Parts = field(default_factory=dict)

    def good(self) -> Layout:
        """Return the sound wiring."""
        return sketch(self.parts, *(f"w{at}: {ends}" for at, ends in enumerate(self.wires, start=1)))

    def bad(self) -> Layout:
        """Return the wiring with its one change."""
        wires: dict[str, str | None] = {f"w{at}": ends for at, ends in enumerate(self.wires, start=1)}
        wires |= self.wrong
        return sketch(
            {**self.parts, **self.wrong_parts},
            *(f"{name}: {ends}" for name, ends in wires.items() if ends is not None),
        )
