"""Run by Alembic for each migration; the connection and its transaction are those of ``app.store.migrate``."""

from __future__ import annotations

from alembic import context

from app.store.tables import metadata

context.configure(connection=context.config.attributes["connection"], target_metadata=metadata)
with context.begin_transaction():
    context.run_migrations()
