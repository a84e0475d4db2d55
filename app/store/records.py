"""What goes into the store and what comes out of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

Does = Literal["do", "undo", "redo"]
Operations = Sequence[Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class StoredJob:
    """A job at a revision; the first revision is 1. Times are UTC in ISO 8601."""

    id: str
    revision: int
    document: Mapping[str, Any]
    created_at: str
    updated_at: str


@dataclass(frozen=True, slots=True)
class ListedJob:
    """What a list of jobs says of each."""

    id: str
    title: str
    revision: int
    updated_at: str


@dataclass(frozen=True, slots=True)
class Change:
    """A change that has been judged and is to be kept.

    ``document_after`` is the whole document after it. ``key`` is the caller's name of this request, under which
    ``reply`` (a text) is kept; without a key nothing is kept for a repetition. The reply may speak of the new
    revision: it is always ``base_revision + 1``.
    """

    patch: Operations
    inverse: Operations
    document_after: Mapping[str, Any]
    key: str | None = None
    editor: str = ""
    step: str = ""
    gesture: str = ""
    does: Does = "do"
    reply: str = ""


@dataclass(frozen=True, slots=True)
class LoggedChange:
    """A line of the log: the change that led to ``revision``."""

    revision: int
    patch: list[dict[str, Any]]
    inverse: list[dict[str, Any]]
    editor: str
    step: str
    gesture: str
    does: Does
    at: str


@dataclass(frozen=True, slots=True)
class KeptReply:
    """The first reply to a key, the revision that it made, and the patch that was sent."""

    revision: int
    reply: str
    patch: list[dict[str, Any]]


class NoSuchJob(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """There is no job of this id."""


class Stale(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """A change was made from a revision that is not the newest; nothing was kept.

    ``revision`` is the newest one, ``missed`` the changes since the one that the change was made from.
    """

    def __init__(self, revision: int, missed: list[dict[str, Any]]) -> None:
        super().__init__(f"the job is at revision {revision}")
        self.revision = revision
        self.missed = missed


class AlreadyApplied(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """A change with this key was kept already, perhaps a moment ago by another thread; nothing was kept again."""

    def __init__(self, kept: KeptReply) -> None:
        super().__init__(f"applied as revision {kept.revision}")
        self.kept = kept
