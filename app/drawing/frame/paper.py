"""Sheets of paper: their sizes, what a printer leaves blank, and how small lettering may become.

Rules of the file: paper is measured in tenths of a millimetre, so that sizes are integers (US Letter is 215.9 mm wide).
What frames a sheet is drawn in u at a fixed scale, the drawing inside in u at a scale of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple

from app.drawing.surface.geometry import Box
from app.drawing.surface.text_width import EM
from app.drawing.surface.verbs import Font

Turn = Literal["upright", "sideways"]
PaperName = Literal["letter", "a4", "tabloid", "a3"]
TURNS: tuple[Turn, ...] = ("upright", "sideways")

FRAME_SCALE = 3
"""Tenths of a millimetre to one u of what frames a drawing: its smallest capitals are 2.06 mm high."""

BLANK = 24
"""What stays blank around a sheet in u of the frame, 7.2 mm. Laser printers leave 4 to 5 mm, some ink printers more at
the foot, where they shrink the page a little (from memory)."""

SMALLEST_CAPITAL_MM = 2.0
"""The least height of capitals on paper, unless another is asked for. Lettering is measured by its capitals, as in
ISO 3098, and not by the size of its font: in our fonts capitals of 2 mm need a size of 2.9 mm, which is 8 points."""

KEEPING_WHOLE_MM = 1.4
"""How low capitals may be where a part or a rung would else be cut in two, unless a height is asked for. Their font is
then 2 mm in size, which is 5.8 points: smaller than one likes, but half a rung tells nothing at all."""

THINNEST_LINE = 3.5
"""The least width of a line on paper, in tenths of a millimetre, however small the drawing is (a width of ISO 128). A
thinner one may be gone from a copy of a copy, where it happens to lie between two rows of dots."""

LARGEST_SCALE = 4.0
"""Tenths of a millimetre to one u at most: a small drawing does not look better when it is blown up."""

CAPITAL = {"words": 1409, "letters": 1493}
"""Height of a capital in font units; a test reads the fonts and compares."""


class Paper(NamedTuple):
    """A size of paper that stands upright, in tenths of a millimetre."""

    words: str
    width: int
    height: int

    def turned(self, turn: Turn) -> Paper:
        """Return this paper as it lies."""
        return self if turn == "upright" else Paper(self.words, self.height, self.width)

    def in_u(self) -> Box:
        """Return the sheet in u of the frame, less than a third of a millimetre smaller than the paper."""
        return Box(0, 0, self.width // FRAME_SCALE, self.height // FRAME_SCALE)


PAPERS: Mapping[str, Paper] = {
    "letter": Paper("US Letter", 2159, 2794),
    "a4": Paper("A4", 2100, 2970),
    "tabloid": Paper("Tabloid", 2794, 4318),
    "a3": Paper("A3", 2970, 4200),
}
"""Every paper by the name that people ask for (ISO 216; ANSI Y14.1 sizes A and B)."""

USUAL: Mapping[Literal["us", "si"], str] = {"us": "letter", "si": "a4"}
"""The paper that lies in the printers of those who measure in these units (common practice, no source)."""


def smallest_scale(fonts: Iterable[Font], capitals_mm: float) -> float:
    """Return the least scale in tenths of a millimetre to one u at which capitals of all these fonts are so high."""
    heights = [capital_height(font) for font in fonts]
    return 10 * capitals_mm / min(heights) if heights else 1.0


def capital_height(font: Font) -> float:
    """Return how high a capital is, in u."""
    return CAPITAL[font.family] * font.size / EM
