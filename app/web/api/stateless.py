"""Check, solve, read, explain and draw a job that is sent along; nothing is kept."""

from __future__ import annotations

from flask import Response

from app.checks.answers import report_document
from app.circuit.answers import reading_document, solution_document
from app.circuit.meter import read_with
from app.explain.documents import explained_document
from app.explain.explain import explain
from app.job.refusal import Refused
from app.web.drawn import drawn_svg
from app.web.operation import JSON, Answer, ApiBlueprint, Body
from app.web.question import DrawQuestion, ExplainQuestion, JobQuestion, ReadQuestion, read_question
from app.web.reply import json_reply
from app.web.shapes.answers import ReadingShape, SolutionShape
from app.web.shapes.explained import ExplainedShape
from app.web.shapes.findings import Findings

blueprint = ApiBlueprint("stateless", __name__)

SVG = "image/svg+xml"
REFUSES = (413, 415, 422)


@blueprint.operation(
    "POST",
    "/api/check",
    body=Body(JSON, (JobQuestion, "job")),
    answers={200: Answer("The findings of the layout, or of every layout.", Findings)},
    refuses=REFUSES,
)
def check_job() -> Response:
    """Say what is dangerous, wrong or missing in a job. All layouts are checked where none is named.

    Every situation is tried, so one that is given is only judged.
    """
    asked = read_question(JobQuestion)
    if asked.question.situation is not None:
        asked.situation(asked.worked.layout_meant(asked.layout))
    names = [asked.layout] if asked.layout else sorted(asked.worked.job.layouts)
    return json_reply({"layouts": {name: report_document(asked.worked.report(name)) for name in names}})


@blueprint.operation(
    "POST",
    "/api/solve",
    body=Body(JSON, (JobQuestion, "job")),
    answers={200: Answer("What the circuit does.", SolutionShape)},
    refuses=REFUSES,
)
def solve_job() -> Response:
    """Say what the circuit of a job does in a situation, once it has settled."""
    asked = read_question(JobQuestion)
    layout = asked.worked.layout_meant(asked.layout)
    situation = asked.situation(layout)
    return json_reply(solution_document(asked.worked.point(layout, situation)))


@blueprint.operation(
    "POST",
    "/api/read",
    body=Body(JSON, ReadQuestion),
    answers={200: Answer("What the meter shows.", ReadingShape)},
    refuses=REFUSES,
)
def read_terminals() -> Response:
    """Say what a meter shows between two terminals of a job."""
    asked = read_question(ReadQuestion)
    question = asked.question
    assert isinstance(question, ReadQuestion)
    layout = asked.worked.layout_meant(asked.layout)
    point = asked.worked.point(layout, asked.situation(layout))
    for member, terminal in (("a", question.a), ("b", question.b)):
        if terminal not in point.terminals:
            raise Refused(
                "unknown-terminal",
                f"There is no terminal {terminal[:80]} in the layout {layout}.",
                pointer=f"/{member}",
                would_be_right="one of " + ", ".join(point.terminals),
            )
    reading = read_with(question.meter, asked.worked.circuit(layout), point, question.a, question.b)
    return json_reply(reading_document(reading))


@blueprint.operation(
    "POST",
    "/api/explain",
    body=Body(JSON, ExplainQuestion),
    answers={200: Answer("Why it runs or does not, or what the conductor is for.", ExplainedShape)},
    refuses=REFUSES,
)
def explain_subject() -> Response:
    """Say why something of a job runs or does not, or what a conductor is for."""
    asked = read_question(ExplainQuestion)
    question = asked.question
    assert isinstance(question, ExplainQuestion)
    layout = asked.worked.layout_meant(asked.layout)
    situation = asked.situation(layout)
    try:
        explained = explain(asked.worked.circuit(layout), situation, question.subject, asked.worked.job.settings.units)
    except Refused as refused:
        refused.pointer = "/subject"
        raise
    return json_reply(explained_document(explained))


@blueprint.operation(
    "POST",
    "/api/draw",
    body=Body(JSON, (DrawQuestion, "job")),
    answers={200: Answer("The drawing.", None, SVG)},
    refuses=REFUSES,
)
def draw_job() -> Response:
    """Draw a job in one of its views. The drawing is live where a situation is given."""
    asked = read_question(DrawQuestion)
    question = asked.question
    assert isinstance(question, DrawQuestion)
    layout = asked.worked.layout_meant(asked.layout)
    return Response(drawn_svg(asked.worked, layout, question.picture, asked.situation(layout)), content_type=SVG)
