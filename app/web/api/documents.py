"""What the API says about itself: the schemas, its own description, and that it is alive."""

from __future__ import annotations

from contextlib import suppress
from importlib.metadata import version

from flask import Response, current_app

from app.catalogue.schema import kind_schema
from app.job.schema import job_schema
from app.store.records import NoSuchJob
from app.web.openapi import openapi_document
from app.web.operation import Answer, ApiBlueprint
from app.web.reply import json_reply
from app.web.service import service
from app.web.shapes.jobs import Health
from app.web.shapes.shape import AnyObject

blueprint = ApiBlueprint("documents", __name__)

SCHEMA_JSON = "application/schema+json"


@blueprint.operation(
    "GET",
    "/api/schema/job.json",
    answers={200: Answer("JSON Schema (2020-12).", AnyObject, SCHEMA_JSON)},
)
def schema_of_job() -> Response:
    """Return the JSON Schema of the job document."""
    return json_reply(job_schema(), media_type=SCHEMA_JSON)


@blueprint.operation(
    "GET",
    "/api/schema/kind.json",
    answers={200: Answer("JSON Schema (2020-12).", AnyObject, SCHEMA_JSON)},
)
def schema_of_kind() -> Response:
    """Return the JSON Schema of a kind of part."""
    return json_reply(kind_schema(), media_type=SCHEMA_JSON)


@blueprint.operation("GET", "/api/openapi.json", answers={200: Answer("OpenAPI 3.1.", AnyObject)})
def openapi() -> Response:
    """Return the description of this API, made from its routes."""
    topics = [topic for topic in current_app.blueprints.values() if isinstance(topic, ApiBlueprint)]
    return json_reply(openapi_document(operation for topic in topics for operation in topic.operations))


@blueprint.operation("GET", "/health", answers={200: Answer("It answers.", Health)})
def health() -> Response:
    """Say that the server answers and its database too."""
    # Nobody has the empty id; that the store says so shows that it can be asked.
    with suppress(NoSuchJob):
        service().store.revision_of("")
    return json_reply({"status": "ok", "version": version("rungwright")})
