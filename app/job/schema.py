"""The JSON Schema of the job document, made from the model."""

from __future__ import annotations

from typing import Any

from app.job.model import Job

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a job document of this version.

    What needs other parts of the document to be judged, such as ends on terminals that exist, is not in it.
    """
    schema = Job.model_json_schema(by_alias=True)
    close_maps(schema)
    schema["required"] = ["format", "version", *schema.get("required", ())]
    described = {"$schema": DIALECT, "title": "Rungwright job", "description": "One site's work: layouts and records."}
    return {**schema, **described}


def close_maps(schema: object) -> None:
    """Let objects whose members are named by an id take no member of another name, as the model does."""
    if isinstance(schema, dict):
        if "patternProperties" in schema:
            schema["additionalProperties"] = False
        for inner in schema.values():
            close_maps(inner)
    elif isinstance(schema, list):
        for inner in schema:
            close_maps(inner)
