"""A process of its own that patches a job again and again, and says on standard output what it was told is kept.

``python -m tests.store.patching DATA JOB NAME COUNT`` adds the conductors ``NAME-1`` to ``NAME-COUNT``, one patch each,
starting again from the newest revision whenever another writer was faster. Each line is a revision and the conductor.
"""

import sys
from pathlib import Path
from typing import Any

from app.job.change import change_job
from app.job.reading import job_from_document
from app.store.jobs import JobStore, open_store
from app.store.records import Change, Stale


def adding(conductor: str) -> list[dict[str, Any]]:
    """Return the patch that adds a conductor."""
    path = f"/layouts/as-left/conductors/{conductor}"
    return [{"op": "add", "path": path, "value": {"ends": [None, None]}}]


def start() -> dict[str, Any]:
    """Return the document before any patch."""
    layouts: dict[str, Any] = {"as-left": {"conductors": {}}}
    return {"format": "rungwright-job", "version": 1, "title": "Patched", "layouts": layouts}


def add(store: JobStore, job_id: str, conductor: str, key: str | None = None) -> int:
    """Add a conductor to the newest revision, however often others are faster, and return the revision made."""
    while True:
        stored = store.get(job_id)
        patch = adding(conductor)
        changed = change_job(job_from_document(stored.document), patch, lambda _: None)
        change = Change(patch, changed.inverse, changed.document, key=key, editor="e-test", reply=conductor)
        try:
            return store.append(job_id, stored.revision, change)
        except Stale as stale:
            # The store must tell of every change that was missed, or a page could not catch up.
            if [each["revision"] for each in stale.missed] != list(range(stored.revision + 1, stale.revision + 1)):
                raise AssertionError(f"missed {stale.missed} up to {stale.revision}") from stale


def main() -> None:
    data, job_id, name, count = sys.argv[1:]
    store = open_store(Path(data))
    for number in range(1, int(count) + 1):
        conductor = f"{name}-{number}"
        print(add(store, job_id, conductor, key=conductor), conductor, flush=True)


if __name__ == "__main__":
    main()
