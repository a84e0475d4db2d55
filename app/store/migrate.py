"""Brings a database to the newest form of its tables when it is opened."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Engine

from app.store.connection import writing


def migrate(engine: Engine) -> None:
    """Run the migrations that a database has not had yet.

    All of them run in one transaction under the write lock: of two processes that open a new database at the same
    time, the second waits and then finds nothing to do.
    """
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    with writing(engine).begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
