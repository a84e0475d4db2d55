"""The one way in which a kept job changes: a JSON Patch on a named revision.

Rules of the file: patching, judging, checking, solving and drawing happen before the store is asked to write; the
store then takes the change in one short transaction, or says that somebody was faster. A repeated key is answered
with the first reply, before anything else is judged, because the revision that it names is then an old one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from flask import Response

from app.catalogue.catalogue import Catalogue
from app.catalogue.opening import Opened
from app.catalogue.structure import catalogue_for
from app.checks.answers import finding_document
from app.circuit.answers import solution_document
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.job.change import Changed, change_job
from app.job.model import Job
from app.job.patch import MOST_PATCH_BYTES, parse_patch
from app.job.refusal import Refused
from app.store.records import AlreadyApplied, Change, KeptReply, Operations, Stale
from app.web.body import PATCH_JSON, read_body
from app.web.conditional import does_header, etag, expected_revision, token_header, words_header
from app.web.drawn import drawn, drawn_svg
from app.web.operation import Answer, ApiBlueprint, Body, Header
from app.web.problem import Problem
from app.web.query import DrawingQuery, read_query
from app.web.reply import json_text
from app.web.service import service, today
from app.web.shapes.jobs import PatchReply
from app.web.shapes.patch import Patch
from app.web.words import words_of
from app.web.worked import Worked

blueprint = ApiBlueprint("changing", __name__)

HEADERS = (
    Header("If-Match", "The revision that the change was made on, in quotes.", required=True),
    Header("Idempotency-Key", "A name for this change; sent again, it is answered with the first reply."),
    Header("Rungwright-Editor", "Who edits, one word a browser."),
    Header("Rungwright-Step", "What the change does, as percent-encoded UTF-8."),
    Header("Rungwright-Gesture", "Changes of one gesture share this word."),
    Header("Rungwright-Does", "do, undo or redo."),
)


@blueprint.operation(
    "PATCH",
    "/api/jobs/<job_id>",
    query=DrawingQuery,
    headers=HEADERS,
    body=Body(PATCH_JSON, Patch),
    answers={200: Answer("It is kept.", PatchReply, headers={"ETag": "The new revision, in quotes."})},
    refuses=(400, 404, 409, 412, 413, 415, 422, 428),
)
def change(job_id: str) -> Response:
    """Change a job by a JSON Patch (RFC 6902), whole or not at all, and say what that does."""
    query = read_query(DrawingQuery)
    key = token_header("Idempotency-Key", 200) or None
    operations = parse_patch(read_body(PATCH_JSON, MOST_PATCH_BYTES, "patch"))
    kept = _kept(job_id, key)
    if kept is not None:
        return _first_reply(kept, operations)
    base, signed = expected_revision(), _signature()
    revision, before = service().worked(job_id)
    if base != revision:
        # The same change may have been kept between the two looks, by a request that was sent beside this one.
        kept = _kept(job_id, key)
        if kept is None:
            raise _stale(job_id, base)
        return _first_reply(kept, operations)
    made = _made(before, operations, query, base + 1)
    return _keep(job_id, base, made, made.change(operations, key, signed))


def _kept(job_id: str, key: str | None) -> KeptReply | None:
    return service().store.reply_for(job_id, key) if key else None


@dataclass(frozen=True)
class _Made:
    """A change that is ready to be kept, with the reply that tells of it."""

    changed: Changed
    after: Worked
    reply: str

    def change(self, operations: Operations, key: str | None, signed: Mapping[str, Any]) -> Change:
        """Return what the store is to keep."""
        return Change(operations, self.changed.inverse, self.changed.document, key=key, reply=self.reply, **signed)


def _made(before: Worked, operations: Operations, query: DrawingQuery, revision: int) -> _Made:
    changed, catalogue = _changed(before.job, operations)
    after = Worked(Opened(changed.job, catalogue), today())
    after.take_over(before)
    reply = {"revision": revision, "inverse": list(changed.inverse), **_shown(before, after, query)}
    return _Made(changed, after, json_text(reply))


def _changed(job: Job, operations: Operations) -> tuple[Changed, Catalogue]:
    catalogues: list[Catalogue] = []
    changed = change_job(job, operations, lambda after: catalogues.append(catalogue_for(after)))
    return changed, catalogues[-1]


def _shown(before: Worked, after: Worked, query: DrawingQuery) -> dict[str, Any]:
    """Return what the page shows of the layout that it looks at, nothing where the job has none that is meant."""
    layout = _layout_after(before, after, query.layout)
    if layout is None:
        return {"findings": [], "solution": None, "view": query.view, "drawing": None, "words": {}}
    report = after.report(layout)
    situation = _situation_after(before, after, layout, query)
    point = after.point(layout, situation)
    return {
        "findings": [finding_document(finding) for finding in report.findings],
        "solution": solution_document(point),
        "view": query.view,
        "drawing": _drawing_after(before, after, layout, query, point),
        "words": words_of(after.job, layout, after.catalogue, report, point),
    }


def _layout_after(before: Worked, after: Worked, name: str | None) -> str | None:
    """Return the layout to show. A change may take away the one that was looked at, and must not fail on that."""
    if name is not None and (name in after.job.layouts or name not in before.job.layouts):
        return after.layout_meant(name)
    try:
        return after.layout_meant(None)
    except Refused:
        return None


def _situation_after(before: Worked, after: Worked, layout: str, query: DrawingQuery) -> Situation:
    """Return the situation to show, idle where the change took away what it names."""
    try:
        return after.situation(layout, query)
    except Refused:
        if layout not in before.job.layouts:
            raise
        before.situation(layout, query)
        return Situation()


def _drawing_after(
    before: Worked, after: Worked, layout: str, query: DrawingQuery, point: OperatingPoint
) -> str | None:
    """Return the view that is looked at, without what happens in it where the change took away what that names.

    It is None where the change took away the layout with which it compares.
    """
    try:
        return drawn_svg(after, layout, query.picture, point.situation, point)
    except Refused:
        if layout not in before.job.layouts:
            raise
        drawn(before, layout, query.picture, before.situation(layout, query))
    try:
        return drawn_svg(after, layout, replace(query.picture, changes=()), point.situation, point)
    except Refused:
        return None


def _signature() -> dict[str, Any]:
    """Return who changes and what for, as the headers of the bench say it; it goes into the log."""
    return {
        "editor": token_header("Rungwright-Editor", 64),
        "step": words_header("Rungwright-Step"),
        "gesture": token_header("Rungwright-Gesture", 64),
        "does": does_header(),
    }


def _keep(job_id: str, base: int, made: _Made, change: Change) -> Response:
    try:
        revision = service().store.append(job_id, base, change)
    except AlreadyApplied as applied:
        return _first_reply(applied.kept, change.patch)
    except Stale:
        raise _stale(job_id, base) from None
    service().shelf.keep(job_id, revision, made.after)
    return _reply(made.reply, revision)


def _first_reply(kept: KeptReply, operations: Operations) -> Response:
    if list(operations) != kept.patch:
        raise Problem(
            422,
            "idempotency-key-reused",
            f"This key already named another change, the one that made revision {kept.revision}.",
            would_be_right="a new Idempotency-Key for a new change",
            pointer="",
        )
    return _reply(kept.reply, kept.revision)


def _reply(text: str, revision: int) -> Response:
    return Response(text, content_type="application/json", headers={"ETag": etag(revision)})


def _stale(job_id: str, base: int) -> Problem:
    missed = service().store.history(job_id, base)
    revision = missed[-1].revision if missed else service().store.revision_of(job_id)
    return Problem(
        412,
        "revision-stale",
        f"The job is at revision {revision}; the change was made on revision {base}.",
        would_be_right=f'the change made again on revision {revision}, with If-Match: "{revision}"',
        pointer="",
        more={
            "revision": revision,
            "missed": [{"revision": change.revision, "patch": change.patch} for change in missed],
        },
        headers={"ETag": etag(revision)},
    )
