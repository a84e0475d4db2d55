"""Lists of a kept job as CSV, and the way back: a job from a wire list that is sent along."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from typing import Any, Literal

from flask import Response
from pydantic import Field

from app.job.json_values import MOST_BYTES
from app.job.model import Layout
from app.job.names import pointer
from app.job.pointers import steps_of
from app.job.refusal import Refused
from app.job.strict_json import parse_json
from app.tables.job_from_tables import DEFAULT_LAYOUT, DEFAULT_TITLE, Tables, job_from_tables
from app.tables.kinds_asked import KindAsked
from app.tables.part_rows import cables_table, parts_table
from app.tables.terminal_rows import terminal_rows, terminals_csv
from app.tables.wire_rows import By, grouped, wire_roles, wire_rows, wires_csv
from app.web.body import read_json_body
from app.web.conditional import etag
from app.web.operation import JSON, Answer, ApiBlueprint, Body
from app.web.problem import Problem
from app.web.query import LayoutQuery, SituationQuery, read_query
from app.web.question import shaped
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.shape import Shape

blueprint = ApiBlueprint("lists", __name__)

CSV = "text/csv"
REVISION = {"ETag": "The revision that this was worked out of, in quotes."}
TABLES = ("wires", "parts", "cables")


class WiresQuery(LayoutQuery):
    """Which layout, and in which order."""

    by: By = Field("conductor", description="The order; by part each wire stands at both of its ends.")


class TerminalsQuery(SituationQuery):
    """Which layout, and whether with the volts of a situation."""

    live: Literal["yes", "no"] = Field("no", description="Whether the list has the volts of the situation.")


class WireListQuestion(Shape):
    """A wire list as CSV, and what a wire list cannot tell."""

    wires: str = Field(description="The wire list as CSV; headings and separators as people have them.")
    parts: str | None = Field(None, description="The parts as CSV.")
    cables: str | None = Field(None, description="The cables as CSV.")
    kinds: Mapping[str, str] = Field(default_factory=dict, description="The kind of a part, by the id of the part.")
    own_kinds: Mapping[str, Any] = Field(default_factory=dict, description="Kinds that the catalogue lacks.")
    unanswered: Literal["ask", "unknown"] = Field("ask", description="What becomes of a part whose kind is not said.")
    title: str = DEFAULT_TITLE
    layout: str = DEFAULT_LAYOUT


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/wires.csv",
    query=WiresQuery,
    answers={200: Answer("The wire list.", None, CSV, headers=REVISION)},
    refuses=(404, 422),
)
def wires(job_id: str) -> Response:
    """Return the wire list of a layout of a job: what each conductor joins, and what it is for."""
    query = read_query(WiresQuery)
    revision, worked = service().worked(job_id)
    name = worked.layout_meant(query.layout)
    layout = worked.job.layouts[name]
    groups = grouped(wire_rows(layout, wire_roles(worked.circuit(name))), query.by, layout, worked.catalogue)
    return _csv(wires_csv(row for group in groups for row in group.rows), revision)


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/terminals.csv",
    query=TerminalsQuery,
    answers={200: Answer("The terminal list.", None, CSV, headers=REVISION)},
    refuses=(404, 422),
)
def terminals(job_id: str) -> Response:
    """Return every screw of a layout of a job with what is landed there. With live=yes it has volts too."""
    query = read_query(TerminalsQuery)
    revision, worked = service().worked(job_id)
    name = worked.layout_meant(query.layout)
    situation = worked.situation(name, query)
    point = worked.point(name, situation) if query.live == "yes" else None
    rows = terminal_rows(worked.job.layouts[name], worked.catalogue, point, wire_roles(worked.circuit(name)))
    return _csv(terminals_csv(rows, with_volts=point is not None), revision)


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/parts.csv",
    query=LayoutQuery,
    answers={200: Answer("The parts.", None, CSV, headers=REVISION)},
    refuses=(404, 422),
)
def parts(job_id: str) -> Response:
    """Return the parts of a layout of a job: kinds, labels, places, settings."""
    return _table(job_id, lambda layout: parts_table(layout).csv())


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/cables.csv",
    query=LayoutQuery,
    answers={200: Answer("The cables.", None, CSV, headers=REVISION)},
    refuses=(404, 422),
)
def cables(job_id: str) -> Response:
    """Return the cables of a layout of a job: labels, gauges, lengths."""
    return _table(job_id, lambda layout: cables_table(layout).csv())


@blueprint.operation(
    "POST",
    "/api/wires",
    body=Body(JSON, WireListQuestion),
    answers={200: Answer("The job.", "job")},
    refuses=(413, 415, 422),
)
def job_of_wires() -> Response:
    """Return the job that a wire list comes to; nothing is kept.

    A part whose kind nobody says is asked for: the problem has the code kinds-asked, and under "asked" each such part
    with the letters that are landed on and the kinds that fit, best first. What is wrong in a table is told with
    "row" and "column".
    """
    question = shaped(WireListQuestion, parse_json(read_json_body(MOST_BYTES, "question"), MOST_BYTES, "question"))
    tables = Tables(question.wires, question.parts, question.cables, question.kinds, question.own_kinds)
    try:
        made = job_from_tables(tables, question.title, question.layout)
    except Refused as refused:
        raise _told(refused) from refused
    if made.asked and question.unanswered == "ask":
        raise _asks(made.asked)
    return json_reply(made.document)


def _table(job_id: str, csv_of: Callable[[Layout], str]) -> Response:
    query = read_query(LayoutQuery)
    revision, worked = service().worked(job_id)
    return _csv(csv_of(worked.job.layouts[worked.layout_meant(query.layout)]), revision)


def _csv(text: str, revision: int) -> Response:
    return Response(text, content_type="text/csv; charset=utf-8", headers={"ETag": etag(revision)})


def _told(refused: Refused) -> Problem:
    """Return the problem that a refusal is, with row and column where it stands in a table."""
    steps = steps_of(refused.pointer or "")
    more: dict[str, Any] = {}
    at = refused.pointer or ""
    if steps and steps[0] in TABLES:
        at = pointer(steps[0])
        row, column = (*steps[1:3], "", "")[:2]
        more = {name: value for name, value in (("row", row and int(row)), ("column", column)) if value}
    return Problem(
        refused.status_hint,
        refused.code,
        refused.message,
        pointer=at,
        would_be_right=refused.would_be_right,
        more=more,
    )


def _asks(asked: Sequence[KindAsked]) -> Problem:
    names = ", ".join(each.part for each in asked)
    first = asked[0]
    example = first.suggestions[0].kind if first.suggestions else "unknown"
    return Problem(
        422,
        "kinds-asked",
        f"A wire list does not say what its parts are: {names}.",
        pointer="/kinds",
        would_be_right=f'"kinds": {{"{first.part}": "{example}", …}}, or "unanswered": "unknown"',
        more={"asked": [asdict(each) for each in asked]},
    )
