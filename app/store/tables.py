"""The tables, as the code asks them. ``migrations`` makes them; a test holds the two equal.

Times are UTC in ISO 8601. A reply is kept compressed, because it holds a whole drawing.
"""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Column, ForeignKey, Integer, LargeBinary, MetaData, String, Table, Text

metadata = MetaData()

jobs = Table(
    "jobs",
    metadata,
    Column("id", String(22), primary_key=True),
    Column("document", Text, nullable=False),
    Column("revision", Integer, CheckConstraint("revision >= 1", name="revision_from_1"), nullable=False),
    Column("created_at", String(32), nullable=False),
    Column("updated_at", String(32), nullable=False),
)

changes = Table(
    "changes",
    metadata,
    Column("job_id", String(22), ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
    Column("revision", Integer, primary_key=True, autoincrement=False),
    Column("patch", Text, nullable=False),
    Column("inverse", Text, nullable=False),
    Column("editor", String(64), nullable=False),
    Column("step", Text, nullable=False),
    Column("gesture", String(64), nullable=False),
    Column("does", String(4), CheckConstraint("does IN ('do', 'undo', 'redo')", name="does_one"), nullable=False),
    Column("at", String(32), nullable=False),
)

replies = Table(
    "replies",
    metadata,
    Column("job_id", String(22), ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
    Column("key", String(255), primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("reply", LargeBinary, nullable=False),
)
