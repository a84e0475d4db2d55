"""A sheet as dots, and what a copier makes of it: glass that blurs, 95 % and back, and toner that is there or is not.

Rules of the file: dots are numbers from 0 (paper) to 1 (ink), 200 to the inch, as office copiers scan (from memory).
"""

from __future__ import annotations

import subprocess
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from app.drawing.surface.geometry import Box
from app.paper.packet import Packet, PaperSheet
from app.paper.typesetter import pdf_of

DOTS_AN_INCH = 200
DOTS_A_TENTH_OF_MM = DOTS_AN_INCH / 254
GLASS = 0.5
"""How far glass and drum blur, in dots: a hard edge is spread over two or three of them (invented for the test)."""
SMALLER = 0.95
LIGHT, USUAL, DARK = 0.55, 0.5, 0.35
"""From how much ink on a dot a copier prints it, as its knob is turned."""
FINER = 2
"""A printer has so many dots across for one that the copier scans."""
Dots = NDArray[np.float64]


def dots_of(sheet: PaperSheet, part: Box, folder: Path) -> Dots:
    """Return part of a sheet, given in dots, as it comes from the printer."""
    file = folder / "sheet.pdf"
    file.write_bytes(pdf_of(Packet("", (sheet,))))
    cut = [text for letter, size in zip("xyWH", part, strict=True) for text in (f"-{letter}", str(FINER * size))]
    printed = [
        "pdftoppm",
        "-gray",
        "-r",
        str(FINER * DOTS_AN_INCH),
        "-singlefile",
        *cut,
        str(file),
        str(folder / "sheet"),
    ]
    subprocess.run(printed, check=True, capture_output=True)
    _magic, size, _most, grey = (folder / "sheet.pgm").read_bytes().split(b"\n", 3)
    width, height = map(int, size.split())
    fine = 1 - np.frombuffer(grey, np.uint8).reshape(height, width) / 255
    kept = fine[: height // FINER * FINER, : width // FINER * FINER]
    dots: Dots = kept.reshape(height // FINER, FINER, width // FINER, FINER).mean(axis=(1, 3))
    return dots


def copied_twice(dots: Dots, knob: float = USUAL) -> Dots:
    """Return what is left of a sheet that was copied at 95 %, and the copy back to full size."""
    small = _copied(dots, (round(dots.shape[0] * SMALLER), round(dots.shape[1] * SMALLER)), knob)
    return _copied(small, (dots.shape[0], dots.shape[1]), knob)


def _copied(dots: Dots, size: tuple[int, int], knob: float) -> Dots:
    seen = ndimage.gaussian_filter(dots, GLASS)
    scaled = ndimage.zoom(
        seen, (size[0] / seen.shape[0], size[1] / seen.shape[1]), order=1, grid_mode=True, mode="nearest"
    )
    toner: Dots = (scaled >= knob).astype(np.float64)
    return toner
