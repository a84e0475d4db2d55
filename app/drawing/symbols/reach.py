"""How far a symbol reaches above and below the line of its connection points, whatever its state."""

from __future__ import annotations

from functools import lru_cache

from app.drawing.surface.geometry import Point, box_around
from app.drawing.surface.recorder import Recorder
from app.drawing.symbols.symbol import UNKNOWN, Symbol


@lru_cache(maxsize=256)
def reach_of(symbol: Symbol) -> tuple[int, int]:
    """Return u above and u below the line, in any state."""
    recorder = Recorder()
    for state in ("", "on", "off", UNKNOWN):
        symbol.draw(recorder, Point(0, 0), state)
    box = box_around(bounds for record in recorder.records if (bounds := record.bounds()) is not None)
    return (-box.y, box.bottom) if box is not None else (0, 0)
