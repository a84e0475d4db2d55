"""Jobs, the log of their changes, and the replies kept for repeated keys."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

# The log only grows: it changes for nobody, and goes only together with its whole job. The insert trigger is there
# because INSERT OR REPLACE takes a row out without asking the delete trigger.
_TRIGGERS = (
    """
    CREATE TRIGGER changes_never_change BEFORE UPDATE ON changes
    BEGIN SELECT RAISE(ABORT, 'the log of changes is append-only'); END
    """,
    """
    CREATE TRIGGER changes_go_only_with_their_job BEFORE DELETE ON changes
    WHEN EXISTS (SELECT 1 FROM jobs WHERE id = OLD.job_id)
    BEGIN SELECT RAISE(ABORT, 'the log of changes is append-only'); END
    """,
    """
    CREATE TRIGGER changes_are_never_replaced BEFORE INSERT ON changes
    WHEN EXISTS (SELECT 1 FROM changes WHERE job_id = NEW.job_id AND revision = NEW.revision)
    BEGIN SELECT RAISE(ABORT, 'the log of changes is append-only'); END
    """,
)


def upgrade() -> None:
    op.create_table(
        "jobs",
        sa.Column("id", sa.String(22), primary_key=True),
        sa.Column("document", sa.Text, nullable=False),
        sa.Column("revision", sa.Integer, sa.CheckConstraint("revision >= 1", name="revision_from_1"), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("updated_at", sa.String(32), nullable=False),
    )
    op.create_table(
        "changes",
        sa.Column("job_id", sa.String(22), sa.ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("revision", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("patch", sa.Text, nullable=False),
        sa.Column("inverse", sa.Text, nullable=False),
        sa.Column("editor", sa.String(64), nullable=False),
        sa.Column("step", sa.Text, nullable=False),
        sa.Column("gesture", sa.String(64), nullable=False),
        sa.Column(
            "does", sa.String(4), sa.CheckConstraint("does IN ('do', 'undo', 'redo')", name="does_one"), nullable=False
        ),
        sa.Column("at", sa.String(32), nullable=False),
    )
    op.create_table(
        "replies",
        sa.Column("job_id", sa.String(22), sa.ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("key", sa.String(255), primary_key=True),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("reply", sa.LargeBinary, nullable=False),
    )
    for trigger in _TRIGGERS:
        op.execute(trigger)
