"""Replies in JSON, with the keys in the order in which they were said.

NaN and infinities never leave: they would not be JSON, and a browser could not read the reply.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from flask import Response


def json_text(value: Any) -> str:
    """Return ``value`` as compact JSON.

    Raises:
        ValueError: there is a NaN or an infinity in it.
    """
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def json_reply(
    value: Any,
    status: int = 200,
    headers: Mapping[str, str] | None = None,
    *,
    media_type: str = "application/json",
) -> Response:
    """Return a reply that carries ``value`` as JSON."""
    # Half a surrogate pair can come in with a refused text; as an escape it is JSON, as UTF-8 it would not be.
    data = json_text(value).encode("utf-8", "backslashreplace")
    reply = Response(data + b"\n", status=status, content_type=media_type)
    reply.headers.update(dict(headers or {}))
    return reply
