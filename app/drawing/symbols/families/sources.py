"""Where 24 V comes from: a transformer. Its secondary lies in line, its primary above it."""

from __future__ import annotations

from app.drawing.surface.verbs import HEAVY, THIN
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol


def _transformer(ink: Ink, on: bool | None) -> None:
    pen = HEAVY if on else THIN
    ink.line((10, 0), (10, 15), (15, 15))
    ink.line((45, 15), (50, 15), (50, 0))
    for start in (15, 25, 35):
        ink.arch((start, 15), (start + 10, 15), pen)
        ink.arch((start + 10, -12), (start, -12), pen)
    ink.line((14, 4), (46, 4))
    ink.line((14, -1), (46, -1))
    ink.line((15, -12), (15, -21))
    ink.line((45, -12), (45, -21))


SYMBOLS = (
    Symbol(
        "transformer",
        "transformer: secondary in line, primary above",
        "two windings and their core, IEEE 315 (from memory)",
        _transformer,
        10,
        50,
        has_states=True,
    ),
)
