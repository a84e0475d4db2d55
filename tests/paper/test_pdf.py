"""The PDF and the picture, read back by another program (poppler): words, fonts, sizes, and that nothing leaks in."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import unicodedata
from functools import cache
from pathlib import Path

import pytest
from fontTools.subset import Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

import app.paper.typesetter as typesetter
from app.drawing.connection.diagram import connection_drawing
from app.drawing.frame.paper import CAPITAL, PAPERS
from app.drawing.frame.title_block import CAUTION, SheetWords
from app.drawing.surface.text_width import ADVANCES, EM
from app.job.model import Layout
from app.job.names import short_names
from app.job.refusal import Refused
from app.paper import packet as packets
from app.paper.packet import Packet, PaperSheet, Wanted, packet
from app.paper.typesetter import pdf_of, png_of
from tests.demo_jobs.demos import demo
from tests.drawing.generated import CATALOGUE
from tests.paper.papers import WORDS

DUAL_FUEL = "post-office-dual-fuel"
FONTS = Path("/usr/share/fonts/truetype")
DOTS = {"letter": (1275, 1650), "a4": (1240, 1754), "tabloid": (1650, 2550), "a3": (1754, 2480)}
"""Dots of an upright sheet at 150 to the inch: inches (millimetres by 25.4) times 150."""


@cache
def dual_fuel(paper: str = "letter", turn: str = "auto") -> Packet:
    opened = demo(DUAL_FUEL)
    drawing = connection_drawing(opened.job.layouts["as-left"], opened.catalogue)
    wanted = Wanted(PAPERS[paper], "upright" if turn == "upright" else "sideways" if turn == "sideways" else "auto")
    return packet([(drawing, WORDS)], wanted)


def told(program: str, file: Path, *options: str) -> str:
    """Return what a program of poppler says of a file."""
    done = subprocess.run([program, *options, str(file), *(["-"] if program == "pdftotext" else [])],
                          capture_output=True, text=True, check=True)  # fmt: skip
    return done.stdout


def written(tmp_path: Path, data: bytes) -> Path:
    file = tmp_path / "packet.pdf"
    file.write_bytes(data)
    return file


def test_words_can_be_found_and_selected(tmp_path: Path) -> None:
    text = told("pdftotext", written(tmp_path, pdf_of(dual_fuel())))
    opened = demo(DUAL_FUEL)
    layout = opened.job.layouts["as-left"]
    words = set(text.split())
    assert set(short_names(layout.conductors).values()) <= words
    assert {x for part in layout.parts for x in opened.catalogue.terminals_of(layout, part)} <= words
    joined = " ".join(text.split())
    assert {part.label for part in layout.parts.values() if part.label not in joined} == set()


def test_title_block_and_the_whole_caution_stand_on_every_sheet(tmp_path: Path) -> None:
    file = written(tmp_path, pdf_of(dual_fuel()))
    of = len(dual_fuel().sheets)
    for number in range(1, of + 1):
        words = " ".join(told("pdftotext", file, "-f", str(number), "-l", str(number)).split())
        assert f"Connection diagram, sheet {number} of {of}" in words
        assert "Mill house" in words
        assert "Date: 2031-05-06" in words
        assert set(CAUTION.split()) <= set(words.split())


def test_every_font_is_embedded_and_there_are_no_pictures(tmp_path: Path) -> None:
    file = written(tmp_path, pdf_of(dual_fuel()))
    rows = told("pdffonts", file).splitlines()[2:]
    assert rows
    assert {tuple(row.split()[-5:-2]) for row in rows} == {("yes", "yes", "yes")}  # embedded, subset, unicode
    assert {re.sub(r"^\w{6}\+", "", row.split()[0]) for row in rows} == {"Arimo-Regular", "DejaVuSansMono"}
    assert told("pdfimages", file, "-list").splitlines()[2:] == []


@pytest.mark.parametrize(("paper", "turn", "size"), [
    ("letter", "upright", (612, 792)), ("letter", "sideways", (792, 612)),
    ("a4", "upright", (595.28, 841.89)), ("a4", "sideways", (841.89, 595.28)),
    ("tabloid", "sideways", (1224, 792)), ("a3", "upright", (841.89, 1190.55)),
])  # fmt: skip
def test_pages_are_as_large_as_the_paper(paper: str, turn: str, size: tuple[float, float], tmp_path: Path) -> None:
    said = told("pdfinfo", written(tmp_path, pdf_of(dual_fuel(paper, turn))), "-f", "1", "-l", "99")
    found = re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", said)
    assert len(found) == len(dual_fuel(paper, turn).sheets)
    for width, height in found:
        assert (float(width), float(height)) == pytest.approx(size, abs=0.02)


def test_the_file_says_what_it_is_and_of_whom_and_when_nothing(tmp_path: Path) -> None:
    data = pdf_of(dual_fuel())
    said = told("pdfinfo", written(tmp_path, data))
    assert re.search(r"^Title: +Mill house, as left$", said, re.MULTILINE)
    assert re.search(r"^Tagged: +yes$", said, re.MULTILINE)
    assert not re.search(r"^(Author|CreationDate|ModDate):", said, re.MULTILINE)
    assert b"/Lang" in data


def test_a_reader_hears_what_a_sheet_shows() -> None:
    first = dual_fuel().sheets[0].words
    assert first.startswith("Mill house, as left: connection diagram, sheet 1 of ")
    assert "parts: " in first


def test_the_same_sheets_give_the_same_bytes_in_any_process(tmp_path: Path) -> None:
    code = (
        "import sys; from tests.paper.test_pdf import dual_fuel; from app.paper.typesetter import pdf_of, png_of;"
        "sys.stdout.buffer.write(pdf_of(dual_fuel()) + png_of(dual_fuel().sheets[0], 72))"
    )
    here = pdf_of(dual_fuel()) + png_of(dual_fuel().sheets[0], 72)
    elsewhere = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=True, cwd=Path(__file__).parents[2],
        env={**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "HOME": str(tmp_path)},
    ).stdout  # fmt: skip
    assert elsewhere == here


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_a_picture_has_the_dots_that_are_asked_for(paper: str) -> None:
    picture = png_of(dual_fuel(paper, "upright").sheets[0], 150)
    assert picture[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = int.from_bytes(picture[16:20], "big"), int.from_bytes(picture[20:24], "big")
    assert (width, height) == pytest.approx(DOTS[paper], abs=1)


def test_several_drawings_are_counted_through() -> None:
    opened = demo(DUAL_FUEL)
    drawing = connection_drawing(opened.job.layouts["as-found"], opened.catalogue)
    made = packet([(drawing, WORDS), (drawing, WORDS)], Wanted(PAPERS["letter"])).sheets
    assert [f"sheet {number} of {len(made)}" in sheet.svg for number, sheet in enumerate(made, start=1)] == (
        [True] * len(made)
    )
    here = len(made) // 2
    beyond = {int(n) for sheet in made[here:] for n in re.findall(r'data-to-sheet="(\d+)"', sheet.svg)}
    assert beyond
    assert min(beyond) > here


def test_a_packet_that_nobody_prints_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packets, "MOST_SHEETS", 2)
    opened = demo(DUAL_FUEL)
    drawing = connection_drawing(opened.job.layouts["as-left"], opened.catalogue)
    with pytest.raises(Refused) as caught:
        packet([(drawing, WORDS)], Wanted(PAPERS["letter"]))
    assert caught.value.code == "too-many-sheets"
    assert caught.value.would_be_right


@pytest.mark.parametrize(
    "words", ['"#read("/etc/passwd")', "</text><image href='file:///etc/passwd'/>", "&x; ]]> $1 #"]
)
def test_words_of_a_job_are_words_and_nothing_else(words: str, tmp_path: Path) -> None:
    drawing = connection_drawing(Layout(), CATALOGUE)
    made = packet([(drawing, SheetWords(words, "as left", "", "", ""))], Wanted(PAPERS["letter"]))
    text = told("pdftotext", written(tmp_path, pdf_of(made)))
    assert "root:" not in text
    assert "".join(words.split()) in "".join(text.split())


@pytest.mark.parametrize("target", ["/etc/hostname", "file:///etc/hostname", "hostname.png"])
def test_the_typesetter_reads_no_file(target: str) -> None:
    picture = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><image href="{target}" width="9" height="9"/></svg>'
    )
    sheet = PaperSheet(picture, PAPERS["letter"], "")
    with pytest.raises(Exception, match="failed to load linked image"):
        pdf_of(Packet("", (sheet,)))


def test_what_no_font_can_show_stands_as_a_box_and_stops_nothing() -> None:
    drawing = connection_drawing(Layout(), CATALOGUE)
    plain, strange = (
        png_of(packet([(drawing, SheetWords(w, "", "", "", ""))], Wanted(PAPERS["letter"])).sheets[0], 72)
        for w in ("", "\u597d")
    )
    assert plain != strange


def test_the_fonts_are_those_of_the_packages_and_not_of_the_machine() -> None:
    families = set(typesetter._fonts().families())
    assert {"Arimo", "DejaVu Sans Mono"} <= families
    assert "Liberation Sans" not in families


@pytest.mark.parametrize(("bold", "weight"), [(False, 400), (True, 700)], ids=["regular", "bold"])
def test_arimo_is_as_wide_as_the_font_that_was_measured(bold: bool, weight: int) -> None:
    upright = [font for font in typesetter._fonts().fonts() if font.family == "Arimo" and font.style == "normal"]
    (path,) = {font.path for font in upright}
    assert path is not None
    font = TTFont(path)
    asked = Subsetter()
    asked.populate(unicodes=map(ord, ADVANCES[bold]))
    asked.subset(font)
    font = instantiateVariableFont(font, {"wght": weight})
    glyphs, advances = font.getBestCmap(), font["hmtx"]
    ours = {character: advances[glyphs[ord(character)]][0] * EM // font["head"].unitsPerEm
            for character in ADVANCES[bold]}  # fmt: skip
    # The raised point is wider in Arimo; textLength presses it together by a twentieth of an em.
    assert {c for c in ours if ours[c] != ADVANCES[bold][c]} <= {"·"}


def test_capitals_are_as_high_as_the_fonts_say() -> None:
    for family, path in (("words", "liberation/LiberationSans-Regular.ttf"), ("letters", "dejavu/DejaVuSansMono.ttf")):
        font = TTFont(FONTS / path)
        glyph = font["glyf"]["H"]
        assert glyph.yMax * EM // font["head"].unitsPerEm == CAPITAL[family]


def test_letters_of_other_scripts_are_still_letters(tmp_path: Path) -> None:
    drawing = connection_drawing(Layout(), CATALOGUE)
    made = packet([(drawing, SheetWords("Größe Ω, été", "", "", "", ""))], Wanted(PAPERS["a4"]))
    text = unicodedata.normalize("NFC", told("pdftotext", written(tmp_path, pdf_of(made))))
    assert "Größe Ω, été" in text


def test_the_source_of_the_typesetter_imports_nothing() -> None:
    assert not re.search(r"#?(import|include|read|plugin)\b", typesetter.SOURCE)
    assert json.dumps(typesetter.SOURCE).count("@") == 0
