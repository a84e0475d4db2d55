"""How a finding is set aside and taken up again: the patches, but for the reason, which a person gives.

Rules of the file: a patch names records by their place, so it tests each one before it takes it out; whoever was faster
is then told of and not run over.
"""

from __future__ import annotations

from typing import Any

from app.checks.told import Told
from app.job.model import Job
from app.job.names import pointer


def set_aside(told: Told, job: Job) -> list[dict[str, Any]]:
    """Return the operations that write a finding's records; the page puts the reason into each of their values."""
    written = [{"rule": told.finding.rule, "subjects": list(subjects), "reason": ""} for subjects in told.records]
    there = [{"op": "add", "path": pointer(*steps), "value": value} for steps, value in _missing(job)]
    return [
        *take_up(told, job),
        *there,
        *({"op": "add", "path": "/records/accepted/-", "value": value} for value in written),
    ]


def take_up(told: Told, job: Job) -> list[dict[str, Any]]:
    """Return the operations that take a finding's records out, the last first: no place moves before its turn."""
    operations: list[dict[str, Any]] = []
    for place in reversed(told.places):
        path = pointer("records", "accepted", place)
        record = job.records.accepted[place].model_dump(mode="json", exclude_unset=True)
        operations += [{"op": "test", "path": path, "value": record}, {"op": "remove", "path": path}]
    return operations


def _missing(job: Job) -> list[tuple[tuple[str, ...], Any]]:
    """Return what a document must have before a record can be added to it."""
    if "records" not in job.model_fields_set:
        return [(("records",), {"accepted": []})]
    return [] if "accepted" in job.records.model_fields_set else [(("records", "accepted"), [])]
