"""The shapes of what the API answers and reads, for its own description and for whoever writes a client.

Rules of the file: the answers are made by their rooms (``app.circuit.answers``, ``app.checks.answers``); here only
their shape is declared. The tests hold every real answer against it, so a shape that lies is found.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from app.checks.finding import Severity
from app.circuit.situation import Situation


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


class PatchOperation(BaseModel):
    """One operation of a JSON Patch (RFC 6902)."""

    model_config = ConfigDict(extra="allow", frozen=True)

    op: Literal["add", "remove", "replace", "move", "copy", "test"]
    path: str
    value: Any = None


class Patch(BaseModel):
    """A change: up to 500 operations, applied whole or not at all."""

    operations: list[PatchOperation]


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


class Health(Shape):
    """That the server answers and its database too."""

    status: Literal["ok"]
    version: str
