"""Who may come in where others can reach the server: whoever has given the key that it prints, once.

Rules of the file: a browser gives the key on a page and gets a cookie for it; other clients send it with each request.
Keys are compared in a time that says nothing about them, and wrong ones are counted, so that nobody tries them all.
The cookie is made from the key, so that it holds as long as the key does and no list of visitors is kept. On plain
HTTP both can be read by whoever listens; that is said where the key is printed.
"""

from __future__ import annotations

import hmac
import re
import secrets
import time
from collections import deque
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from threading import Lock

from flask import Flask, redirect, request, url_for
from werkzeug.wrappers import Response

from app.web.problem import Problem

COOKIE = "rungwright_key"
COOKIE_AGE_S = 180 * 24 * 3600
FILE_NAME = "access-key"
LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""No letter is in it that could be read as another: 30 letters, ten of them are 49 bits."""
LENGTH = 10
WINDOW_S = 60.0
MOST_WRONG_FROM_ONE = 5
MOST_WRONG_IN_ALL = 60
OPEN_ENDPOINTS = frozenset({"static", "key.ask", "key.give", "documents.health"})


class Tries:
    """Wrong keys of the last minute, by where they came from. Safe to use from several threads."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._wrong: deque[tuple[float, str]] = deque()
        self._lock = Lock()

    def wait_s(self, source: str) -> float:
        """Return how long ``source`` has to wait until it may try a key again, 0 where it may."""
        with self._lock:
            now = self._forget()
            own = [at for at, whose in self._wrong if whose == source]
            waits = [0.0]
            if len(own) >= MOST_WRONG_FROM_ONE:
                waits.append(own[-MOST_WRONG_FROM_ONE] + WINDOW_S - now)
            if len(self._wrong) >= MOST_WRONG_IN_ALL:
                waits.append(self._wrong[-MOST_WRONG_IN_ALL][0] + WINDOW_S - now)
            return max(waits)

    def wrong(self, source: str) -> None:
        """Note that ``source`` gave a wrong key."""
        with self._lock:
            self._wrong.append((self._forget(), source))

    def _forget(self) -> float:
        now = self._clock()
        while self._wrong and self._wrong[0][0] <= now - WINDOW_S:
            self._wrong.popleft()
        return now


class Access:
    """The key of a server, and who has given it."""

    def __init__(self, key: str, tries: Tries | None = None) -> None:
        self.key = key
        self.tries = tries or Tries()
        self._cookie = hmac.new(plain(key).encode(), b"rungwright cookie", sha256).hexdigest()

    @property
    def cookie(self) -> str:
        """What the cookie of whoever gave the key holds."""
        return self._cookie

    def is_cookie(self, said: str) -> bool:
        """Return whether a cookie is the one for this key."""
        return hmac.compare_digest(said.encode(), self._cookie.encode())

    def accept(self, said: str, source: str) -> bool:
        """Return whether a key is right; a wrong one is counted.

        Raises:
            Problem: 429, there were too many wrong ones; the key is not even looked at then.
        """
        wait_s = self.tries.wait_s(source)
        if wait_s > 0:
            seconds = int(wait_s) + 1
            raise Problem(
                429,
                "too-many-keys",
                "Too many wrong keys were given.",
                would_be_right=f"the printed key, in {seconds} seconds",
                headers={"Retry-After": str(seconds)},
            )
        right = hmac.compare_digest(plain(said).encode(), plain(self.key).encode())
        if not right:
            self.tries.wrong(source)
        return right


def plain(key: str) -> str:
    """Return a key as it is compared: in capitals, without hyphens and spaces."""
    return re.sub(r"[\s-]", "", key).upper()


def new_key() -> str:
    """Return a key that nobody knows yet, in two groups: ``7KQ2X-M4RT9``."""
    letters = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
    return f"{letters[: LENGTH // 2]}-{letters[LENGTH // 2 :]}"


def kept_key(data_dir: Path, *, renew: bool = False) -> str:
    """Return the key that lies beside the jobs, made where there is none, so that it is asked for only once.

    ``renew`` makes another one, after which everybody has to give it anew.
    """
    file = data_dir / FILE_NAME
    data_dir.mkdir(parents=True, exist_ok=True)
    if file.exists() and not renew:
        key = file.read_text(encoding="ascii").strip()
        if len(plain(key)) >= LENGTH:
            return key
    key = new_key()
    file.unlink(missing_ok=True)
    file.touch(mode=0o600)
    file.write_text(key + "\n", encoding="ascii")
    return key


def register_access(app: Flask, access: Access) -> None:
    """Make ``app`` ask for the key: pages lead to where it is given, everything else says that it is needed."""

    @app.before_request
    def ask_for_key() -> Response | None:
        if request.endpoint in OPEN_ENDPOINTS or access.is_cookie(request.cookies.get(COOKIE, "")):
            return None
        if _gave_key(access):
            return None
        if request.method == "GET" and not request.path.startswith("/api/") and _wants_page():
            return redirect(url_for("key.ask", to=request.full_path.rstrip("?")), 303)
        raise Problem(
            401,
            "key-needed",
            "This server asks for the key that it printed when it was started.",
            would_be_right="Authorization: Bearer KEY, or the key given once on the page /key",
            headers={"WWW-Authenticate": 'Bearer realm="Rungwright"'},
        )


def _gave_key(access: Access) -> bool:
    scheme, _, said = request.headers.get("Authorization", "").partition(" ")
    return scheme.lower() == "bearer" and bool(said) and access.accept(said, source_of_request())


def source_of_request() -> str:
    """Return where the present request comes from. What stands in headers is not believed."""
    return request.remote_addr or ""


def _wants_page() -> bool:
    return "text/html" in request.headers.get("Accept", "")


def with_cookie(reply: Response, access: Access) -> Response:
    """Return a reply with the cookie of whoever gave the key."""
    reply.set_cookie(COOKIE, access.cookie, max_age=COOKIE_AGE_S, httponly=True, samesite="Lax", path="/")
    return reply
