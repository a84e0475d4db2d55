"""What every shape is made of, and how a refusal looks (RFC 9457)."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field


class Shape(BaseModel):
    """A JSON object with these members and no others."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class AnyObject(BaseModel):
    """A JSON object whose members are described elsewhere."""

    model_config = ConfigDict(extra="allow", frozen=True)


class ProblemShape(BaseModel):
    """Why a request was refused (RFC 9457)."""

    model_config = ConfigDict(extra="allow", frozen=True)

    type: str
    title: str
    status: int
    code: str = Field(description="Stable name of the reason.")
    detail: str = Field(description="What is wrong, in a sentence.")
    pointer: str | None = Field(None, description="JSON Pointer into what was sent, or into the job it would make.")
    would_be_right: str | None = Field(None, description="What would be accepted instead.")
