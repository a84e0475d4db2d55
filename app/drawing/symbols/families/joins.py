"""What joins: a trace, a jumper, the earth, the chassis."""

from __future__ import annotations

from app.drawing.surface.verbs import MARK
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol

EARTH = "IEEE 315, IEC 60617 (from memory)"


def _join(_ink: Ink, _: bool | None) -> None:
    """Draw nothing: the leads meet."""


def _jumper(ink: Ink, fitted: bool | None) -> None:
    for screw in (14, 46):
        ink.ring(screw, 0, 4)
    if fitted is False:
        ink.line((14, -4), (14, -11), (22, -11))
        ink.line((38, -11), (46, -11), (46, -4))
        ink.dot(22, -11, 2)
        ink.dot(38, -11, 2)
    else:
        ink.line((14, -4), (14, -11), (46, -11), (46, -4), pen=MARK)


def _ground(ink: Ink, _: bool | None) -> None:
    ink.line((30, 0), (30, 4))
    for half, y in ((14, 4), (9, 9), (4, 14)):
        ink.line((30 - half, y), (30 + half, y), pen=MARK)


def _chassis(ink: Ink, _: bool | None) -> None:
    ink.line((30, 0), (30, 4))
    ink.line((16, 4), (44, 4), pen=MARK)
    for start in (16, 30, 44):
        ink.line((start, 4), (start - 7, 15))


SYMBOLS = (
    Symbol("join", "join inside the part", "a line", _join, 30, 30),
    Symbol("jumper", "jumper between two screws", "a link over two screws, our own", _jumper, 10, 50, has_states=True),
    Symbol("ground", "joined to the chassis and so to earth", EARTH, _ground, 30, 30, in_line=False),
    Symbol("chassis", "chassis", EARTH, _chassis, 30, 30, in_line=False),
)
