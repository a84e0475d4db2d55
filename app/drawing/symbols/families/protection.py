"""What opens when too much is drawn: fuse and breaker. Open, the way through is gone."""

from __future__ import annotations

from app.drawing.surface.verbs import MARK
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol


def _fuse(ink: Ink, whole: bool | None) -> None:
    if whole is False:
        ink.line((14, 0), (20, -7), pen=MARK)
        ink.line((40, 7), (46, 0), pen=MARK)
        ink.line((25, -6), (35, 6))
        ink.line((25, 6), (35, -6))
    else:
        ink.arch((14, 0), (30, 0), MARK)
        ink.arch((46, 0), (30, 0), MARK)


def _breaker(ink: Ink, whole: bool | None) -> None:
    for post in (14, 46):
        ink.ring(post, 0, 3)
    if whole is False:
        ink.line((16, -3), (40, -16), pen=MARK)
    else:
        ink.arch((18, -3), (42, -3), MARK)


SYMBOLS = (
    Symbol("fuse", "fuse", "IEEE 315 fuse (from memory); the cross of an open one is our own", _fuse, 14, 46, True),
    Symbol("breaker", "breaker, set again by hand", "IEEE 315 breaker (from memory)", _breaker, 11, 49, True),
)
