"""The marks of the lists: how an insulation code and a terminal are to be read; where flags are cut and folded."""

from __future__ import annotations

from app.drawing.frame.legend import SAMPLE, Mark
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL, THIN, Pen, Surface, Text

FOLD = Pen(1.25, "3 4")
CUT = THIN


def _sample(surface: Surface, at: Point, words: str) -> None:
    surface.text(Text(Point(at.x + SAMPLE, at.y + 4), words, SMALL, width_of(words, SMALL), "end"))


def _cut(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), CUT)


def _fold(surface: Surface, at: Point) -> None:
    surface.line((at, Point(at.x + SAMPLE, at.y)), FOLD)


TERMINAL_NAME = Mark("terminal-name", "screw R of the part fb", lambda surface, at: _sample(surface, at, "fb.R"))
INSULATION_CODE = Mark(
    "insulation-code",
    "insulation, IEC 60757: base colour, then tracer",
    lambda surface, at: _sample(surface, at, "WH/BU"),
)
CUT_HERE = Mark("cut", "cut here", _cut)
FOLD_HERE = Mark("fold", "fold here around the wire, words outward", _fold)
AND_MORE = Mark(
    "and-more",
    "and so many more uses, which the wire list names",
    lambda surface, at: _sample(surface, at, "+ 2"),
)
