"""What the tests see of a symbol: the strokes that a recorder kept."""

from __future__ import annotations

from app.drawing.surface.geometry import Point
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.symbols.symbol import Symbol

AT = Point(120, 240)
STATES = ("", "on", "off", "unknown")
"""At rest, acting, not acting, not known."""


def strokes(symbol: Symbol, state: str = "", at: Point = AT) -> list[Record]:
    """Return what was drawn of a symbol, without its groups."""
    recorder = Recorder()
    symbol.draw(recorder, at, state)
    return [record for record in recorder.records if record.verb not in ("begin", "end")]


def looks(symbol: Symbol, state: str = "") -> frozenset[str]:
    """Return a symbol's strokes without their groups and in no order, so that two can be compared."""
    return frozenset(
        repr((stroke.verb, stroke.points, stroke.box, stroke.radius, stroke.pen, stroke.text))
        for stroke in strokes(symbol, state)
    )
