"""Revisions in headers (``ETag``, ``If-Match``, ``If-None-Match``), and the headers of the bench for the log."""

from __future__ import annotations

import re
from urllib.parse import unquote

from flask import request

from app.web.problem import Problem

_REVISION = re.compile(r'"([1-9][0-9]{0,17})"')
_TOKEN = re.compile(r"[\x21-\x7e]+")
DOES = ("do", "undo", "redo")


def etag(revision: int) -> str:
    """Return the ETag of a revision: ``"7"``."""
    return f'"{revision}"'


def expected_revision() -> int:
    """Return the revision that the request names in ``If-Match``.

    Raises:
        Problem: 428 where there is none, 400 where it is not a revision of ours.
    """
    said = request.headers.get("If-Match")
    right = 'If-Match: "7", with the revision on which the change was made'
    if said is None or said.strip() == "*":
        raise Problem(428, "if-match-missing", "A change must name the revision it was made on.", would_be_right=right)
    found = _REVISION.fullmatch(said.strip())
    if found is None:
        raise Problem(400, "if-match-malformed", "If-Match does not hold one revision.", would_be_right=right)
    return int(found.group(1))


def is_known_revision(revision: int) -> bool:
    """Return whether the client says, by ``If-None-Match``, that it already has this revision."""
    said = request.headers.get("If-None-Match", "")
    return etag(revision) in (word.strip().removeprefix("W/") for word in said.split(","))


def token_header(name: str, most: int) -> str:
    """Return a header that holds one word of up to ``most`` characters, empty where it is absent.

    Raises:
        Problem: 400, it is longer, or holds something other than visible ASCII.
    """
    said = request.headers.get(name)
    if said is None:
        return ""
    if _TOKEN.fullmatch(said) is None or len(said) > most:
        raise Problem(
            400,
            "header-malformed",
            f"The header {name} cannot be read.",
            would_be_right=f"up to {most} visible ASCII characters without a space",
        )
    return said


def words_header(name: str) -> str:
    """Return a header that holds words as percent-encoded UTF-8, empty where it is absent.

    Raises:
        Problem: 400, it is not UTF-8 or longer than 400 characters.
    """
    said = request.headers.get(name, "")
    try:
        words = unquote(said, errors="strict")
        words.encode("utf-8")
    except UnicodeError:
        words = ""
        said = "unreadable"
    if (said and not words.strip()) or len(words) > 400 or not words.isprintable():
        raise Problem(
            400,
            "header-malformed",
            f"The header {name} cannot be read.",
            would_be_right="up to 400 characters as percent-encoded UTF-8, such as land%20w7%20on%20Y",
        )
    return words


def does_header() -> str:
    """Return what the change is for its editor: ``do``, ``undo`` or ``redo``.

    Raises:
        Problem: 400, it is something else.
    """
    said = request.headers.get("Rungwright-Does", "do")
    if said not in DOES:
        raise Problem(
            400, "header-malformed", "The header Rungwright-Does cannot be read.", would_be_right="do, undo or redo"
        )
    return said
