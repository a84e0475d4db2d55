"""Where there is room on a layout for parts that are to be added, so that adding one moves no other."""

from __future__ import annotations

from collections.abc import Sequence

from pydantic import Field

from app.drawing.connection.placing import free_place
from app.job.model import Part
from app.job.refusal import Refused
from app.web.query import LayoutQuery
from app.web.worked import Worked


class PlacesQuery(LayoutQuery):
    """The kinds for which room is wanted."""

    kind: tuple[str, ...] = Field((), description="A kind; repeatable.", max_length=40)


def places_for(worked: Worked, layout_name: str, kinds: Sequence[str]) -> list[tuple[int, int]]:
    """Return the upper left corner for a part of each kind; each takes its room before the next is asked.

    Raises:
        Refused: ``unknown-kind``.
    """
    layout = worked.job.layouts[layout_name]
    found: list[tuple[int, int]] = []
    for number, name in enumerate(kinds):
        if name not in worked.catalogue:
            raise Refused("unknown-kind", f"There is no kind {name}.", would_be_right="a kind of /kinds")
        part = Part(kind=name, label=worked.catalogue.kind(name).title)
        # A tilde stands in no id, so the name meets no part that is there, and it is last in any order.
        at = free_place(layout, worked.catalogue, part, f"~{number}")
        found.append((at.x, at.y))
        parts = {**layout.parts, f"~{number}": part.model_copy(update={"at": (at.x, at.y)})}
        layout = layout.model_copy(update={"parts": parts})
    return found
