"""The application factory: the only place that joins store, API and pages."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from flask import Flask

from app.job.json_values import MOST_BYTES
from app.store.jobs import open_store
from app.web.access import Access, register_access
from app.web.api import (
    changing,
    demos,
    documents,
    following,
    history,
    jobs,
    landings,
    lists,
    moments,
    papers,
    readings,
    sequences,
    stateless,
    strips,
    views,
)
from app.web.compressing import register_compression
from app.web.demos import Demos
from app.web.edition import register_edition
from app.web.key_page import EXTENSION as ACCESS
from app.web.key_page import blueprint as key_page
from app.web.pages import blueprint as pages
from app.web.problem import register_problems
from app.web.security import LOOPBACK_HOSTS, register_security
from app.web.service import EXTENSION, Service
from app.web.small_drawings import blueprint as small_drawings

HOME = Path(__file__).resolve().parents[2]
API = (
    jobs,
    changing,
    views,
    following,
    history,
    readings,
    moments,
    papers,
    lists,
    landings,
    strips,
    sequences,
    stateless,
    demos,
    documents,
)


def create_app(
    data_dir: Path,
    *,
    loopback: bool = True,
    allowed_hosts: Iterable[str] = LOOPBACK_HOSTS,
    demo_dir: Path | None = None,
    access: Access | None = None,
) -> Flask:
    """Return the application.

    Args:
        data_dir: where the jobs are kept; made where it is not there.
        loopback: only this machine can reach it, so that jobs may be listed.
        allowed_hosts: the names to which it answers, without port.
        demo_dir: a folder of demo jobs; those that come along where none is given.
        access: the key that everybody has to give; None where only this machine can reach it.
    """
    app = Flask("rungwright", root_path=str(HOME), static_folder="static", template_folder="templates")
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES + 1
    app.json.sort_keys = False  # type: ignore[attr-defined]
    service = Service(open_store(data_dir), Demos(demo_dir or HOME / "demo_jobs"), lists_jobs=loopback)
    app.extensions[EXTENSION] = service
    register_edition(app)
    register_security(app, allowed_hosts)
    register_compression(app)
    register_problems(app)
    if access is not None:
        app.extensions[ACCESS] = access
        register_access(app, access)
        app.register_blueprint(key_page)
    for topic in API:
        app.register_blueprint(topic.blueprint)
    app.register_blueprint(pages)
    app.register_blueprint(small_drawings)
    return app
