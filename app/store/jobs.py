"""The jobs on disk: documents, revisions, the append-only log of changes, and the replies to repeated requests.

Rules of the file: nothing here judges a document. What comes in has been judged; what is acknowledged is on disk.
A change is kept by one short writing transaction: one row updated where the revision is still the one that the
change was made from, one line of the log, one reply.
"""

from __future__ import annotations

import json
import secrets
import zlib
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Row, delete, func, insert, select, update

from app.job.json_values import compact
from app.store.connection import open_engine, writing
from app.store.integrity import faults_of
from app.store.migrate import migrate
from app.store.records import AlreadyApplied, Change, KeptReply, ListedJob, LoggedChange, NoSuchJob, Stale, StoredJob
from app.store.tables import changes, jobs, replies

FILE_NAME = "rungwright.sqlite3"

# Inside the class the word ``list`` means the method of that name.
LoggedChanges = list[LoggedChange]
Faults = list[str]


def _now() -> datetime:
    return datetime.now(UTC)


def _new_id() -> str:
    return secrets.token_urlsafe(16)


def open_store(
    data_dir: Path, *, clock: Callable[[], datetime] = _now, new_id: Callable[[], str] = _new_id
) -> JobStore:
    """Return the store that lives in a directory, made and brought up to date where needed.

    Args:
        data_dir: the directory; it is created.
        clock: tells the time, in UTC.
        new_id: makes the id of a job, 16 random bytes as URL-safe text: whoever has it has the job.
    """
    data_dir.mkdir(parents=True, exist_ok=True)
    engine = open_engine(data_dir / FILE_NAME)
    migrate(engine)
    return JobStore(engine, clock, new_id)


class JobStore:
    """Jobs by id. It may be used by many threads at a time, and by many processes on one file."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime], new_id: Callable[[], str]) -> None:
        self._reading = engine
        self._writing = writing(engine)
        self._clock = clock
        self._new_id = new_id

    def close(self) -> None:
        """Let go of the file."""
        self._reading.dispose()

    def create(self, document: Mapping[str, Any]) -> StoredJob:
        """Keep a new job at revision 1."""
        now = self._time()
        job = StoredJob(self._new_id(), 1, document, now, now)
        row = {"id": job.id, "document": compact(document), "revision": 1, "created_at": now, "updated_at": now}
        with self._writing.begin() as connection:
            connection.execute(insert(jobs).values(row))
        return job

    def get(self, job_id: str) -> StoredJob:
        """Return a job at its newest revision; raises ``NoSuchJob``."""
        with self._reading.begin() as connection:
            row = connection.execute(select(jobs).where(jobs.c.id == job_id)).one_or_none()
        if row is None:
            raise NoSuchJob(job_id)
        return StoredJob(row.id, row.revision, json.loads(row.document), row.created_at, row.updated_at)

    def revision_of(self, job_id: str) -> int:
        """Return the newest revision of a job without reading its document; raises ``NoSuchJob``."""
        with self._reading.begin() as connection:
            return _revision(connection, job_id)

    def delete(self, job_id: str) -> None:
        """Take away a job with its log and its replies; raises ``NoSuchJob``."""
        with self._writing.begin() as connection:
            if connection.execute(delete(jobs).where(jobs.c.id == job_id)).rowcount == 0:
                raise NoSuchJob(job_id)

    def list(self) -> list[ListedJob]:
        """Return all jobs, the one changed last first."""
        title = func.json_extract(jobs.c.document, "$.title").label("title")
        wanted = select(jobs.c.id, title, jobs.c.revision, jobs.c.updated_at)
        with self._reading.begin() as connection:
            rows = connection.execute(wanted.order_by(jobs.c.updated_at.desc(), jobs.c.id)).all()
        return [ListedJob(row.id, row.title or "", row.revision, row.updated_at) for row in rows]

    def append(self, job_id: str, base_revision: int, change: Change) -> int:
        """Keep a change that was made from ``base_revision``, and return the revision that it makes.

        Raises:
            AlreadyApplied: its key is known; the first reply is with it.
            Stale: the job is not at ``base_revision`` any more.
            NoSuchJob: the job is not there, or is gone.
        """
        document, now = compact(change.document_after), self._time()
        line = _line_of(change, job_id, base_revision + 1, now)
        reply = zlib.compress(change.reply.encode(), 1)
        with self._writing.begin() as connection:
            if change.key is not None:
                _refuse_known(connection, job_id, change.key)
            advanced = connection.execute(
                update(jobs)
                .where(jobs.c.id == job_id, jobs.c.revision == base_revision)
                .values(document=document, revision=base_revision + 1, updated_at=now)
            )
            if advanced.rowcount != 1:
                raise _stale(connection, job_id, base_revision)
            connection.execute(insert(changes).values(line))
            if change.key is not None:
                row = {"job_id": job_id, "key": change.key, "revision": base_revision + 1, "reply": reply}
                connection.execute(insert(replies).values(row))
        return base_revision + 1

    def reply_for(self, job_id: str, key: str) -> KeptReply | None:
        """Return the first reply to a key of a job, None if the key is new."""
        with self._reading.begin() as connection:
            return _kept(connection, job_id, key)

    def history(
        self, job_id: str, after: int = 0, before: int | None = None, most: int | None = None, editor: str | None = None
    ) -> LoggedChanges:
        """Return the changes that led to revisions between ``after`` and ``before``, oldest first.

        Args:
            job_id: the job; raises ``NoSuchJob``.
            after: the revision after which changes are wanted.
            before: the revision before which they are wanted; None wants the newest too.
            most: how many at most, of which the newest are given.
            editor: whose changes; None wants everybody's.
        """
        wanted = select(changes).where(changes.c.job_id == job_id, changes.c.revision > after)
        if before is not None:
            wanted = wanted.where(changes.c.revision < before)
        if editor is not None:
            wanted = wanted.where(changes.c.editor == editor)
        with self._reading.begin() as connection:
            _revision(connection, job_id)
            rows = connection.execute(wanted.order_by(changes.c.revision.desc()).limit(most)).all()
        return [_logged(row) for row in reversed(rows)]

    def integrity_check(self) -> Faults:
        """Return what is wrong with the file, its references and its revisions; nothing if all is well."""
        with self._reading.begin() as connection:
            return faults_of(connection)

    def _time(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _line_of(change: Change, job_id: str, revision: int, now: str) -> dict[str, Any]:
    return {
        "job_id": job_id,
        "revision": revision,
        "patch": compact([dict(operation) for operation in change.patch]),
        "inverse": compact([dict(operation) for operation in change.inverse]),
        "editor": change.editor,
        "step": change.step,
        "gesture": change.gesture,
        "does": change.does,
        "at": now,
    }


def _revision(connection: Connection, job_id: str) -> int:
    revision: int | None = connection.execute(select(jobs.c.revision).where(jobs.c.id == job_id)).scalar_one_or_none()
    if revision is None:
        raise NoSuchJob(job_id)
    return revision


def _refuse_known(connection: Connection, job_id: str, key: str) -> None:
    kept = _kept(connection, job_id, key)
    if kept is not None:
        raise AlreadyApplied(kept)


def _kept(connection: Connection, job_id: str, key: str) -> KeptReply | None:
    same_change = (changes.c.job_id == replies.c.job_id) & (changes.c.revision == replies.c.revision)
    wanted = select(replies.c.revision, replies.c.reply, changes.c.patch).join(changes, same_change)
    row = connection.execute(wanted.where(replies.c.job_id == job_id, replies.c.key == key)).one_or_none()
    if row is None:
        return None
    return KeptReply(row.revision, zlib.decompress(row.reply).decode(), json.loads(row.patch))


def _stale(connection: Connection, job_id: str, base_revision: int) -> Stale:
    revision = _revision(connection, job_id)
    wanted = select(changes.c.revision, changes.c.patch).where(
        changes.c.job_id == job_id, changes.c.revision > base_revision
    )
    rows = connection.execute(wanted.order_by(changes.c.revision)).all()
    return Stale(revision, [{"revision": row.revision, "patch": json.loads(row.patch)} for row in rows])


def _logged(row: Row[Any]) -> LoggedChange:
    return LoggedChange(
        revision=row.revision,
        patch=json.loads(row.patch),
        inverse=json.loads(row.inverse),
        editor=row.editor,
        step=row.step,
        gesture=row.gesture,
        does=row.does,
        at=row.at,
    )
