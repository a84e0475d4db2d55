"""What every request must show and every reply carries, so that a page elsewhere can neither read nor change a job.

``Host`` comes from an allow-list, so that a foreign name which is made to point here (DNS rebinding) is refused.
Whatever may change something must come from this same origin; a client that is no browser sends neither ``Origin``
nor ``Sec-Fetch-Site`` and is let through, because it holds no one's session. The address of a job is its key, hence
no referrer and no shared caches.
"""

from __future__ import annotations

from collections.abc import Iterable
from urllib.parse import urlsplit

from flask import Flask, Response, request

from app.web.edition import FOR_GOOD, lasts
from app.web.problem import Problem

LOOPBACK_HOSTS = ("127.0.0.1", "localhost", "[::1]")

_READING_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
_CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": _CONTENT_SECURITY_POLICY,
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


# What a script or a style sheet needs of them: the others are for documents, or keep from other pages what is nobody's
# secret here, and would double what each of two hundred small files costs.
PART_HEADERS = ("X-Content-Type-Options",)
_SCRIPT = "text/javascript"
_PARTS = (_SCRIPT, "text/css")


def register_security(app: Flask, allowed_hosts: Iterable[str]) -> None:
    """Make ``app`` answer only to ``allowed_hosts`` (names without port) and only to its own pages for writes."""
    names = frozenset(host.lower() for host in allowed_hosts)

    @app.before_request
    def refuse_foreigners() -> None:
        refuse_foreign_host(request.headers.get("Host", ""), names)
        if request.method not in _READING_METHODS:
            refuse_foreign_origin()

    @app.after_request
    def add_headers(reply: Response) -> Response:
        # The script of a worker is no part of a page, it has a policy of its own: hence the endpoint.
        is_part = request.endpoint == "static" and reply.mimetype in _PARTS
        for name in PART_HEADERS if is_part else HEADERS:
            reply.headers.setdefault(name, HEADERS[name])
        reply.headers["Cache-Control"] = _kept(reply, is_part)
        if is_part and reply.mimetype == _SCRIPT:
            # A module is UTF-8 by the HTML standard, whatever is said of it.
            reply.headers["Content-Type"] = _SCRIPT
        return reply


def _kept(reply: Response, is_part: bool) -> str:
    """Return what a browser is told of keeping a reply.

    What nobody asks for again needs no tag; what one browser keeps for itself is packed as that browser unpacks.
    """
    if lasts(reply):
        reply.headers.pop("ETag", None)
        reply.headers.pop("Vary", None)
        return FOR_GOOD
    if request.endpoint != "static":
        return "private"
    return "no-cache" if is_part else "private, no-cache"


def refuse_foreign_host(host: str, allowed: frozenset[str]) -> None:
    """Refuse a ``Host`` header whose name is not in ``allowed``.

    Raises:
        Problem: 403, ``host-not-allowed``.
    """
    if host_name(host) not in allowed:
        raise Problem(
            403,
            "host-not-allowed",
            f"This server does not answer to the name {host[:200]!r}.",
            would_be_right="one of " + ", ".join(sorted(allowed)) + "; serve --allow-host adds a name",
        )


def refuse_foreign_origin() -> None:
    """Refuse a write that a page of another origin caused.

    Raises:
        Problem: 403, ``origin-not-same``.
    """
    site = request.headers.get("Sec-Fetch-Site")
    origin = request.headers.get("Origin")
    same_site = site in (None, "same-origin", "none")
    same_origin = origin is None or _same_origin(origin)
    if not (same_site and same_origin):
        raise Problem(
            403,
            "origin-not-same",
            "A page of another origin may not change anything here.",
            would_be_right=f"a request from {request.scheme}://{request.host}",
        )


def host_name(host: str) -> str:
    """Return the name of a ``Host`` header in lower case, without its port; IPv6 keeps its brackets."""
    host = host.strip().lower()
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0]


def _same_origin(origin: str) -> bool:
    try:
        parts = urlsplit(origin)
    except ValueError:
        return False
    return (parts.scheme, parts.netloc.lower()) == (request.scheme, request.host.lower())
