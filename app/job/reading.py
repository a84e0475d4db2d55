"""From bytes to a document, from a document to a ``Job``, and back.

Rules of the file: whatever comes in is taken whole or refused whole. What needs the kinds of part to be judged is
judged later, by ``app.catalogue.structure``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from app.job.complaint import complaint_of
from app.job.json_values import MOST_BYTES, shown
from app.job.migrations import migrate
from app.job.model import Job
from app.job.refusal import Refused
from app.job.strict_json import parse_json


def parse_document(data: bytes) -> dict[str, Any]:
    """Return the JSON object that a file holds.

    Raises:
        Refused: over 2 MB or 32 levels, not UTF-8, not JSON, a repeated key, a number or character that cannot be
            kept, or not an object.
    """
    document = parse_json(data, MOST_BYTES, "job")
    if not isinstance(document, dict):
        raise Refused(
            "not-a-job",
            f"A job is an object, not {shown(document)}.",
            pointer="",
            would_be_right='an object that starts {"format": "rungwright-job", "version": 1, …}',
        )
    return document


def job_from_document(document: Mapping[str, Any]) -> Job:
    """Return the job that a document says, an older version brought up to this one.

    Raises:
        Refused: the first thing that is wrong with its shape, in people's words.
    """
    current = migrate(document)
    try:
        return Job.model_validate(current)
    except ValidationError as error:
        raise complaint_of(error, current) from None


def document_of(job: Job) -> dict[str, Any]:
    """Return a job as a JSON object: what was said, no more, and always its format and version."""
    said = job.model_dump(mode="json", by_alias=True, exclude_unset=True)
    return {"format": job.format, "version": job.version, **said}
