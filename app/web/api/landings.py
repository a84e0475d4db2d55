"""Landing advice: what landing an end on each terminal would do, in one batch."""

from __future__ import annotations

from dataclasses import asdict

from flask import Response

from app.checks.advice import landing_advice
from app.job.refusal import Refused
from app.job.strict_json import parse_json
from app.web.body import read_json_body
from app.web.operation import JSON, Answer, ApiBlueprint, Body
from app.web.question import shaped
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.landings import LandingQuestion, Landings

blueprint = ApiBlueprint("landings", __name__)

MOST_QUESTION_BYTES = 4096


@blueprint.operation(
    "POST",
    "/api/jobs/<job_id>/landings",
    body=Body(JSON, LandingQuestion),
    answers={200: Answer("The verdict for every terminal.", Landings)},
    refuses=(404, 413, 415, 422),
)
def advise(job_id: str) -> Response:
    """Say for every terminal what landing there would do. Either the end of a conductor, or a terminal to start from.

    Advice never forbids: a danger can be landed and is then a finding.
    """
    said = parse_json(read_json_body(MOST_QUESTION_BYTES, "question"), MOST_QUESTION_BYTES, "question")
    question = shaped(LandingQuestion, said)
    _refuse_half_said(question)
    _, worked = service().worked(job_id)
    layout = worked.layout_meant(question.layout)
    try:
        advice = landing_advice(
            worked.job,
            layout,
            worked.catalogue,
            conductor=question.conductor,
            end=question.end,
            start=question.start,
        )
    except Refused as refused:
        refused.pointer = "/start" if question.conductor is None else "/conductor"
        raise
    return json_reply({terminal: asdict(one) for terminal, one in advice.items()})


def _refuse_half_said(question: LandingQuestion) -> None:
    """Refuse a question that says neither or both of a conductor's end and a terminal to start from."""
    moves = question.conductor is not None and question.end is not None
    starts = question.conductor is None and question.end is None
    if (question.start is None and moves) or (question.start is not None and starts):
        return
    raise Refused(
        "landing-half-said",
        "It is not clear what is to be landed.",
        pointer="",
        would_be_right='"conductor" and "end" (0 or 1) for an end that moves, or "start" alone for a new conductor',
    )
