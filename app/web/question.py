"""The question of the calls that keep nothing: a job, or a job with a layout, a situation and a view."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from app.catalogue.opening import Opened
from app.catalogue.structure import catalogue_for
from app.circuit.reading import Meter
from app.circuit.situation import Situation
from app.job.json_values import MOST_BYTES
from app.job.names import pointer
from app.job.reading import job_from_document
from app.job.refusal import Refused
from app.job.strict_json import parse_json
from app.web.body import read_json_body
from app.web.picture import AN_HOUR_S, Picture, ViewName
from app.web.query import CHANGE_WORDS, LONGEST_S, MOST_CHANGES
from app.web.worked import Worked

Shape = TypeVar("Shape", bound=BaseModel)


class JobQuestion(BaseModel):
    """A job and what is asked of it."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    job: Mapping[str, Any] = Field(description="The job document, see /api/schema/job.json.")
    layout: str | None = Field(None, description="The layout; as-left, else as-found, else the only one.")
    situation: Situation | None = None
    view: ViewName = "connection"


class ReadQuestion(JobQuestion):
    """A job and two terminals between which a meter is held."""

    a: str = Field(description="The first terminal, such as fb.R.")
    b: str = Field(description="The second terminal, such as fb.C.")
    meter: Meter = Field("ideal", description="Draws nothing; 10 MΩ; 3 kΩ; resistance with the power off.")


class ExplainQuestion(JobQuestion):
    """A job and what is to be explained."""

    subject: str = Field(
        description="part:ou, element:ou.contactor, conductor:w3, or an effect such as ou:compressor.", max_length=200
    )


class SequenceQuestion(JobQuestion):
    """A job and what happens in it; the situation is that in which it has long stood."""

    changes: tuple[Annotated[str, Field(max_length=200)], ...] = Field(
        (), description=f"{CHANGE_WORDS}.", max_length=MOST_CHANGES
    )
    for_s: float = Field(
        AN_HOUR_S, description="When it is cut off, in seconds.", ge=0, le=LONGEST_S, allow_inf_nan=False
    )


class DrawQuestion(SequenceQuestion):
    """A job and how it is to be drawn; without a situation the drawing shows the wiring alone.

    Only a timing chart takes changes.
    """

    dated: str = Field("", max_length=40, description="The date for the title block.")
    insides: bool = Field(False, description="Whether it shows what is inside each part.")
    before: str | None = Field(
        None, description="The layout that a view of changes starts from; as-found, else the only other one."
    )

    @property
    def picture(self) -> Picture:
        """What is to be seen, in the words of the drawings."""
        live = self.situation is not None
        return Picture(
            self.view,
            live=live,
            insides=self.insides,
            changes=self.changes,
            for_s=self.for_s,
            before=self.before,
        )


@dataclass(frozen=True)
class Asked:
    """What was asked: the opened job, and the rest of the question."""

    worked: Worked
    layout: str | None
    question: JobQuestion

    def situation(self, layout: str) -> Situation:
        """Return the situation of the question.

        Raises:
            Refused: it names what the layout does not have; the pointer leads into what was sent.
        """
        situation = self.question.situation or Situation()
        try:
            self.worked.check_situation(layout, situation)
        except Refused as refused:
            if not (refused.pointer or "").startswith("/situation"):
                refused.pointer = "/situation" + (refused.pointer or "")
            raise
        return situation


def read_question(model: type[JobQuestion]) -> Asked:
    """Return the question of the present request; a job document alone is the question with nothing else said.

    Raises:
        Refused, Problem: it cannot be read, or the job is refused; pointers lead into what was sent.
    """
    said = parse_json(read_json_body(MOST_BYTES, "question"), MOST_BYTES, "question")
    if not isinstance(said, dict):
        raise Refused(
            "not-a-question", "The question is no object.", pointer="", would_be_right='{"job": …} or a job document'
        )
    if "format" in said and "job" not in said:
        question, inside = shaped(model, {"job": said}), ""
    else:
        question, inside = shaped(model, said), "/job"
    try:
        job = job_from_document(question.job)
        worked = Worked(Opened(job, catalogue_for(job)), getattr(question, "dated", ""))
        layout = question.layout and worked.layout_meant(question.layout)
    except Refused as refused:
        refused.pointer = inside + (refused.pointer or "")
        raise
    return Asked(worked, layout, question)


def shaped(model: type[Shape], said: object) -> Shape:
    """Return what was said as ``model``.

    Raises:
        Refused: it does not have that shape; the first thing that is wrong is told.
    """
    try:
        return model.model_validate(said)
    except ValidationError as error:
        raise _told(error, model) from None


def _told(error: ValidationError, model: type[BaseModel]) -> Refused:
    first = error.errors(include_url=False)[0]
    names = ", ".join(field.alias or name for name, field in model.model_fields.items())
    outside = len(first["loc"]) <= 1
    return Refused(
        "bad-shape",
        f"This does not have the shape that is asked for: {first['msg']}.",
        pointer=pointer(*first["loc"]),
        would_be_right=f"an object with {names}" if outside else None,
    )
