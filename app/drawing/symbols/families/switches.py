"""Switches: a blade between two posts, and under it what moves it.

A blade that is open at rest comes to its post from below, one that is closed at rest from above. It is drawn where it
stands now; the posts of a switch that is closed are filled.
"""

from __future__ import annotations

from app.drawing.surface.verbs import MARK, THIN, Pen
from app.drawing.symbols.ink import Ink
from app.drawing.symbols.movers import MOVERS, TOP, Mover
from app.drawing.symbols.symbol import Body, Symbol

LEFT, RIGHT, POST = 14, 46, 3
MIDDLE = 30
TIP = {"closed": 14, "open": 10}
"""How far the tip of an open blade is from its post; below it there must be room for what moves it."""


def _body(mover: Mover, rest: str) -> Body:
    """Return what draws a switch that ``mover`` moves; ``rest`` is ``open`` or ``closed``."""

    def draw(ink: Ink, closed: bool | None) -> None:
        shut = closed if closed is not None else rest == "closed"
        side = -1 if rest == "closed" else 1
        tip = 4 if shut else TIP[rest]
        ink.line((LEFT + 2, 2 * side), (RIGHT + 2 if shut else RIGHT - 3, tip * side), pen=MARK)
        for post in (LEFT, RIGHT):
            ink.ring(post, 0, POST)
            if closed:
                ink.dot(post, 0, POST)
        if mover.draw is not None:
            blade = side * (3 if shut else (2 + TIP[rest]) // 2)
            ink.line((MIDDLE, blade), (MIDDLE, TOP), pen=LINK if mover.linked else THIN)
            mover.draw(ink)

    return draw


LINK = Pen(1.25, "2 2")
"""Where nothing solid moves the blade, but somebody or something that asks."""

SYMBOLS = tuple(
    Symbol(
        f"{mover.name}-{rest}",
        f"{mover.meaning}, {rest} at rest",
        mover.basis,
        _body(mover, rest),
        LEFT - POST,
        RIGHT + POST,
        has_states=True,
    )
    for mover in MOVERS
    for rest in ("open", "closed")
)
