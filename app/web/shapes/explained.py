"""Why something runs or does not, and what a conductor is for."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from app.web.shapes.answers import EffectShape
from app.web.shapes.shape import Shape


class StepShape(Shape):
    """One thing on the path from hot to common."""

    subject: str
    state: str
    reaches: str = Field(description="The terminal or inner node behind it.")
    volts: float | None = Field(description="What a meter reads across it.")
    amps: float | None
    to_common: float | None = Field(description="What a meter reads from where it reaches to common.")


class RootShape(Shape):
    """What would have to change first."""

    sort: str
    subject: str
    words: str


class ReasonShape(RootShape):
    """Why something stands as it does, and what lies behind it."""

    behind: ExplanationShape | None


class ExplanationShape(Shape):
    """Why something runs or does not: the path, where it stops, and why."""

    subject: str
    verdict: Literal["runs", "does-not-run", "unknown", "unsettled"]
    stop: str | None = Field(description="The sort of what stops it first.")
    root: RootShape | None
    steps: list[StepShape]
    stops_at: int | None = Field(description="Index of the first step that does not conduct.")
    others: int = Field(description="Further paths beside the one that is told.")
    reasons: list[ReasonShape]
    words: list[str]


class LostShape(Shape):
    """What a situation loses without a conductor, and what runs in its place."""

    situation: str
    effects: list[EffectShape]
    instead: list[EffectShape]


class PurposeShape(Shape):
    """What a conductor is for."""

    role: str
    mode: str | None
    also: list[str]
    hot_in: list[str]
    lost: list[LostShape]


class ExplainedShape(Shape):
    """A subject explained: explanations, or the purpose of a conductor; and all of it in words."""

    subject: str
    explanations: list[ExplanationShape]
    purpose: PurposeShape | None
    words: list[str]
