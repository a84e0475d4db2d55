"""A change as it is sent (RFC 6902)."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict


class PatchOperation(BaseModel):
    """One operation of a JSON Patch (RFC 6902)."""

    model_config = ConfigDict(extra="allow", frozen=True)

    op: Literal["add", "remove", "replace", "move", "copy", "test"]
    path: str
    value: Any = None


class Patch(BaseModel):
    """A change: up to 500 operations, applied whole or not at all."""

    operations: list[PatchOperation]
