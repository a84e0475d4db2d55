"""How wide words are, so that nothing placed here collides where it is shown.

Rules of the file: the advances are those of Liberation Sans and DejaVu Sans Mono (Debian packages fonts-liberation and
fonts-dejavu-core); a test reads the fonts and compares. Both have 2048 units an em. A character that is not in the
table counts as one em, which no letter of the Latin alphabet exceeds.
"""

from __future__ import annotations

from functools import lru_cache

from app.drawing.surface.geometry import Box
from app.drawing.surface.verbs import Font, Text

EM = 2048
MONO = 1233
"""Every glyph of DejaVu Sans Mono is this wide."""

ASCENT = {"words": 1854, "letters": 1901}
DESCENT = {"words": 434, "letters": 483}

_REGULAR_BY_ADVANCE = {
    391: "'",
    455: "ijl",
    532: "|",
    569: " !,./:;I[\\]ftÌÍÎÏìíîï·",
    682: "()-`r",
    684: "{}",
    727: '"',
    797: "*",
    819: "°",
    961: "^",
    1024: "Jcksvxyzçýÿ",
    1124: "÷±",
    1139: "#$0123456789?L_abdeghnopquàáâãäåèéêëðñòóôõöùúûüþ–",
    1196: "+<=>~××",
    1251: "FTZßø",
    1366: "&ABEKPSVXYÀÁÂÃÄÅÈÉÊËÝÞ",
    1479: "CDHNRUwÇÐÑÙÚÛÜ",
    1531: "Ω",
    1593: "GOQÒÓÔÕÖØ",
    1706: "Mm",
    1821: "%æ",
    1933: "W",
    2048: "Æ…",
    2079: "@",
}
_BOLD_BY_ADVANCE = {
    487: "'",
    569: " ,./I\\ijlÌÍÎÏìíîï·",
    573: "|",
    682: "!()-:;[]`ft",
    797: "*r{}",
    819: "°",
    971: '"',
    1024: "z",
    1124: "÷±",
    1139: "#$0123456789J_aceksvxyàáâãäåçèéêëýÿ–",
    1196: "+<=>^~××",
    1251: "?FLTZbdghnopqußðñòóôõöøùúûüþ",
    1366: "EPSVXYÈÉÊËÝÞ",
    1479: "&ABCDHKNRUÀÁÂÃÄÅÇÐÑÙÚÛÜ",
    1593: "GOQwÒÓÔÕÖØ",
    1642: "Ω",
    1706: "M",
    1821: "%mæ",
    1933: "W",
    1997: "@",
    2048: "Æ…",
}


def _table(by_advance: dict[int, str]) -> dict[str, int]:
    return {character: advance for advance, characters in by_advance.items() for character in characters}


ADVANCES = {False: _table(_REGULAR_BY_ADVANCE), True: _table(_BOLD_BY_ADVANCE)}
"""Advance in font units by character, by whether the typeface is bold."""


@lru_cache(maxsize=8192)
def width_of(words: str, font: Font) -> int:
    """Return the width of words in u, rounded up."""
    if font.family == "letters":
        units = MONO * len(words)
    else:
        table = ADVANCES[font.bold]
        units = sum(table.get(character, EM) for character in words)
    return -(-units * font.size // EM)


@lru_cache(maxsize=8192)
def fitted(words: str, font: Font, most: int) -> str:
    """Return the words, or as many of their first letters as fit into ``most`` u with an ellipsis after them."""
    words = printable(words)
    if width_of(words, font) <= most:
        return words
    for length in range(len(words) - 1, 0, -1):
        shorter = words[:length].rstrip() + "…"
        if width_of(shorter, font) <= most:
            return shorter
    return ""


def printable(words: str) -> str:
    """Return the words on one line, without characters that SVG cannot hold."""
    if words.isprintable():
        return " ".join(words.split())
    return " ".join("".join(c if _may_stand(c) else "\ufffd" for c in words.replace("\n", " ")).split())


def _may_stand(character: str) -> bool:
    code = ord(character)
    return code == 0x9 or 0x20 <= code < 0xD800 or 0xE000 <= code < 0xFFFE or code > 0xFFFF


def box_of_text(text: Text) -> Box:
    """Return the box that words fill, from the ascent to the descent of their font."""
    above = round(ASCENT[text.font.family] * text.font.size / EM)
    below = round(DESCENT[text.font.family] * text.font.size / EM)
    before = {"start": 0, "middle": text.width // 2, "end": text.width}[text.anchor]
    if text.upright:
        return Box(text.at.x - before, text.at.y - above, text.width, above + below)
    return Box(text.at.x - above, text.at.y + before - text.width, above + below, text.width)
