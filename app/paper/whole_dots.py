"""A sheet for a picture: as large as a whole number of dots, since the typesetter leaves out a row that is over.

Rules of the file: Typst makes of an SVG a picture that is rounded up to whole dots, lays it on a page that is rounded
to the nearest, and takes for each dot of the page the nearest of the picture. Where the two differ, a row of dots is
gone from the middle of the sheet, and with it the foot of all letters that stand there. So the page and the picture
are made to be just under the same whole number of dots.
"""

from __future__ import annotations

from typing import NamedTuple

from app.drawing.frame.paper import Paper

DOTS_AN_INCH = 96
"""Of a millimetre in SVG, which knows no other (CSS)."""
UNDER = 0.01
"""What the picture is lower than whole dots, and half of what the page is smaller, so that rounding up finds them."""


class WholeDots(NamedTuple):
    """An SVG and the size of its page in tenths of a millimetre."""

    svg: str
    width: float
    height: float


def in_whole_dots(svg: str, paper: Paper, dpi: int) -> WholeDots:
    """Return the SVG of a sheet stretched by less than a dot to whole dots of ``dpi`` to the inch."""
    across, down = (round(length * dpi / 254) for length in (paper.width, paper.height))
    width, height = (length * DOTS_AN_INCH / 254 for length in (paper.width, paper.height))
    stretched = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}" height="{down - UNDER}" '
        f'viewBox="0 0 {width} {height}" preserveAspectRatio="none">{svg}</svg>'
    )
    return WholeDots(stretched, *((dots - 2 * UNDER) * 254 / dpi for dots in (across, down)))
