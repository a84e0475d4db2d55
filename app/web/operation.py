"""What a route of the API takes and answers, said once beside the route.

Rules of the file: this registers the route with Flask and keeps its description. ``app.web.openapi`` reads the
descriptions; nothing about the API is written down anywhere else.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from flask import Blueprint
from pydantic import BaseModel

View = TypeVar("View", bound=Callable[..., Any])
JSON = "application/json"


@dataclass(frozen=True)
class Answer:
    """One answer of a route: what it means, its media type, and the shape of it where it is JSON.

    ``shape`` is a pydantic model, the name of a schema that this API serves (``job`` or ``kind``), or None.
    ``headers`` gives the words for each header that the answer carries besides those of every answer.
    """

    words: str
    shape: type[BaseModel] | str | None = None
    media_type: str | None = JSON
    headers: Mapping[str, str] | None = None


@dataclass(frozen=True)
class Body:
    """What a route reads from the request's body."""

    media_type: str
    shape: type[BaseModel] | str | tuple[type[BaseModel] | str, ...]


@dataclass(frozen=True)
class Header:
    """A header that a route reads."""

    name: str
    words: str
    required: bool = False


@dataclass(frozen=True)
class Operation:
    """One route with one method."""

    method: str
    path: str
    name: str
    words: str
    query: type[BaseModel] | None
    body: Body | None
    headers: tuple[Header, ...]
    answers: Mapping[int, Answer]
    refuses: tuple[int, ...]


class ApiBlueprint(Blueprint):
    """A blueprint that remembers what its routes take and answer."""

    def __init__(self, name: str, import_name: str) -> None:
        super().__init__(name, import_name)
        self.operations: list[Operation] = []

    def operation(
        self,
        method: str,
        path: str,
        *,
        answers: Mapping[int, Answer],
        query: type[BaseModel] | None = None,
        body: Body | None = None,
        headers: tuple[Header, ...] = (),
        refuses: tuple[int, ...] = (),
    ) -> Callable[[View], View]:
        """Register a view; its docstring is the description, ``refuses`` the statuses of its problem details."""

        def register(view: View) -> View:
            words = " ".join((view.__doc__ or "").split())
            self.add_url_rule(path, endpoint=view.__name__, view_func=view, methods=[method])
            self.operations.append(
                Operation(method, path, view.__name__, words, query, body, headers, answers, refuses)
            )
            return view

        return register
