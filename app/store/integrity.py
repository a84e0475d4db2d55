"""Whether the file, its references and its revisions are whole."""

from __future__ import annotations

from sqlalchemy import Connection, func, select

from app.store.tables import changes, jobs


def faults_of(connection: Connection) -> list[str]:
    """Return what is wrong, in words; nothing if all is well.

    A job is whole when its log leads from revision 2 to its own without a gap.
    """
    faults = [row[0] for row in connection.exec_driver_sql("PRAGMA integrity_check") if row[0] != "ok"]
    faults += [
        f"{row[0]}: row {row[1]} lacks its {row[2]}" for row in connection.exec_driver_sql("PRAGMA foreign_key_check")
    ]
    count, first, last = func.count(changes.c.revision), func.min(changes.c.revision), func.max(changes.c.revision)
    lines = (
        select(jobs.c.id, jobs.c.revision, count.label("lines"), first.label("first"), last.label("last"))
        .join(changes, changes.c.job_id == jobs.c.id, isouter=True)
        .group_by(jobs.c.id)
    )
    for row in connection.execute(lines.order_by(jobs.c.id)):
        whole = row.lines == row.revision - 1 and (row.lines == 0 or (row.first == 2 and row.last == row.revision))
        if not whole:
            faults.append(f"job {row.id}: at revision {row.revision}, but its log has {row.lines} changes")
    return faults
