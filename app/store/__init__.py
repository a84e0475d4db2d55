"""The database: jobs, their revisions and the append-only log of their changes.

May import the core, SQLAlchemy and Alembic. Start reading at ``jobs``.
"""
