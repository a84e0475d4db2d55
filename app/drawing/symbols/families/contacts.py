"""Contacts of relays: two bars; a stroke across them is a contact that is closed at rest.

Between the bars of one that is closed now lies a solid block. The stroke of one that is closed at rest and open now is
broken in the middle, so that nobody takes it for a way through.
"""

from __future__ import annotations

from app.drawing.symbols.ink import Ink
from app.drawing.symbols.symbol import Symbol

LEFT, RIGHT = 24, 36
BASIS = "two bars, as IEEE 315 and the JIC list show a relay contact (from memory); the block is our own"


def _bars(ink: Ink, closed: bool | None) -> None:
    ink.line((LEFT, -11), (LEFT, 11))
    ink.line((RIGHT, -11), (RIGHT, 11))
    if closed:
        ink.block(LEFT, -5, RIGHT, 5)


def _open_at_rest(ink: Ink, closed: bool | None) -> None:
    _bars(ink, closed)


def _closed_at_rest(ink: Ink, closed: bool | None) -> None:
    _bars(ink, closed)
    if closed is False:
        ink.line((16, 16), (26, 5))
        ink.line((34, -5), (44, -16))
    else:
        ink.line((16, 16), (44, -16))


SYMBOLS = (
    Symbol("contact-open", "contact, open at rest", BASIS, _open_at_rest, LEFT, RIGHT, has_states=True),
    Symbol("contact-closed", "contact, closed at rest", BASIS, _closed_at_rest, LEFT, RIGHT, has_states=True),
)
