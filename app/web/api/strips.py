"""A strip of screws typed in one line, worked out as one change; nothing is kept here."""

from __future__ import annotations

from dataclasses import asdict

from flask import Response

from app.job.strict_json import parse_json
from app.tables.strip import AN_ITEM, strip_at
from app.web.body import read_json_body
from app.web.operation import JSON, Answer, ApiBlueprint, Body
from app.web.problem import Problem
from app.web.question import shaped
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.landings import StripQuestion, StripShape
from app.web.wording.cables import strip_sentence
from app.web.wording.naming import Naming

blueprint = ApiBlueprint("strips", __name__)

MOST_QUESTION_BYTES = 8192


@blueprint.operation(
    "POST",
    "/api/jobs/<job_id>/strips",
    body=Body(JSON, StripQuestion),
    answers={200: Answer("The change that the strip comes to, empty where it stands so already.", StripShape)},
    refuses=(404, 413, 415, 422),
)
def strip(job_id: str) -> Response:
    """Work out what a strip of screws such as R=RD C=BU changes at one end of a cable.

    Where items cannot be taken, the problem lists each under items: which, what is wrong, what would be right.
    """
    said = parse_json(read_json_body(MOST_QUESTION_BYTES, "question"), MOST_QUESTION_BYTES, "question")
    question = shaped(StripQuestion, said)
    _, worked = service().worked(job_id)
    name = worked.layout_meant(question.layout)
    layout = worked.job.layouts[name]
    meant = strip_at(layout, worked.catalogue, question.cable, question.side, question.part)
    found = meant.change(name, question.text)
    if found.wrong:
        raise Problem(
            422,
            "strip-refused",
            f"{len(found.wrong)} of the items cannot be taken. Nothing was changed.",
            would_be_right=AN_ITEM,
            pointer="/text",
            more={"items": [asdict(one) for one in found.wrong]},
        )
    naming = Naming(layout, worked.catalogue, worked.job.settings.units)
    spoken = strip_sentence(naming, found.moved)
    step = f"land the strip of {naming.inner_part(question.part)}"
    return json_reply({"operations": list(found.operations), "step": step, "spoken": spoken})
