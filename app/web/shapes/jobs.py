"""Jobs that are kept: how they are changed, listed and made."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from app.web.shapes.answers import SolutionShape
from app.web.shapes.findings import FindingShape
from app.web.shapes.patch import PatchOperation
from app.web.shapes.shape import Shape


class Change(Shape):
    """One change of the log."""

    revision: int = Field(description="The revision that this change made.")
    patch: list[PatchOperation]
    inverse: list[PatchOperation]
    editor: str
    step: str
    gesture: str
    does: Literal["do", "undo", "redo"]
    at: str = Field(description="When, in UTC, ISO 8601.")


class History(Shape):
    """The changes that were asked for, oldest first."""

    revision: int = Field(description="The newest revision of the job.")
    changes: list[Change]
    earlier: int | None = Field(description="What to give as `before` for those before them, if any.")


class WayBack(Shape):
    """What would make a job again what it was."""

    revision: int = Field(description="The revision on which the change is to be made.")
    patch: list[PatchOperation]


class PatchReply(Shape):
    """What a change has done."""

    revision: int
    inverse: list[PatchOperation]
    findings: list[FindingShape]
    solution: SolutionShape | None = Field(description="None where the job has no layout that is meant.")
    view: str = Field(description="The view that is drawn.")
    drawing: str | None = Field(description="The drawing of the layout as SVG.")
    words: Mapping[str, Any] = Field(description="What the page shows in words.")


class JobSummary(Shape):
    """One line of the list of jobs."""

    id: str
    title: str
    revision: int
    updated_at: str


class JobList(Shape):
    """The jobs of this server, the last changed first."""

    jobs: list[JobSummary]


class Created(Shape):
    """A job that was made."""

    id: str
    revision: int


class DemoSummary(Shape):
    """A demo job, ready to open as a copy of one's own."""

    name: str
    title: str
    summary: str


class DemoList(Shape):
    """The demo jobs in the order of their names."""

    demos: list[DemoSummary]


class Health(Shape):
    """That the server answers and its database too."""

    status: Literal["ok"]
    version: str
