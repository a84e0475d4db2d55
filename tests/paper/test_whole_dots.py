"""In a picture no row of dots is gone: lines drawn at one distance from each other stay at that distance."""

from __future__ import annotations

import numpy as np
import pytest

from app.drawing.frame.paper import PAPERS, Paper, Turn
from app.paper.packet import PaperSheet
from app.paper.typesetter import png_of
from tests.paper.picture import Dots, dots_in

APART = 40
"""From one line to the next in tenths of a millimetre."""
THICK = 10
USUAL_DPI, COARSE_DPI = 200, 105


def ruled(paper: Paper) -> PaperSheet:
    """Return a sheet with lines from edge to edge: level ones at its left edge, upright ones at its top."""
    level = (f'<rect x="0" y="{y}" width="200" height="{THICK}"/>' for y in range(APART, paper.height - APART, APART))
    upright = (f'<rect x="{x}" y="0" width="{THICK}" height="20"/>' for x in range(APART, paper.width - APART, APART))
    size = f'width="{paper.width / 10}mm" height="{paper.height / 10}mm" viewBox="0 0 {paper.width} {paper.height}"'
    return PaperSheet(f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join((*level, *upright))}</svg>', paper, "")


def distances(ink: Dots) -> Dots:
    """Return how far the middles of the lines are from each other that a row of dots crosses."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0.0], (ink > 0).astype(float), [0.0]))))
    middles = [np.average(np.arange(a, b), weights=ink[a:b]) for a, b in edges.reshape(-1, 2)]
    return np.diff(middles)


@pytest.mark.parametrize(("turn", "dpi"), [("upright", USUAL_DPI), ("sideways", COARSE_DPI)])
@pytest.mark.parametrize("name", ["letter", "a4"])
def test_no_row_of_dots_is_gone(name: str, turn: Turn, dpi: int) -> None:
    paper = PAPERS[name].turned(turn)
    dots = dots_in(png_of(ruled(paper), dpi))
    assert dots.shape == tuple(round(length * dpi / 254) for length in (paper.height, paper.width))
    for ink, length in ((dots[:, 5], paper.height), (dots[3, :], paper.width)):
        found = distances(ink)
        assert len(found) == len(range(APART, length - APART, APART)) - 1
        assert np.abs(found - APART * dpi / 254).max() < 0.5
