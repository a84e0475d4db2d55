"""Where nothing is computed, and what nobody could identify: dashed, like all that is not sure."""

from __future__ import annotations

from app.drawing.surface.verbs import Pen
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol

DASHED = Pen(1.25, "4 3")


def _opaque(ink: Ink, _: bool | None) -> None:
    ink.box(12, -10, 48, 10, DASHED)
    for start in (17, 26, 35):
        ink.line((start, 7), (start + 8, -7))


def _unknown(ink: Ink, _: bool | None) -> None:
    ink.box(12, -10, 48, 10, DASHED)
    ink.word(30, 5, "?")


SYMBOLS = (
    Symbol("opaque", "not 24 V: nothing is computed here", "our own", _opaque, 12, 48),
    Symbol("unknown", "not known", "our own", _unknown, 12, 48),
)
