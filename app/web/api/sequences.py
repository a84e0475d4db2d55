"""Sequences: what happens one thing after another in a kept job or one that is sent along, as events and as a chart."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from flask import Response

from app.circuit.network import Circuit
from app.circuit.situation import Situation
from app.drawing.timing.diagram import draw_timing
from app.job.refusal import Refused
from app.sequence.change_text import read_changes
from app.sequence.document import run_document
from app.sequence.run import Run, run_sequence
from app.web.conditional import etag
from app.web.operation import JSON, Answer, ApiBlueprint, Body
from app.web.query import SequenceQuery, TimingQuery, read_query
from app.web.question import SequenceQuestion, read_question
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.answers import SequenceShape
from app.web.worked import Worked

blueprint = ApiBlueprint("sequences", __name__)

SVG = "image/svg+xml"
REVISION = {"ETag": "The revision that this was worked out of, in quotes."}


@blueprint.operation(
    "POST",
    "/api/sequence",
    body=Body(JSON, (SequenceQuestion, "job")),
    answers={200: Answer("What happens, each event with what moved it.", SequenceShape)},
    refuses=(413, 415, 422),
)
def sequence_of_job() -> Response:
    """Say what happens in a job one thing after another, through changes and all that follows from them."""
    asked = read_question(SequenceQuestion)
    question = asked.question
    assert isinstance(question, SequenceQuestion)
    layout = asked.worked.layout_meant(asked.layout)
    situation = asked.situation(layout)
    return json_reply(run_document(_run(asked.worked, layout, question.changes, question.for_s, situation, "/changes")))


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/sequence",
    query=SequenceQuery,
    answers={200: Answer("What happens, each event with what moved it.", SequenceShape, headers=REVISION)},
    refuses=(404, 422),
)
def sequence(job_id: str) -> Response:
    """Say what happens in a kept job one thing after another, through changes and all that follows from them."""
    query = read_query(SequenceQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    run = _run(worked, layout, query.at, query.for_s, worked.situation(layout, query))
    return json_reply(run_document(run), headers={"ETag": etag(revision)})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/timing.svg",
    query=TimingQuery,
    answers={200: Answer("The timing chart.", None, SVG, headers=REVISION)},
    refuses=(404, 422),
)
def timing(job_id: str) -> Response:
    """Draw what happens in a kept job as a timing chart."""
    query = read_query(TimingQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    run = _run(worked, layout, query.at, query.for_s, worked.situation(layout, query))
    everything = query.all == "yes"
    drawn = draw_timing(worked.job, layout, worked.catalogue, run, everything=everything, dated=worked.dated)
    return Response(drawn, content_type=SVG, headers={"ETag": etag(revision)})


def _run(
    worked: Worked, layout: str, texts: Sequence[str], for_s: float, start: Situation, place: str | None = None
) -> Run:
    """Return the run through changes said in words; ``place`` is where they stand in what was sent.

    Raises:
        Refused: a change cannot be read, does not fit the layout, or comes after the end.
    """
    circuit = worked.circuit(layout)
    try:
        changes = read_changes(texts, circuit.layout, worked.catalogue, start)
        return run_sequence(circuit, changes, for_s, start)
    except Refused as refused:
        if place is not None:
            refused.pointer = f"{place}/{_refused_at(texts, circuit, for_s, start)}"
        raise


def _refused_at(texts: Sequence[str], circuit: Circuit, for_s: float, start: Situation) -> int:
    """Return the place of the change with which it begins that a list is refused."""

    def is_refused(count: int) -> bool:
        try:
            changes = read_changes(texts[:count], circuit.layout, circuit.catalogue, start)
        except Refused:
            return True
        return any(change.at_s > for_s for change in changes)

    # What is wrong with a list does not become right by more of it, so that halving finds where it begins.
    return bisect_left(range(1, len(texts)), True, key=is_refused)
