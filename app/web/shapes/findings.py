"""What a check answers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from app.checks.finding import Severity
from app.circuit.situation import Situation
from app.web.shapes.patch import PatchOperation
from app.web.shapes.shape import Shape


class EvidenceShape(BaseModel):
    """What a meter can confirm; further figures of the rule stand beside these members."""

    model_config = ConfigDict(extra="allow", frozen=True)

    probe: tuple[str, str] | None = None
    volts: float | None = None
    tolerance_volts: float | None = None
    call: str | None = None


class FindingShape(Shape):
    """One thing that a check has to say."""

    rule: str
    severity: Severity
    subjects: list[str]
    situation: Situation | None
    message: str
    why: str
    assumes: list[str]
    evidence: EvidenceShape
    fix: list[PatchOperation] | None


class CoverageShape(Shape):
    """How much of what could be asked was asked."""

    groups: int
    situations_made: int
    situations_possible: int


class AcceptedShape(Shape):
    """A finding that the records of the job speak of."""

    rule: str
    subjects: list[str]
    reason: str
    still_open: Literal[True] | None = Field(None, description="It is a danger, which is never set aside.")


class BackShape(AcceptedShape):
    """A finding that was set aside and is back."""

    why: str = Field(description="What has changed since.")


class LayoutFindings(Shape):
    """The findings of one layout; those that are set aside are among them."""

    findings: list[FindingShape]
    coverage: CoverageShape
    accepted: list[AcceptedShape] | None = None
    back: list[BackShape] | None = None


class Findings(Shape):
    """The findings of layouts, by the layout's id."""

    layouts: Mapping[str, LayoutFindings]
