"""How a layout is to be seen, as a request says it.

Rules of the file: the views are listed in ``app.drawing.views``; nothing is worked out or drawn here (``app.web.drawn``
does that).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from app.drawing.views import VIEWS

AN_HOUR_S = 3600.0


def _known(name: str) -> str:
    if name not in VIEWS:
        raise PydanticCustomError("unknown_view", "it is none of {views}", {"views": ", ".join(VIEWS)})
    return name


ViewName = Annotated[str, AfterValidator(_known), WithJsonSchema({"type": "string", "enum": list(VIEWS)})]
"""The name of a view."""


@dataclass(frozen=True)
class Picture:
    """What is to be seen of a layout.

    ``changes`` and ``for_s`` are the sequence of a view that shows one; ``from_rest`` has it begin with nothing asked
    for, and the calls of the situation asked for at 0 s. ``before`` is the layout that a view of two starts from.
    """

    view: str = "connection"
    live: bool = True
    insides: bool = False
    changes: Sequence[str] = ()
    for_s: float = AN_HOUR_S
    from_rest: bool = False
    everything: bool = False
    before: str | None = None
