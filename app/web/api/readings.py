"""What a meter should read between two screws of a kept job, in the situation that is looked at."""

from __future__ import annotations

from flask import Response
from pydantic import Field

from app.circuit.answers import reading_document
from app.circuit.meter import read_with
from app.circuit.reading import Meter
from app.web.conditional import etag
from app.web.moment import MomentQuery, point_of
from app.web.operation import Answer, ApiBlueprint
from app.web.query import read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.answers import ReadingShape
from app.web.shapes.shape import Shape
from app.web.wording.reading import reading_words

blueprint = ApiBlueprint("readings", __name__)

REVISION = {"ETag": "The revision that this was worked out of, in quotes."}


class ReadQuery(MomentQuery):
    """Where the meter is held, and in which situation or at which moment of a run."""

    a: str = Field(description="The first terminal, such as fb.R.", max_length=80)
    b: str = Field(description="The second terminal, such as fb.C.", max_length=80)
    meter: Meter = Field("ideal", description="Draws nothing; 10 MΩ; 3 kΩ; resistance with the power off.")


class ReadShape(Shape):
    """A reading, and how a person would say it."""

    reading: ReadingShape
    words: str


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/read",
    query=ReadQuery,
    answers={200: Answer("What the meter should read.", ReadShape, headers=REVISION)},
    refuses=(404, 422),
)
def read(job_id: str) -> Response:
    """Say what a meter should read between two terminals of a kept job; ohms are refused while a source is live."""
    query = read_query(ReadQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    point = point_of(worked, layout, query)
    found = read_with(query.meter, worked.circuit(layout), point, query.a, query.b)
    said = {"reading": reading_document(found), "words": reading_words(query.meter, found)}
    return json_reply(said, headers={"ETag": etag(revision)})
