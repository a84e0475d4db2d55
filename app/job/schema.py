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
    schema["required"] = ["format", "version", *schema.get("required", ())]
    described = {"$schema": DIALECT, "title": "Rungwright job", "description": "One site's work: layouts and records."}
    return _closed({**schema, **described})


def closed_schema(schema: dict[str, Any]) -> dict[str, Any]:
    """Return a schema of pydantic's in which objects by id take no other key and words are meant for its readers."""
    return _closed(schema)


def _closed(schema: Any) -> Any:
    if isinstance(schema, list):
        return [_closed(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    closed = {key: _closed(value) for key, value in schema.items()}
    if "patternProperties" in closed:
        closed["additionalProperties"] = False
    return closed
