"""A bar to lay a rule on: whether a printer has left the size of a sheet as it is.

Rules of the file: lengths hold where 1 u comes to 0.3 mm on paper. Three inches are 76.2 mm, which is 254 u.
"""

from __future__ import annotations

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import MARK, SMALL, Anchor, Surface, Text

LENGTH_MM, STEP_MM = 150, 30
U_IN_STEP = 100
LENGTH = LENGTH_MM // STEP_MM * U_IN_STEP
THREE_INCHES = 254
WORDS = (
    "Print at actual size (100 %), not fitted to the page, and lay a rule on this bar.",
    "Where it is not as long as it says, all else has another size too, and flags may not go around their wires.",
)
LINE = 13
TICK = 8
BAR = Box(0, 0, 630, 78)
"""Where it lies, with its words."""
AT = Point(16, 56)
"""The left end of the bar."""


def put_bar(surface: Surface) -> None:
    """Draw the bar, with millimetres above it and three inches below."""
    surface.begin({"class": "measuring-bar"}, f"Bar of {LENGTH_MM} mm")
    for number, words in enumerate(WORDS, start=1):
        _words(surface, Point(0, number * LINE), words, "start")
    surface.line((AT, Point(AT.x + LENGTH, AT.y)), MARK, {"class": "bar"})
    for step in range(LENGTH_MM // STEP_MM + 1):
        x = AT.x + step * U_IN_STEP
        surface.line((Point(x, AT.y - TICK), Point(x, AT.y)), MARK)
        mm = step * STEP_MM
        _words(surface, Point(x, AT.y - TICK - 3), f"{mm} mm" if mm == LENGTH_MM else str(mm), "middle")
    for x, words in ((AT.x, "0"), (AT.x + THREE_INCHES, "3 in")):
        surface.line((Point(x, AT.y), Point(x, AT.y + TICK)), MARK)
        _words(surface, Point(x, AT.y + TICK + 11), words, "middle")
    surface.end()


def _words(surface: Surface, at: Point, words: str, anchor: Anchor) -> None:
    surface.text(Text(at, words, SMALL, width_of(words, SMALL), anchor))
