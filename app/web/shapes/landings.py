"""Advice before a landing, and a strip that is typed at once."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from app.web.shapes.patch import PatchOperation
from app.web.shapes.shape import Shape


class LandingQuestion(Shape):
    """Where could this end land, or where could a new conductor from ``start`` go?"""

    layout: str | None = None
    conductor: str | None = None
    end: Annotated[int, Field(ge=0, le=1, strict=True)] | None = None
    start: str | None = None


class AdviceShape(Shape):
    """What landing on a terminal would do."""

    verdict: Literal["fine", "odd", "danger"]
    why: str


class Landings(BaseModel):
    """The advice for every terminal of the layout."""

    model_config = ConfigDict(extra="allow", frozen=True)

    __pydantic_extra__: dict[str, AdviceShape]


class StripQuestion(Shape):
    """A strip of screws of one part, typed in one line, at one side of a cable."""

    layout: str | None = None
    cable: str
    side: Annotated[int, Field(ge=0, le=1, strict=True)] = Field(
        description="Which end of conductors that are landed nowhere is meant."
    )
    part: str
    text: str = Field(
        description="Items such as R=RD, C=BU, -=BN (landed nowhere), ?=BK (not looked at).", max_length=4000
    )


class StripShape(Shape):
    """What a strip comes to, as one change."""

    operations: list[PatchOperation]
    step: str = Field(description="The change in words, for the log.")
    spoken: str = Field(description="What it does, in a sentence.")
