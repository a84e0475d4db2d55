"""The body of a request: its media type and size are judged before its bytes are read."""

from __future__ import annotations

from flask import request

from app.web.operation import JSON
from app.web.problem import Problem

PATCH_JSON = "application/json-patch+json"


def read_body(media_type: str, most_bytes: int, what: str) -> bytes:
    """Return the bytes of the body.

    Raises:
        Problem: 415 where the media type is another one, 413 where there are more than ``most_bytes``.
    """
    if request.mimetype != media_type:
        raise Problem(
            415,
            "media-type-unsupported",
            f"The {what} is sent as {request.mimetype or 'nothing that is named'}.",
            would_be_right=f"Content-Type: {media_type}",
            pointer="",
        )
    if (request.content_length or 0) > most_bytes:
        raise _too_large(what, most_bytes)
    request.max_content_length = most_bytes + 1
    data = request.get_data(cache=False)
    if len(data) > most_bytes:
        raise _too_large(what, most_bytes)
    return data


def read_json_body(most_bytes: int, what: str) -> bytes:
    """Return the bytes of a body that must be JSON; see ``read_body``."""
    return read_body(JSON, most_bytes, what)


def _too_large(what: str, most_bytes: int) -> Problem:
    return Problem(
        413,
        "too-large",
        f"The {what} is larger than may be sent here.",
        would_be_right=f"at most {most_bytes:,} bytes",
        pointer="",
    )
