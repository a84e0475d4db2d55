"""What is worked out of a kept job: findings, solution, reasons, drawing."""

from __future__ import annotations

from flask import Response

from app.checks.answers import report_document
from app.circuit.answers import solution_document
from app.explain.documents import explained_document
from app.explain.explain import explain
from app.web.conditional import etag
from app.web.drawn import drawn_svg
from app.web.operation import Answer, ApiBlueprint
from app.web.query import DrawingQuery, ExplainQuery, LayoutQuery, SituationQuery, read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.answers import SolutionShape
from app.web.shapes.explained import ExplainedShape
from app.web.shapes.findings import Findings

blueprint = ApiBlueprint("views", __name__)

SVG = "image/svg+xml"
REVISION = {"ETag": "The revision that this was worked out of, in quotes."}


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/findings",
    query=LayoutQuery,
    answers={200: Answer("The findings of the layout, or of every layout.", Findings, headers=REVISION)},
    refuses=(404, 422),
)
def findings(job_id: str) -> Response:
    """Say what is dangerous, wrong or missing in a job. All layouts are checked where none is named."""
    query = read_query(LayoutQuery)
    revision, worked = service().worked(job_id)
    names = [worked.layout_meant(query.layout)] if query.layout else sorted(worked.job.layouts)
    said = {"layouts": {name: report_document(worked.report(name)) for name in names}}
    return json_reply(said, headers={"ETag": etag(revision)})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/solution",
    query=SituationQuery,
    answers={200: Answer("What the circuit does.", SolutionShape, headers=REVISION)},
    refuses=(404, 422),
)
def solution(job_id: str) -> Response:
    """Say what the circuit of a job does in a situation, once it has settled."""
    query = read_query(SituationQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    point = worked.point(layout, worked.situation(layout, query))
    return json_reply(solution_document(point), headers={"ETag": etag(revision)})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/explain",
    query=ExplainQuery,
    answers={200: Answer("Why it runs or does not, or what the conductor is for.", ExplainedShape, headers=REVISION)},
    refuses=(404, 422),
)
def explanation(job_id: str) -> Response:
    """Say why something of a kept job runs or does not, or what a conductor is for."""
    query = read_query(ExplainQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    situation, units = worked.situation(layout, query), worked.job.settings.units
    explained = explain(worked.circuit(layout), situation, query.subject, units)
    return json_reply(explained_document(explained), headers={"ETag": etag(revision)})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/drawing.svg",
    query=DrawingQuery,
    answers={200: Answer("The drawing.", None, SVG, headers=REVISION)},
    refuses=(404, 422),
)
def drawing(job_id: str) -> Response:
    """Draw a view of a layout of a job. live=no shows the wiring alone, insides=yes what is in the parts."""
    query = read_query(DrawingQuery)
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    drawn = drawn_svg(worked, layout, query.picture, worked.situation(layout, query))
    return Response(drawn, content_type=SVG, headers={"ETag": etag(revision)})
