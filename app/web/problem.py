"""How the web says no: problem details (RFC 9457).

Rules of the file: every reply of 400 and above is made here, also those that Flask raises by itself. A ``Refused`` of
the core becomes a problem without loss; what nobody expected becomes a 500 that carries a short reference, under
which the log has the traceback, and nothing of the program's insides.
"""

from __future__ import annotations

import logging
import secrets
from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from flask import Flask, Response
from werkzeug.exceptions import HTTPException

from app.job.refusal import Refused
from app.store.records import NoSuchJob
from app.web.reply import json_reply

MEDIA_TYPE = "application/problem+json"

_log = logging.getLogger("rungwright")

_WORDS = {
    404: ("not-found", "There is nothing at this address.", None),
    405: ("method-not-allowed", "This address does not answer this method.", None),
    413: ("too-large", "The request is larger than may be sent here.", None),
    415: ("media-type-unsupported", "The media type of the request is not one that is read here.", None),
}


class Problem(Exception):  # noqa: N818 - it is an answer to the client, not a fault of the program
    """A refusal that the web makes by itself: preconditions, media types, origins.

    Args:
        status: the HTTP status.
        code: stable name of the reason, kebab-case.
        detail: what is wrong, in a sentence.
        would_be_right: what would be accepted instead.
        pointer: JSON Pointer into what was sent.
        more: further members of the reply, such as ``missed``.
        headers: further headers of the reply.
    """

    def __init__(
        self,
        status: int,
        code: str,
        detail: str,
        *,
        would_be_right: str | None = None,
        pointer: str | None = None,
        more: Mapping[str, Any] | None = None,
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(detail)
        self.status = status
        self.code = code
        self.detail = detail
        self.would_be_right = would_be_right
        self.pointer = pointer
        self.more = dict(more or {})
        self.headers = dict(headers or {})


def register_problems(app: Flask) -> None:
    """Make ``app`` answer every failure with a problem detail."""
    app.register_error_handler(Problem, problem_reply)
    app.register_error_handler(Refused, lambda refused: problem_reply(_from_refused(refused)))
    app.register_error_handler(NoSuchJob, lambda missing: problem_reply(_no_such_job()))
    app.register_error_handler(HTTPException, lambda error: problem_reply(_from_http(error)))
    app.register_error_handler(Exception, lambda error: problem_reply(_from_surprise(error)))


def problem_reply(problem: Problem) -> Response:
    """Return the reply that says ``problem``."""
    members: dict[str, Any] = {
        "type": "about:blank",
        "title": HTTPStatus(problem.status).phrase,
        "status": problem.status,
        "code": problem.code,
        "detail": problem.detail,
    }
    if problem.pointer is not None:
        members["pointer"] = problem.pointer
    if problem.would_be_right is not None:
        members["would_be_right"] = problem.would_be_right
    return json_reply({**members, **problem.more}, problem.status, problem.headers, media_type=MEDIA_TYPE)


def _from_refused(refused: Refused) -> Problem:
    # What is refused is always something that was sent, so the pointer falls back to the whole of it.
    return Problem(
        refused.status_hint,
        refused.code,
        refused.message,
        pointer=refused.pointer if refused.pointer is not None else "",
        would_be_right=refused.would_be_right,
    )


def _no_such_job() -> Problem:
    return Problem(404, "no-such-job", "There is no job with this address. It may have been deleted.")


def _from_http(error: HTTPException) -> Problem:
    status = error.code or 500
    default = (HTTPStatus(status).phrase.lower().replace(" ", "-"), error.description or "", None)
    code, detail, would_be_right = _WORDS.get(status, default)
    headers = {}
    allowed = getattr(error, "valid_methods", None)
    if allowed:
        headers["Allow"] = ", ".join(sorted(allowed))
        would_be_right = "one of " + headers["Allow"]
    pointer = "" if status in (413, 415) else None
    return Problem(status, code, detail, pointer=pointer, would_be_right=would_be_right, headers=headers)


def _from_surprise(error: Exception) -> Problem:
    ref = secrets.token_hex(4)
    _log.error("unexpected failure, ref %s", ref, exc_info=error)
    return Problem(500, "server-failed", f"The server could not answer (ref {ref}).", more={"ref": ref})
