"""The store as the rooms above use it, on a real file."""

import itertools
import re
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from app.store.connection import PRAGMAS
from app.store.jobs import FILE_NAME, JobStore, open_store
from app.store.records import AlreadyApplied, Change, NoSuchJob, Stale
from app.store.tables import metadata
from tests.store.patching import add, adding, start


@pytest.fixture
def store(tmp_path: Path) -> Iterator[JobStore]:
    opened = open_store(tmp_path)
    yield opened
    opened.close()


def titled(title: str, **more: Any) -> Change:
    """Return a change of the title."""
    patch = [{"op": "replace", "path": "/title", "value": title}]
    inverse = [{"op": "test", "path": "/title", "value": title}, {"op": "replace", "path": "/title", "value": "?"}]
    return Change(patch, inverse, {**start(), "title": title}, **more)


def test_a_new_job_is_at_revision_one_under_an_id_that_nobody_can_guess(store: JobStore) -> None:
    ids = {store.create(start()).id for _ in range(50)}
    assert len(ids) == 50
    assert all(re.fullmatch(r"[A-Za-z0-9_-]{22}", each) for each in ids)
    job = store.get(min(ids))
    assert (job.revision, job.document) == (1, start())


def test_a_document_comes_back_as_it_went_in(store: JobStore) -> None:
    document = {**start(), "notes": "Ω 😀 \n \"'; DROP TABLE jobs; --", "number": 1.0, "big": 2**53 - 1}
    back = store.get(store.create(document).id).document
    assert back == document
    assert list(back) == list(document)
    assert isinstance(back["number"], float)


def test_a_change_is_kept_with_its_log(store: JobStore) -> None:
    job = store.create(start())
    change = titled("new", key="k", editor="e-1", step="call it new", gesture="g-1", does="undo", reply="told")
    assert store.append(job.id, 1, change) == 2
    assert (store.get(job.id).revision, store.get(job.id).document["title"]) == (2, "new")
    assert store.revision_of(job.id) == 2
    (line,) = store.history(job.id)
    assert (line.revision, line.patch, line.inverse) == (2, list(change.patch), list(change.inverse))
    assert (line.editor, line.step, line.gesture, line.does) == ("e-1", "call it new", "g-1", "undo")
    kept = store.reply_for(job.id, "k")
    assert kept is not None
    assert (kept.revision, kept.reply, kept.patch) == (2, "told", list(change.patch))


def test_history_starts_after_a_revision(store: JobStore) -> None:
    job = store.create(start())
    for number in range(1, 5):
        store.append(job.id, number, titled(f"{number}"))
    assert [line.revision for line in store.history(job.id)] == [2, 3, 4, 5]
    assert [line.revision for line in store.history(job.id, after=3)] == [4, 5]
    assert store.history(job.id, after=5) == []


def test_a_change_from_an_old_revision_is_stale_and_told_what_it_missed(store: JobStore) -> None:
    job = store.create(start())
    store.append(job.id, 1, titled("one"))
    store.append(job.id, 2, titled("two"))
    with pytest.raises(Stale) as caught:
        store.append(job.id, 1, titled("late", key="late"))
    assert caught.value.revision == 3
    assert caught.value.missed == [
        {"revision": 2, "patch": list(titled("one").patch)},
        {"revision": 3, "patch": list(titled("two").patch)},
    ]
    assert store.get(job.id).document["title"] == "two"
    assert store.reply_for(job.id, "late") is None


def test_a_change_from_a_revision_that_never_was_is_stale(store: JobStore) -> None:
    job = store.create(start())
    with pytest.raises(Stale) as caught:
        store.append(job.id, 7, titled("from nowhere"))
    assert (caught.value.revision, caught.value.missed) == (1, [])


def test_a_patch_sent_twice_with_one_key_is_applied_once(store: JobStore) -> None:
    job = store.create(start())
    store.append(job.id, 1, titled("first", key="k", reply="first reply"))
    for base in (1, 2):
        with pytest.raises(AlreadyApplied) as caught:
            store.append(job.id, base, titled("second", key="k", reply="second reply"))
        assert (caught.value.kept.revision, caught.value.kept.reply) == (2, "first reply")
    assert [line.revision for line in store.history(job.id)] == [2]
    assert store.get(job.id).document["title"] == "first"


def test_a_key_belongs_to_one_job(store: JobStore) -> None:
    one, other = store.create(start()), store.create(start())
    store.append(one.id, 1, titled("one", key="k"))
    assert store.reply_for(other.id, "k") is None
    assert store.append(other.id, 1, titled("other", key="k")) == 2


def test_one_key_sent_by_many_threads_at_once_is_applied_once(store: JobStore) -> None:
    job = store.create(start())
    told: list[str] = []

    def send() -> None:
        try:
            store.append(job.id, 1, titled("x", key="k", reply="kept"))
            told.append("applied")
        except AlreadyApplied as already:
            told.append(already.kept.reply)

    threads = [threading.Thread(target=send) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(told) == ["applied"] + ["kept"] * 7
    assert len(store.history(job.id)) == 1


def test_threads_that_read_and_then_write_never_meet_a_lock_error(store: JobStore) -> None:
    job = store.create(start())
    failed: list[BaseException] = []

    def write(name: str) -> None:
        try:
            for number in range(15):
                add(store, job.id, f"{name}{number}")
        except BaseException as error:
            failed.append(error)

    threads = [threading.Thread(target=write, args=(name,)) for name in "abcd"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failed == []
    assert len(store.get(job.id).document["layouts"]["as-left"]["conductors"]) == 60


def test_what_is_not_there_is_said(store: JobStore) -> None:
    gone = store.create(start()).id
    store.append(gone, 1, titled("x", key="k"))
    store.delete(gone)
    for ask in (store.get, store.history, store.delete, store.revision_of):
        with pytest.raises(NoSuchJob):
            ask(gone)
    with pytest.raises(NoSuchJob):
        store.append(gone, 2, titled("x"))
    assert store.reply_for(gone, "k") is None


def test_the_list_has_the_job_changed_last_first(tmp_path: Path) -> None:
    ticks = itertools.count()
    store = open_store(tmp_path, clock=lambda: datetime(2025, 3, 1, tzinfo=UTC) + timedelta(minutes=next(ticks)))
    old, new = store.create({**start(), "title": "old"}), store.create({**start(), "title": "new"})
    assert [job.title for job in store.list()] == ["new", "old"]
    store.append(old.id, 1, titled("old again"))
    assert [(job.id, job.title, job.revision) for job in store.list()] == [
        (old.id, "old again", 2),
        (new.id, "new", 1),
    ]
    assert store.get(old.id).created_at == "2025-03-01T00:00:00.000Z"
    assert store.get(old.id).updated_at == store.history(old.id)[0].at == "2025-03-01T00:02:00.000Z"
    store.close()


def test_times_are_kept_in_utc_wherever_the_clock_stands(tmp_path: Path) -> None:
    east = timezone(timedelta(hours=5))
    store = open_store(tmp_path, clock=lambda: datetime(2025, 3, 1, 2, tzinfo=east))
    assert store.create(start()).created_at == "2025-02-28T21:00:00.000Z"
    store.close()


APPEND_ONLY = {
    "update": "UPDATE changes SET step = 'another'",
    "delete": "DELETE FROM changes",
    "replace": "INSERT OR REPLACE INTO changes SELECT job_id, revision, '[]', '[]', '', '', '', 'do', '' FROM changes",
}


@pytest.mark.parametrize("name", APPEND_ONLY)
def test_the_log_is_append_only_whoever_asks(store: JobStore, tmp_path: Path, name: str) -> None:
    job = store.create(start())
    store.append(job.id, 1, titled("x", step="kept"))
    with (
        closing(sqlite3.connect(tmp_path / FILE_NAME)) as other,
        pytest.raises(sqlite3.IntegrityError, match="append-only"),
    ):
        other.execute(APPEND_ONLY[name])
    assert [line.step for line in store.history(job.id)] == ["kept"]


def test_a_job_goes_with_its_log_and_replies_and_no_other_does(store: JobStore, tmp_path: Path) -> None:
    gone, stays = store.create(start()), store.create(start())
    for job in (gone, stays):
        store.append(job.id, 1, titled("x", key="k"))
    store.delete(gone.id)
    with closing(sqlite3.connect(tmp_path / FILE_NAME)) as other:
        for table in ("changes", "replies"):
            assert other.execute(f"SELECT job_id FROM {table}").fetchall() == [(stays.id,)]
    assert store.integrity_check() == []


def test_every_pooled_connection_is_set_as_it_must_be(store: JobStore) -> None:
    engine = store._reading
    connections = [engine.connect() for _ in range(8)]
    for connection in connections:
        found = {name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in PRAGMAS}
        connection.close()
        assert found == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 15_000}


def test_a_writer_waits_for_another_instead_of_failing(store: JobStore, tmp_path: Path) -> None:
    job = store.create(start())
    other = sqlite3.connect(tmp_path / FILE_NAME, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    waiting = threading.Thread(target=add, args=(store, job.id, "w1"))
    waiting.start()
    waiting.join(0.3)
    assert waiting.is_alive()
    assert store.revision_of(job.id) == 1, "readers do not wait"
    other.execute("COMMIT")
    other.close()
    waiting.join()
    assert store.history(job.id)[0].patch == adding("w1")


def test_the_migrations_make_the_tables_that_the_code_asks(store: JobStore) -> None:
    with store._reading.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []


def test_a_store_opened_again_has_all_that_it_had(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    job = store.create(start())
    store.append(job.id, 1, titled("kept", key="k", reply="told"))
    store.close()
    again = open_store(tmp_path)
    assert again.get(job.id).document["title"] == "kept"
    kept = again.reply_for(job.id, "k")
    assert kept is not None
    assert kept.reply == "told"
    again.close()


DAMAGE = {
    "a line of the log lost": ("DROP TRIGGER changes_go_only_with_their_job", "DELETE FROM changes WHERE revision = 3"),
    "a line without its job": ("INSERT INTO changes VALUES ('nobody', 2, '[]', '[]', '', '', '', 'do', '')",),
    "a revision too far": ("UPDATE jobs SET revision = 9",),
}


@pytest.mark.parametrize("name", DAMAGE)
def test_the_integrity_check_sees_damage(store: JobStore, tmp_path: Path, name: str) -> None:
    job = store.create(start())
    for revision in (1, 2, 3):
        store.append(job.id, revision, titled(f"{revision}"))
    assert store.integrity_check() == []
    with closing(sqlite3.connect(tmp_path / FILE_NAME)) as other:
        for statement in DAMAGE[name]:
            other.execute(statement)
        other.commit()
    assert len(store.integrity_check()) == 1
