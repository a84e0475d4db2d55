"""What the circuit does, at rest, in time and on a meter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from app.web.shapes.shape import Shape


class TerminalShape(Shape):
    """What stands at a terminal: volts against a reference, or floating, or unknown and why."""

    volts: float | None = None
    angle_deg: float | None = None
    reference: str | None = None
    floating: Literal[True] | None = None
    unknown: Literal[True] | None = None
    why: str | None = None


class ElementShape(Shape):
    """What an element does."""

    volts: float | None
    amps: float | None
    state: str


class SourceShape(Shape):
    """What a source gives."""

    va: float | None
    amps: float | None


class ConductorShape(Shape):
    """What a conductor carries, and toward which of its ends power flows."""

    amps: float | None
    toward: Literal[0, 1] | None


class EffectShape(Shape):
    """Something that the equipment now does."""

    part: str
    effect: str


class UnsettledShape(Shape):
    """Why there is no single operating point."""

    why: Literal["race", "chatter", "undecided"]
    elements: list[str]
    period: int
    outcomes: Mapping[str, list[str]]


class SolutionShape(Shape):
    """What the circuit does in a situation."""

    settled: bool
    unsettled: UnsettledShape | None
    terminals: Mapping[str, TerminalShape]
    elements: Mapping[str, ElementShape]
    sources: Mapping[str, SourceShape]
    conductors: Mapping[str, ConductorShape]
    effects: list[EffectShape]
    blown: Mapping[str, float] = Field(description="Amps of each fuse before it opened.")
    effects_in_doubt: list[EffectShape] = Field(description="What may run, depending on what is unknown.")


class EventShape(Shape):
    """One thing that moved at an instant, and what moved it."""

    at_s: float
    what: str = Field(description="Subject: element:ou.contactor, state:fb.inducer or effect:ou:compressor.")
    now: str = Field(description="What it has become.")
    cause: str = Field(description="change:…, timer:part.state, or the subject of an earlier event of the instant.")


class UnsettledAt(UnsettledShape):
    """An instant without a settled state."""

    at_s: float


class SequenceShape(Shape):
    """What happens one thing after another; times are in seconds and not rounded."""

    events: list[EventShape]
    ends: Literal["settled", "cycles", "cut off"]
    until_s: float
    period_s: float | None = Field(description="Of what comes back without end; 0 where it chatters.")
    unsettled: list[UnsettledAt]
    assumes: list[str]


class ReadingShape(Shape):
    """What a meter shows between two terminals."""

    volts: float | None = None
    ohms: float | None = None
    floating: Literal[True] | None = Field(None, description="Nothing joins the two; with ohms: no path.")
    unknown: Literal[True] | None = None
    why: str | None = None
    between_ohms: tuple[float, float] | None = Field(None, description="Least and most, where only roughly known.")
