"""Jobs: make one, list them, read one, take one away."""

from __future__ import annotations

from dataclasses import asdict

from flask import Response

from app.catalogue.opening import open_job
from app.job.json_values import MOST_BYTES
from app.job.reading import document_of
from app.store.records import StoredJob
from app.web.body import read_json_body
from app.web.conditional import etag, is_known_revision
from app.web.operation import JSON, Answer, ApiBlueprint, Body, Header
from app.web.problem import Problem
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.jobs import Created, JobList

blueprint = ApiBlueprint("jobs", __name__)

CREATED = Answer(
    "The job was made.", Created, headers={"Location": "The address of the job.", "ETag": "Its revision, in quotes."}
)


@blueprint.operation("GET", "/api/jobs", answers={200: Answer("The jobs.", JobList)})
def list_jobs() -> Response:
    """List the jobs, the last changed first. Only a server that nobody but this machine can reach lists them."""
    if not service().lists_jobs:
        raise Problem(
            403,
            "jobs-not-listed",
            "This server can be reached by others, so it lists no jobs: whoever has the address of a job has the job.",
            would_be_right="the address of the job",
        )
    listed = [asdict(job) for job in service().store.list()]
    return json_reply({"jobs": listed})


@blueprint.operation("POST", "/api/jobs", body=Body(JSON, "job"), answers={201: CREATED}, refuses=(413, 415, 422))
def create_job() -> Response:
    """Keep a new job. Its address cannot be guessed; whoever has it has the job."""
    opened = open_job(read_json_body(MOST_BYTES, "job"))
    return created(service().store.create(document_of(opened.job)))


@blueprint.operation(
    "GET",
    "/api/jobs/<job_id>",
    headers=(Header("If-None-Match", "The revision that the client has."),),
    answers={
        200: Answer("The job document.", "job", headers={"ETag": "The revision, in quotes."}),
        304: Answer("The client has this revision.", media_type=None),
    },
    refuses=(404,),
)
def get_job(job_id: str) -> Response:
    """Return the document of a job."""
    stored = service().store.get(job_id)
    headers = {"ETag": etag(stored.revision)}
    if is_known_revision(stored.revision):
        return Response(status=304, headers=headers)
    return json_reply(stored.document, headers=headers)


@blueprint.operation(
    "DELETE", "/api/jobs/<job_id>", answers={204: Answer("It is gone.", media_type=None)}, refuses=(404,)
)
def delete_job(job_id: str) -> Response:
    """Take away a job with its log."""
    service().store.delete(job_id)
    return Response(status=204)


def created(stored: StoredJob) -> Response:
    """Return the reply that tells of a new job."""
    headers = {"Location": f"/api/jobs/{stored.id}", "ETag": etag(stored.revision)}
    return json_reply({"id": stored.id, "revision": stored.revision}, 201, headers)
