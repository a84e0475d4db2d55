"""The table of widths against the fonts of Debian's packages fonts-liberation and fonts-dejavu-core."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import ADVANCES, ASCENT, DESCENT, EM, MONO, box_of_text, fitted, printable, width_of
from app.drawing.surface.verbs import LETTER, NAME, SMALL, Font, Text

FONTS = Path("/usr/share/fonts/truetype")
WORDS = {False: "liberation/LiberationSans-Regular.ttf", True: "liberation/LiberationSans-Bold.ttf"}
LETTERS = "dejavu/DejaVuSansMono.ttf"


@pytest.mark.parametrize("bold", [False, True], ids=["regular", "bold"])
def test_the_table_has_the_advances_of_the_font(bold: bool) -> None:
    font = TTFont(FONTS / WORDS[bold])
    glyphs, advances = font.getBestCmap(), font["hmtx"]
    assert font["head"].unitsPerEm == EM
    assert ADVANCES[bold] == {character: advances[glyphs[ord(character)]][0] for character in ADVANCES[bold]}
    assert {chr(code) for code in range(32, 127)} <= set(ADVANCES[bold])


def test_every_terminal_letter_is_as_wide_as_the_other() -> None:
    font = TTFont(FONTS / LETTERS)
    assert font["head"].unitsPerEm == EM
    assert {font["hmtx"][glyph][0] for glyph in font.getBestCmap().values()} == {MONO}


@pytest.mark.parametrize(("family", "path"), [("words", WORDS[False]), ("letters", LETTERS)], ids=["words", "letters"])
def test_words_are_as_high_as_the_font_says(family: str, path: str) -> None:
    head = TTFont(FONTS / path)["hhea"]
    assert (ASCENT[family], DESCENT[family]) == (head.ascent, -head.descent)


def test_widths_add_up_and_round_up() -> None:
    assert width_of("RD", Font("words", 2048)) == ADVANCES[False]["R"] + ADVANCES[False]["D"]
    assert width_of("i", SMALL) == 3  # 455 / 2048 of 10 u is 2.2 u.
    assert width_of("O/B", LETTER) == 26  # Three times 0.602 of 14 u is 25.3 u.
    assert width_of("", NAME) == 0


@pytest.mark.parametrize(
    "words", ["", "w9", "a label that is much too long for its box", "WWWWWWWWWWWWWW", "好好好好好好"]
)
def test_fitted_words_fit_and_keep_their_beginning(words: str) -> None:
    for most in (0, 5, 20, 60):
        shown = fitted(words, SMALL, most)
        assert width_of(shown, SMALL) <= most
        assert words.startswith(shown.removesuffix("…"))
        assert shown == words or width_of(words, SMALL) > most


def test_what_svg_cannot_hold_is_not_shown() -> None:
    assert printable("a\x00b\x1b\ud800\uffff\n c\t d") == "a\ufffdb\ufffd\ufffd\ufffd c d"


def test_words_that_run_upward_fill_an_upright_box() -> None:
    level = box_of_text(Text(Point(100, 100), "w9 BU", SMALL, 30))
    upright = box_of_text(Text(Point(100, 100), "w9 BU", SMALL, 30, upright=False))
    assert (level.w, level.h) == (upright.h, upright.w) == (30, 11)
    assert level.y < 100 < level.bottom
    assert upright.x < 100 < upright.right
    assert upright.bottom == 100
