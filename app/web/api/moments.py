"""One moment of a run, as the bench shows it: the drawing, the words, and all that happens before and after."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Literal

from flask import Response
from pydantic import Field

from app.drawing.frame.one_sheet import one_sheet
from app.sequence.telling import clock_words, end_words
from app.web.conditional import etag
from app.web.drawn import drawn
from app.web.moment import MomentQuery, run_of
from app.web.operation import Answer, ApiBlueprint
from app.web.picture import Picture
from app.web.query import read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.shape import Shape
from app.web.wording.calls import call_words
from app.web.wording.happened import happened
from app.web.wording.naming import Naming
from app.web.words import words_of

blueprint = ApiBlueprint("moments", __name__)

REVISION = {"ETag": "The revision that this was worked out of, in quotes."}


class MomentDrawnQuery(MomentQuery):
    """A moment, and how it is drawn."""

    view: Literal["connection", "ladder"] = Field("connection", description="The view.")
    insides: Literal["yes", "no"] = Field("no", description="Whether it shows what is inside each part.")


class HappenedShape(Shape):
    """One thing that happens in a run."""

    at_s: float
    words: str


class MomentShape(Shape):
    """A moment of a run."""

    revision: int
    view: str
    drawing: str = Field(description="The drawing of the layout at that moment as SVG.")
    words: Mapping[str, Any] = Field(description="What the page shows in words.")
    at_s: float
    clock: str = Field(description="The time as minutes and seconds.")
    events: list[HappenedShape] = Field(description="All that happens in the run and is worth telling.")
    ends: str = Field(description="How the run ends.")


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/moment",
    query=MomentDrawnQuery,
    answers={200: Answer("The moment.", MomentShape, headers=REVISION)},
    refuses=(404, 422),
)
def moment(job_id: str) -> Response:
    """Show a kept job at one moment of a run through changes and all that follows from them."""
    query = read_query(MomentDrawnQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    run, situation = run_of(worked, layout, query), worked.situation(layout, query)
    at_s = query.time or 0.0
    point, naming = run.point_at(at_s), Naming(worked.job.layouts[layout], worked.catalogue, worked.job.settings.units)
    words = words_of(worked.job, layout, worked.catalogue, worked.report(layout), point)
    # What is asked for in the strip is what the run is about, whatever is asked for at this moment.
    words |= {"calls": call_words(naming, replace(point, situation=situation))}
    picture = Picture(query.view, insides=query.insides == "yes")
    said = {
        "revision": revision,
        "view": query.view,
        "drawing": one_sheet(*drawn(worked, layout, picture, point.situation, point)),
        "words": words,
        "at_s": at_s,
        "clock": clock_words(at_s),
        "events": happened(run, worked.circuit(layout), naming),
        "ends": end_words(run),
    }
    return json_reply(said, headers={"ETag": etag(revision)})
