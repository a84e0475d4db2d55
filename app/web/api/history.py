"""The log of a job: its changes a page at a time, and the change that makes it again what it was."""

from __future__ import annotations

from dataclasses import asdict

from flask import Response

from app.job.patch import way_back
from app.web.operation import Answer, ApiBlueprint
from app.web.problem import Problem
from app.web.query import BackQuery, HistoryQuery, read_query
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.jobs import History, WayBack

blueprint = ApiBlueprint("history", __name__)


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/history",
    query=HistoryQuery,
    answers={200: Answer("The changes.", History)},
    refuses=(404, 422),
)
def history(job_id: str) -> Response:
    """Return changes of a job, oldest first; a page at a time from the newest back where `most` is said."""
    query, store = read_query(HistoryQuery), service().store
    revision = store.revision_of(job_id)
    wanted = query.most + 1 if query.most is not None else None
    changes = store.history(job_id, query.after, query.before, wanted, query.editor)
    # One more than was asked for tells whether there are any before them.
    shown = changes[-query.most :] if query.most is not None else changes
    earlier = shown[0].revision if len(changes) > len(shown) else None
    revision = max([revision, *(change.revision for change in shown)])
    return json_reply({"revision": revision, "changes": [asdict(change) for change in shown], "earlier": earlier})


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>/back",
    query=BackQuery,
    answers={200: Answer("The change that leads back.", WayBack)},
    refuses=(404, 409, 422),
)
def back(job_id: str) -> Response:
    """Return one change that makes a job again what it was at a revision. It is sent like any other, and undone too."""
    to, stored = read_query(BackQuery).to, service().store.get(job_id)
    if to > stored.revision:
        raise Problem(
            422,
            "no-such-revision",
            f"The job has not been at revision {to} yet.",
            would_be_right=f"a revision from 1 to {stored.revision}",
            pointer="",
        )
    changes = service().store.history(job_id, to, stored.revision + 1)
    patch = way_back(stored.document, [change.inverse for change in reversed(changes)])
    return json_reply({"revision": stored.revision, "patch": patch})
