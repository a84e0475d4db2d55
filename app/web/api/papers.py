"""The drawings of a kept job on paper: as one PDF, or a sheet as a picture.

Rules of the file: what makes a PDF is bounded, in sheets and in dots, because whoever has the address of a job may ask.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from flask import Response
from pydantic import Field

from app.drawing.frame.paper import KEEPING_WHOLE_MM, PAPERS, SMALLEST_CAPITAL_MM, USUAL, PaperName
from app.drawing.views import VIEWS
from app.job.model import Job
from app.paper.packet import Packet, Wanted, packet
from app.paper.typesetter import pdf_of, png_of
from app.web.conditional import etag
from app.web.drawn import drawn
from app.web.operation import Answer, ApiBlueprint
from app.web.picture import Picture, ViewName
from app.web.problem import Problem
from app.web.query import DrawingQuery, read_query
from app.web.service import service

blueprint = ApiBlueprint("papers", __name__)

PDF = "application/pdf"
PNG = "image/png"
CAPITALS = (
    f"The least height of capitals in mm. Without it {SMALLEST_CAPITAL_MM:g}, and down to {KEEPING_WHOLE_MM:g} where a "
    "part or a rung would else be cut."
)
REVISION = {"ETag": "The revision that this was drawn from, in quotes."}


class PaperQuery(DrawingQuery):
    """What is drawn, and on which paper."""

    also: tuple[ViewName, ...] = Field((), description="A further view for the same packet; repeatable.", max_length=8)
    paper: PaperName | None = Field(None, description="The paper; letter, or a4 where the job measures in metres.")
    turned: Literal["auto", "upright", "sideways"] = Field("auto", description="How the paper lies.")
    capitals: float | None = Field(None, description=CAPITALS, ge=1, le=10, allow_inf_nan=False)

    def wanted(self, job: Job) -> Wanted:
        """Return the paper that is asked for."""
        return Wanted(PAPERS[self.paper or USUAL[job.settings.units]], self.turned, self.capitals)

    def pictures(self) -> list[Picture]:
        """Return what is asked for, each view once; where any shows a sequence, changes go to those that do."""
        names = list(dict.fromkeys((self.view, *self.also)))
        if not any(VIEWS[name].needs_run for name in names):
            return [replace(self.picture, view=name) for name in names]
        return [replace(self.picture, view=n, changes=self.at if VIEWS[n].needs_run else ()) for n in names]


class SheetQuery(PaperQuery):
    """What is drawn, which sheet of it, and how finely."""

    sheet: int = Field(1, description="The number of the sheet, from 1.", ge=1)
    dpi: int = Field(150, description="Dots to the inch.", ge=50, le=300)


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/drawing.pdf",
    query=PaperQuery,
    answers={200: Answer("The sheets.", None, PDF, headers=REVISION)},
    refuses=(404, 422),
)
def drawing_pdf(job_id: str) -> Response:
    """Draw one or several views of a layout on paper. Lettering is never smaller than capitals says."""
    query = read_query(PaperQuery)
    revision, sheets = _sheets(job_id, query)
    return Response(pdf_of(sheets), content_type=PDF, headers={"ETag": etag(revision)})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/drawing.png",
    query=SheetQuery,
    answers={200: Answer("The sheet.", None, PNG, headers=REVISION)},
    refuses=(404, 422),
)
def drawing_png(job_id: str) -> Response:
    """Draw one sheet of a layout on paper as a picture. Its title block tells how many there are."""
    query = read_query(SheetQuery)
    revision, sheets = _sheets(job_id, query)
    if query.sheet > len(sheets.sheets):
        raise Problem(
            422,
            "no-such-sheet",
            f"There is no sheet {query.sheet}.",
            would_be_right=f"1 to {len(sheets.sheets)}",
            more={"parameter": "sheet"},
        )
    return Response(
        png_of(sheets.sheets[query.sheet - 1], query.dpi), content_type=PNG, headers={"ETag": etag(revision)}
    )


def _sheets(job_id: str, query: PaperQuery) -> tuple[int, Packet]:
    """Return the revision of a job, and its sheets as the query asks for them."""
    revision, worked = service().worked(job_id)
    layout = worked.layout_meant(query.layout)
    situation = worked.situation(layout, query)
    views = [drawn(worked, layout, picture, situation) for picture in query.pictures()]
    return revision, packet(views, query.wanted(worked.job))
