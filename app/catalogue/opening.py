"""From the bytes of a job file to a job that fits its kinds: the one way in."""

from __future__ import annotations

from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.catalogue.structure import catalogue_for
from app.job.model import Job
from app.job.reading import job_from_document, parse_document


@dataclass(frozen=True, slots=True)
class Opened:
    """A job and the kinds that hold for it."""

    job: Job
    catalogue: Catalogue


def open_job(data: bytes) -> Opened:
    """Return the job that a file holds, with its kinds.

    Raises:
        Refused: the file is refused whole; code, pointer and what would be right tell why.
    """
    job = job_from_document(parse_document(data))
    return Opened(job, catalogue_for(job))
