"""How the database is spoken to.

Rules of the file: every connection is set the same way and asked whether it took it. Reading transactions are
deferred and never write; writing ones take the write lock as their first act, because a transaction that reads first
and writes later fails at once when somebody else wrote in between, however long the busy timeout is. Whatever takes
time (patching, judging, drawing, compressing) is done before a writing transaction begins.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from sqlite3 import Connection as SqliteConnection

from sqlalchemy import Connection, Engine, create_engine, event

BUSY_TIMEOUT_MS = 15_000

PRAGMAS: Mapping[str, str | int] = {
    "busy_timeout": BUSY_TIMEOUT_MS,
    "journal_mode": "wal",
    "synchronous": 2,
    "foreign_keys": 1,
}
"""What every connection must answer; synchronous 2 is FULL. The timeout comes first, so that the rest waits too."""

_LOCK_FIRST = "rungwright_lock_first"


def open_engine(file: Path) -> Engine:
    """Return the engine of a database file."""
    engine = create_engine(f"sqlite:///{file}")
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def writing(engine: Engine) -> Engine:
    """Return the same engine, whose transactions take the write lock when they begin."""
    return engine.execution_options(**{_LOCK_FIRST: True})


def _set_up(connection: SqliteConnection, _record: object) -> None:
    # The driver would begin transactions on its own, late and deferred; _begin does it instead.
    connection.isolation_level = None
    for name, wanted in PRAGMAS.items():
        connection.execute(f"PRAGMA {name} = {wanted}")
        (found,) = connection.execute(f"PRAGMA {name}").fetchone()
        if found != wanted:
            raise RuntimeError(f"the database did not take {name} = {wanted}; it answers {found}")


def _begin(connection: Connection) -> None:
    lock_first = connection.get_execution_options().get(_LOCK_FIRST, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if lock_first else "BEGIN")
