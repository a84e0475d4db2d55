"""How the core says no.

Rules of the file: every expected failure of the core is a ``Refused`` with a stable ``code``. It carries what a
person needs (what is wrong, where, what would be right) and a hint of the HTTP status, so that the doors can answer
well while the core knows no web. Misuse by a programmer is an ordinary exception instead.
"""

from __future__ import annotations


class Refused(Exception):  # noqa: N818 - it is the answer to a person, not a fault of the program
    """An input that was refused whole; nothing has changed.

    Args:
        code: stable name of the reason, kebab-case, such as ``unknown-terminal``.
        message: what is wrong, one sentence for a person.
        pointer: JSON Pointer to the place in the document or patch, if there is one.
        would_be_right: what would be accepted instead, if that can be said.
        status_hint: the HTTP status that fits (409, 413, 422).
    """

    def __init__(
        self,
        code: str,
        message: str,
        *,
        pointer: str | None = None,
        would_be_right: str | None = None,
        status_hint: int = 422,
    ) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.pointer = pointer
        self.would_be_right = would_be_right
        self.status_hint = status_hint
