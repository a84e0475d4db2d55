"""What stands after the question mark: declared as models, read strictly, refused in words."""

from __future__ import annotations

from typing import Literal, TypeVar

from flask import request
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from app.web.picture import AN_HOUR_S, Picture, ViewName
from app.web.problem import Problem

Query = TypeVar("Query", bound=BaseModel)


class LayoutQuery(BaseModel):
    """Which layout is meant."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    layout: str | None = Field(None, description="The layout; as-left, else as-found, else the only one.")


class SituationQuery(LayoutQuery):
    """A layout and a situation, in the words of the commands."""

    call: tuple[str, ...] = Field((), description="PART=CALL, such as tc=cool-1; repeatable.")
    set: tuple[str, ...] = Field((), description="PART.NAME=VALUE, such as fb.limit=open; repeatable.")
    supply: float = Field(100.0, description="Supply in percent of rated volts.", ge=0, le=200)
    outdoor: float = Field(20.0, description="Outdoor temperature in degrees Celsius.", ge=-80, le=80)
    mains: tuple[str, ...] = Field((), description="SUPPLY=off, an open disconnect, such as outdoor=off; repeatable.")
    fault: tuple[str, ...] = Field((), description="IS:AT[:OHMS], such as conductor-open:conductor:w3; repeatable.")


MOST_CHANGES = 200
LONGEST_S = 24 * 3600.0
CHANGE_WORDS = "SECONDS:CHANGE, such as 0:tc=heat-1, 30:fb.limit=open, 60:main=off or 90:tc=idle"


class SequenceQuery(SituationQuery):
    """A layout, the situation in which it has long stood, and what then happens."""

    at: tuple[str, ...] = Field((), description=f"{CHANGE_WORDS}; repeatable.", max_length=MOST_CHANGES)
    for_s: float = Field(
        AN_HOUR_S, alias="for", description="When it is cut off, in seconds.", ge=0, le=LONGEST_S, allow_inf_nan=False
    )


class TimingQuery(SequenceQuery):
    """What a timing chart shows."""

    all: Literal["yes", "no"] = Field("no", description="Whether whatever moves has a line.")


class ExplainQuery(SituationQuery):
    """What is to be explained, and in which situation."""

    subject: str = Field(
        description="part:ou, element:ou.contactor, conductor:w3, or an effect such as ou:compressor.", max_length=200
    )


class DrawingQuery(TimingQuery):
    """What is drawn, and whether with what the situation makes of it."""

    view: ViewName = Field("connection", description="The view; only a timing chart takes at.")
    live: Literal["yes", "no"] = Field("yes", description="Whether the drawing shows what is energised.")
    insides: Literal["yes", "no"] = Field("no", description="Whether it shows what is inside each part.")
    before: str | None = Field(
        None, description="The layout that a view of changes starts from; as-found, else the only other one."
    )
    begin: Literal["asked", "rest"] = Field(
        "asked",
        description="A timing chart begins where the calls have long stood, or at rest, and they are asked for at 0 s.",
    )

    @property
    def picture(self) -> Picture:
        """What is to be seen, in the words of the drawings."""
        return Picture(
            self.view,
            live=self.live == "yes",
            insides=self.insides == "yes",
            changes=self.at,
            for_s=self.for_s,
            from_rest=self.begin == "rest",
            everything=self.all == "yes",
            before=self.before,
        )


class ShownQuery(DrawingQuery):
    """What the bench looks at."""

    drawn: int | None = Field(
        None, description="The revision of which the page has the first drawing already.", ge=1, le=2**53
    )


class HistoryQuery(BaseModel):
    """Which changes, and how many at a time."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    after: int = Field(0, description="The revision after which changes are wanted.", ge=0, le=2**53)
    before: int | None = Field(None, description="The revision before which they are wanted.", ge=1, le=2**53)
    most: int | None = Field(None, description="How many at most; the newest of them are given.", ge=1, le=1000)
    editor: str | None = Field(None, description="Whose changes; everybody's where nobody is named.", max_length=64)


class BackQuery(BaseModel):
    """To where."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    to: int = Field(description="The revision that the job is to be like again.", ge=1, le=2**53)


def read_query(model: type[Query]) -> Query:
    """Return the query of the present request as ``model``.

    Raises:
        Problem: 422, a parameter is not known, is given twice, or has a value that is not allowed.
    """
    values: dict[str, object] = {}
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    for name, said in request.args.lists():
        field = fields.get(name)
        if field is None:
            raise _refusal(name, "is not known here", "one of " + ", ".join(fields))
        if isinstance(field.default, tuple):
            values[name] = tuple(said)
        elif len(said) > 1:
            raise _refusal(name, "is given more than once", "one value")
        else:
            values[name] = said[0]
    try:
        return model.model_validate(values)
    except ValidationError as error:
        first = error.errors()[0]
        raise _refusal(str(first["loc"][0]), f"has a value that is not allowed: {first['msg']}", None) from error


def _refusal(name: str, what: str, right: str | None) -> Problem:
    return Problem(
        422,
        "query-refused",
        f"The query parameter {name[:60]!r} {what}.",
        would_be_right=right,
        more={"parameter": name[:60]},
    )
