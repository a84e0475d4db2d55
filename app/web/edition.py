"""Addresses of scripts, styles and pictures that change with what is in their folder, so that nobody asks twice.

A page names two hundred of them. Under an address with the edition in it a browser keeps them for good, and an opened
bench asks for nothing but itself; under any other address it asks each time whether they have changed.
Scripts import each other by where they stand, and so stay within the edition of their page.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from flask import Flask, Response, g, request
from werkzeug.routing import BaseConverter

DIGITS = 12
FOR_GOOD = "private, max-age=31536000, immutable"
"""In the browser alone. A year is the longest that HTTP thinks of; immutable: not even a reload asks (RFC 8246)."""


class _Edition(BaseConverter):
    regex = f"[0-9a-f]{{{DIGITS}}}"


def register_edition(app: Flask) -> None:
    """Serve the static files of ``app`` under the address of their edition too, and name them so in its pages."""
    folder = Path(app.static_folder or "")

    def send(filename: str, edition: str = "") -> Response:
        g.lasts = edition == _current(folder)
        return app.send_static_file(filename)

    app.url_map.converters["edition"] = _Edition
    app.add_url_rule("/static/<edition:edition>/<path:filename>", endpoint="static")
    app.view_functions["static"] = send

    @app.url_defaults
    def add_edition(endpoint: str, values: dict[str, Any]) -> None:
        if endpoint == "static":
            values.setdefault("edition", _current(folder))


def lasts(reply: Response) -> bool:
    """Return whether a reply to this request may be kept for good."""
    return request.endpoint == "static" and reply.status_code in (200, 304) and bool(g.get("lasts"))


def _current(folder: Path) -> str:
    """Return the edition of a folder, found once a request: whoever edits a script sees it in the next page."""
    if "edition" not in g:
        g.edition = edition_of(folder)
    return str(g.edition)


def edition_of(folder: Path) -> str:
    """Return what changes whenever a file in a folder does."""
    found = hashlib.blake2b(digest_size=DIGITS // 2)
    for name, changed_ns, size in sorted(_files(folder)):
        found.update(f"{name}\0{changed_ns}\0{size}\0".encode())
    return found.hexdigest()


def _files(folder: Path | str) -> Iterator[tuple[str, int, int]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _files(entry.path)
            else:
                about = entry.stat()
                yield entry.path, about.st_mtime_ns, about.st_size
