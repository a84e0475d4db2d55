"""Colours of insulation: words to the letters of IEC 60757.

Rules of the file: a colour means nothing to the circuit; it is only how people tell wires apart. The codes are those
of IEC 60757:1983 (from memory); which words people use for them is common practice, no source.
"""

from __future__ import annotations

import re

from app.job.names import INSULATION_PATTERN
from app.tables.cell import Cell, quoted

_WORDS = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue, light blue",
    "VT": "violet, purple",
    "GY": "grey, gray, slate",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
    "GNYE": "green and yellow, green-and-yellow, green-yellow",
}
CODES = {word: code for code, words in _WORDS.items() for word in words.split(", ")}
"""The code of each word."""
_CODE = re.compile(INSULATION_PATTERN.strip("^$"))
_TRACER = re.compile(r"\s*/\s*|\s+with\s+|\s*-\s*")
_STRIPE = re.compile(r"\s+(?:tracer|stripe)$")


def insulation(cell: Cell) -> str | None:
    """Return the code of a cell, None where it is empty: ``RD``, ``red``, ``WH/BU``, ``white/blue``, ``wh/bu``.

    Letters with an apostrophe in front are a code even where they would be a word, as in ``'RED``.

    Raises:
        Refused: ``unknown-colour``.
    """
    said = cell.words
    if not said:
        return None
    if cell.raw.startswith("'") and _CODE.fullmatch(said[1:]):
        return said[1:]
    words = " ".join(said.casefold().split())
    if words in CODES:
        return CODES[words]
    pieces = _TRACER.split(_STRIPE.sub("", words))
    codes = [CODES.get(piece) or piece.upper() for piece in pieces]
    known = {*CODES.values()}
    if len(pieces) <= 2 and all(code in known for code in codes):
        return "/".join(codes)
    if _CODE.fullmatch(said):
        return said
    raise cell.refuse(
        "unknown-colour",
        f"{quoted(said)} is no colour that has a code here.",
        "a code of IEC 60757 such as RD or, with a tracer, WH/BU; a word such as red or white/blue; or letters of your "
        "own, two to eight capitals",
    )


def insulation_cell(code: str | None) -> str:
    """Return how a code is written, so that ``insulation`` reads it back as it is."""
    if not code:
        return ""
    plain = Cell("", 0, "", code)
    return code if insulation(plain) == code else f"'{code}"
