"""What is inside a kind, kept from one drawing to the next.

Rules of the file: a kind is frozen, so one and the same kind always has the same inside. It is found by what it is, not
by its name, which another job may give to another kind; as long as it is kept, nothing else can take its place.
"""

from __future__ import annotations

from functools import lru_cache

from app.catalogue.kind import Kind
from app.drawing.connection.inside.laying import LaidInside, lay_inside

KEPT_MOST = 256


class _Same:
    """A kind that equals nothing but itself."""

    def __init__(self, kind: Kind) -> None:
        self.kind = kind

    def __hash__(self) -> int:
        return id(self.kind)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.kind is other.kind


def inside_laid(kind: Kind, hidden: tuple[str, ...], beside: int) -> LaidInside | None:
    """Return what ``lay_inside`` gives."""
    return _laid(_Same(kind), hidden, beside)


@lru_cache(maxsize=KEPT_MOST)
def _laid(same: _Same, hidden: tuple[str, ...], beside: int) -> LaidInside | None:
    return lay_inside(same.kind, hidden, beside)
