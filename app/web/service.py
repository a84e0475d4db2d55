"""What the views share: the store, the shelf of worked-out jobs, the demos. Made once by the application factory."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from flask import current_app

from app.catalogue.opening import Opened
from app.catalogue.structure import catalogue_for
from app.job.reading import job_from_document
from app.store.jobs import JobStore
from app.web.demos import Demos
from app.web.worked import Shelf, Worked

EXTENSION = "rungwright"


@dataclass(frozen=True)
class Service:
    """The parts of one application. ``lists_jobs`` tells whether whoever can ask may see all jobs."""

    store: JobStore
    demos: Demos
    lists_jobs: bool
    shelf: Shelf = field(default_factory=Shelf)

    def worked(self, job_id: str) -> tuple[int, Worked]:
        """Return the newest revision of a job, and the job with what was worked out of it.

        Raises:
            NoSuchJob: there is none.
            Refused: it was kept by another version of the program and is not understood by this one.
        """
        revision = self.store.revision_of(job_id)
        found = self.shelf.find(job_id, revision)
        if found is not None:
            return revision, found
        stored = self.store.get(job_id)
        job = job_from_document(stored.document)
        worked = Worked(Opened(job, catalogue_for(job)), local_date(stored.updated_at))
        self.shelf.keep(job_id, stored.revision, worked)
        return stored.revision, worked

    def close(self) -> None:
        """Let go of the database."""
        self.store.close()


def service() -> Service:
    """Return the service of the application that answers the present request."""
    found: Service = current_app.extensions[EXTENSION]
    return found


def local_date(at: str) -> str:
    """Return the date of a time in UTC as people here write it on a drawing: 2026-05-31."""
    return datetime.fromisoformat(at).astimezone().date().isoformat()


def today() -> str:
    """Return the date of now, as ``local_date`` does."""
    return datetime.now().astimezone().date().isoformat()
