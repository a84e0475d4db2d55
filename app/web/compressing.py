"""Replies packed for browsers that unpack them: text becomes a quarter or less of its size.

What stands still (scripts, styles) is served without what only people need, packed once, as small as it gets, and kept.
What is made for one request is packed quickly, because then nobody waits less for a smaller reply. A small file must
not come with more headers than text; its ETag, a short one of what it holds, says all that the cache of a browser asks.
Any other ETag stays as it is: here it names a revision, whichever way that is packed, and comes back in ``If-Match``.
"""

from __future__ import annotations

import gzip
import hashlib
from functools import lru_cache

from flask import Flask, Response, request

from app.web.slimming import is_slimmed, slim

LEAST_BYTES = 1000
"""What is smaller fits into one packet anyway."""
LEAST_BYTES_OF_MANY = 250
"""A page asks for two hundred scripts at once, so that packets are filled by all of them together."""
QUICKLY, WELL, SMALL = 3, 6, 9
KEPT = 300
_SAID_BY_THE_TAG = ("Last-Modified", "Content-Disposition", "Accept-Ranges")
_TEXTS = frozenset({"text/javascript", "application/javascript", "image/svg+xml"})


def register_compression(app: Flask) -> None:
    """Make ``app`` pack what it replies wherever the client says that it can unpack it."""

    @app.after_request
    def pack(reply: Response) -> Response:
        if not _is_text(reply.mimetype or ""):
            return reply
        reply.vary.add("Accept-Encoding")
        if request.endpoint == "static":
            for name in _SAID_BY_THE_TAG:
                reply.headers.pop(name, None)
            if reply.status_code == 200 and is_slimmed(reply.mimetype or ""):
                _slim(reply)
        if reply.status_code == 200 and "Content-Encoding" not in reply.headers and _unpacks():
            _pack(reply)
        return reply


def _is_text(media_type: str) -> bool:
    return media_type.startswith("text/") or media_type in _TEXTS or media_type.endswith("json")


def _unpacks() -> bool:
    return request.method != "HEAD" and request.accept_encodings["gzip"] > 0


def _slim(reply: Response) -> None:
    # A file would else be passed on to the server as it is, without being read here.
    reply.direct_passthrough = False
    data = slim(reply.get_data(), reply.mimetype or "")
    reply.set_data(data)
    reply.set_etag(_tag_of(data))
    reply.make_conditional(request)


def _pack(reply: Response) -> None:
    reply.direct_passthrough = False
    data = reply.get_data()
    stands_still = request.endpoint == "static"
    if len(data) >= (LEAST_BYTES_OF_MANY if stands_still else LEAST_BYTES):
        level = WELL if reply.mimetype == "text/html" else QUICKLY
        reply.set_data(_packed_once(data) if stands_still else _packed(data, level))
        reply.headers["Content-Encoding"] = "gzip"


@lru_cache(maxsize=KEPT)
def _tag_of(data: bytes) -> str:
    return hashlib.blake2b(data, digest_size=6).hexdigest()


@lru_cache(maxsize=KEPT)
def _packed_once(data: bytes) -> bytes:
    return _packed(data, SMALL)


def _packed(data: bytes, level: int) -> bytes:
    # Without a time, the same text gives the same bytes.
    return gzip.compress(data, level, mtime=0)
