"""The page on which the key is given, only there where the server asks for one."""

from __future__ import annotations

from flask import Blueprint, Response, current_app, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from app.web.access import Access, source_of_request, with_cookie
from app.web.problem import Problem

EXTENSION = "rungwright-access"
MOST_CHARACTERS = 100

blueprint = Blueprint("key", __name__)


@blueprint.get("/key")
def ask() -> Response:
    """The field for the key."""
    return _page(inside(request.args.get("to", "/")), "", 200)


@blueprint.post("/key")
def give() -> AnyResponse:
    """Take the key, once; then the browser has a cookie."""
    access: Access = current_app.extensions[EXTENSION]
    to = inside(request.form.get("to", "/"))
    try:
        right = access.accept(request.form.get("key", "")[:MOST_CHARACTERS], source_of_request())
    except Problem as problem:
        said = f"{problem.detail} Try again in {problem.headers['Retry-After']} seconds."
        return _page(to, said, 429, problem.headers["Retry-After"])
    if not right:
        return _page(to, "This is not the key. It stands where the server was started.", 403)
    return with_cookie(redirect(to, 303), access)


def inside(to: str) -> str:
    """Return an address if it lies on this server, else that of the jobs, so that no link leads elsewhere."""
    if not to.startswith("/") or to[1:2] in ("/", "\\") or any(ord(letter) < 33 for letter in to):
        return url_for("pages.jobs")
    return to


def _page(to: str, said: str, status: int, wait_s: str = "") -> Response:
    reply = make_response(render_template("key.html", to=to, said=said), status)
    # Where a page sends no referrer at all, browsers say of its forms that they come from nowhere.
    reply.headers["Referrer-Policy"] = "same-origin"
    if wait_s:
        reply.headers["Retry-After"] = wait_s
    return reply
