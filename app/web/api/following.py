"""The path of what runs or does not, as it is followed over the drawing."""

from __future__ import annotations

from typing import Literal

from flask import Response
from pydantic import ConfigDict, Field

from app.explain.following import follow
from app.web.conditional import etag
from app.web.moment import MomentQuery, point_of
from app.web.operation import Answer, ApiBlueprint
from app.web.query import read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.shape import Shape
from app.web.wording.following import followed_words
from app.web.wording.naming import Naming

blueprint = ApiBlueprint("following", __name__)

REVISION = {"ETag": "The revision that this was worked out of, in quotes."}


class FollowQuery(MomentQuery):
    """What is followed, and in which situation or at which moment of a run."""

    subject: str = Field(description="An effect such as ou:compressor, or element:ou.contactor.", max_length=200)


class LegShape(Shape):
    """Along a conductor, or through a part, from screw to screw."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)

    on: str = Field(description="conductor:w3 or part:fb.")
    start: str = Field(alias="from")
    end: str = Field(alias="to", description="Empty where the conductor is landed nowhere.")


class StopShape(Shape):
    """Where a path stops."""

    place: str = Field(description="terminal:tc.Y, or end:w5.1.")
    words: str


class FollowedShape(Shape):
    """A path as far as it goes."""

    subject: str
    verdict: Literal["runs", "does-not-run", "unknown", "unsettled"]
    title: str
    because: list[str] = Field(description="Why it does not run; the last is what would have to change first.")
    legs: list[LegShape]
    stop: StopShape | None
    steps: list[str] = Field(description="The same path in words, the place where it stops last.")


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/follow",
    query=FollowQuery,
    answers={200: Answer("The path as far as it goes.", FollowedShape, headers=REVISION)},
    refuses=(404, 422),
)
def followed(job_id: str) -> Response:
    """Follow the path of an effect or an element from hot to common, or to where it stops."""
    query = read_query(FollowQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    circuit = worked.circuit(layout)
    units = worked.job.settings.units
    found = follow(circuit, point_of(worked, layout, query), query.subject, units)
    naming = Naming(worked.job.layouts[layout], worked.catalogue, units)
    return json_reply(followed_words(naming, found), headers={"ETag": etag(revision)})
