"""Small drawings of kept jobs, for lists of them.

Rules of the file: each is worked out of the document alone and kept by the browser until the job changes, so that
looking at a list of jobs pushes none of those that are worked on from the shelf.
"""

from __future__ import annotations

from flask import Blueprint, Response

from app.catalogue.structure import catalogue_for
from app.job.layout_choice import layout_meant
from app.job.reading import job_from_document
from app.web.conditional import etag, is_known_revision
from app.web.page_drawings import thumb_nail
from app.web.service import service

blueprint = Blueprint("small", __name__)

SVG = "image/svg+xml"


@blueprint.get("/jobs/<job_id>/small.svg")
def small_drawing(job_id: str) -> Response:
    """Return the connection diagram of the layout that is meant where none is named, without lettering."""
    store = service().store
    revision = store.revision_of(job_id)
    headers = {"ETag": etag(revision)}
    if is_known_revision(revision):
        return Response(status=304, headers=headers)
    stored = store.get(job_id)
    job = job_from_document(stored.document)
    drawn = thumb_nail(job.layouts[layout_meant(job, None)], catalogue_for(job))
    return Response(str(drawn), content_type=SVG, headers={"ETag": etag(stored.revision)})
