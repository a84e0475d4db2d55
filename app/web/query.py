"""What stands after the question mark: declared as models, read strictly, refused in words."""

from __future__ import annotations

from typing import Literal, TypeVar

from flask import request
from pydantic import BaseModel, ConfigDict, Field, ValidationError

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
    fault: tuple[str, ...] = Field((), description="IS:AT[:OHMS], such as conductor-open:conductor:w3; repeatable.")


class ExplainQuery(SituationQuery):
    """What is to be explained, and in which situation."""

    subject: str = Field(
        description="part:ou, element:ou.contactor, conductor:w3, or an effect such as ou:compressor.", max_length=200
    )


class DrawingQuery(SituationQuery):
    """What is drawn, and whether with what the situation makes of it."""

    view: Literal["connection"] = Field("connection", description="The view.")
    live: Literal["yes", "no"] = Field("yes", description="Whether the drawing shows what is energised.")


class HistoryQuery(BaseModel):
    """Since when."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    after: int = Field(0, description="The revision after which changes are wanted.", ge=0, le=2**53)


def read_query(model: type[Query]) -> Query:
    """Return the query of the present request as ``model``.

    Raises:
        Problem: 422, a parameter is not known, is given twice, or has a value that is not allowed.
    """
    values: dict[str, object] = {}
    for name, said in request.args.lists():
        field = model.model_fields.get(name)
        if field is None:
            raise _refusal(name, "is not known here", "one of " + ", ".join(model.model_fields))
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
