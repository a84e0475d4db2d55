"""Flags come out of a printer in their size, and a bar tells whether they did: measured in the PDF itself."""

from __future__ import annotations

import re
import subprocess
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple, get_args

import pytest

from app.circuit.network import build_circuit
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.paper import PAPERS, Turn
from app.drawing.frame.title_block import SheetWords
from app.drawing.lists.flags import flags_drawing
from app.drawing.lists.wire_list import wire_list_drawing
from app.job.model import Layout
from app.paper.packet import Wanted, packet
from app.paper.typesetter import pdf_of
from app.tables.wire_rows import roles_in
from tests.demo_jobs.demos import demo
from tests.drawing.lists.drawn import CATALOGUE

WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')
MM_OF_POINT = 25.4 / 72
WORDS = SheetWords("Job", "as left", "Wire flags", "", "")
NEAR_MM = 0.15
"""Numbers stand in the middle above their ticks but for half a unit."""


class Word(NamedTuple):
    """A word on a sheet, in millimetres from its upper left corner: its left edge, its middle and its lower edge."""

    words: str
    left: float
    middle: float
    foot: float


def sheets_of(folder: Path, drawings: list[Drawing], wanted: Wanted) -> list[list[Word]]:
    """Return the words on each sheet, as the PDF has them."""
    file = folder / "flags.pdf"
    file.write_bytes(pdf_of(packet([(drawing, WORDS) for drawing in drawings], wanted)))
    read = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    return [[_word(match) for match in WORD.finditer(page)] for page in read.split("<page ")[1:]]


def _word(match: re.Match[str]) -> Word:
    left, _top, right, foot = (float(edge) * MM_OF_POINT for edge in match.groups()[:4])
    return Word(match[5], left, (left + right) / 2, foot)


def flags_of(layout: Layout) -> Drawing:
    return flags_drawing(layout, CATALOGUE, roles_in(build_circuit(layout, CATALOGUE)))


@pytest.mark.parametrize("turn", get_args(Turn))
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("capitals_mm", [None, 3.5])
def test_the_bar_is_as_long_as_it_says(tmp_path: Path, paper: str, turn: Turn, capitals_mm: float | None) -> None:
    opened = demo("post-office-dual-fuel")
    layout = opened.job.layouts["as-left"]
    # Another view in the packet has a scale of its own.
    sheets = sheets_of(
        tmp_path,
        [wire_list_drawing(layout, opened.catalogue, {}), flags_of(layout)],
        Wanted(PAPERS[paper], turn, capitals_mm),
    )
    ((end, words),) = [(word, words) for words in sheets for word in words if word.words == "150"]
    on_bar = sorted((word for word in words if abs(word.foot - end.foot) < NEAR_MM), key=lambda word: word.left)
    assert [word.words for word in on_bar] == ["0", "30", "60", "90", "120", "150", "mm"]
    for one, other in pairwise(on_bar[:5]):
        assert other.middle - one.middle == pytest.approx(30, abs=NEAR_MM)
    mm = on_bar[-1]
    # The number and its unit are centred together.
    assert (end.left + 2 * mm.middle - mm.left) / 2 - on_bar[0].middle == pytest.approx(150, abs=NEAR_MM)
    (three,) = [word for word in words if word.words == "in" and 0 < word.foot - end.foot < 12]
    (digit,) = [word for word in words if word.words == "3" and abs(word.foot - three.foot) < NEAR_MM]
    assert (digit.left + 2 * three.middle - three.left) / 2 - on_bar[0].middle == pytest.approx(76.2, abs=NEAR_MM)


@pytest.mark.parametrize("turn", get_args(Turn))
@pytest.mark.parametrize("paper", PAPERS)
def test_flags_have_one_size_on_any_paper(tmp_path: Path, paper: str, turn: Turn) -> None:
    ends = [[f"fb.{letter}", f"tc.{letter}"] for letter in ("R", "W", "Y", "G")]
    layout = Layout.model_validate(
        {
            "parts": {"fb": {"kind": "furnace-board"}, "tc": {"kind": "thermostat-heat-cool"}},
            "conductors": {f"w{number}": {"ends": end} for number, end in enumerate(ends, start=1)},
        }
    )
    words, *_ = sheets_of(tmp_path, [flags_of(layout)], Wanted(PAPERS[paper], turn))
    # Each name stands on both halves of both flags; those of the furnace come first.
    names = [word for word in words if re.fullmatch(r"w\d", word.words)]
    first, row = names[0], [word for word in names if word.foot == names[0].foot]
    assert [round(word.left - first.left, 1) for word in sorted(row, key=lambda word: word.left)] == [
        pytest.approx(part, abs=NEAR_MM) for part in (0, 32.1, 63, 95.1, 126, 158.1)
    ]
    below = [word for word in names if word.foot > first.foot + NEAR_MM]
    assert min(word.foot for word in below) - first.foot == pytest.approx(19.2, abs=NEAR_MM)
