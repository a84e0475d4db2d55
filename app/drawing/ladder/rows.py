"""What stands on and around each place and piece of a rung, in words, and how much room that takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.drawing.frame.title_block import wrapped
from app.drawing.ladder.graph import WIRES, Piece
from app.drawing.ladder.model import End, Rung
from app.drawing.ladder.words import Wording
from app.drawing.surface.geometry import up_to_grid
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import SMALL, Font
from app.drawing.symbols.symbol import HALF, LONG

DEVICE = Font("words", 11, bold=True)
SCREW = Font("letters", 10)
WORDS_LINE = 12
UNDER_WIDTH = 80
"""The room for words under a symbol."""
WIRE_LEAST, WIRE_MOST = 36, 168
SAID_WIDTH = 132
"""The room for words under a load: as much as lies between the column before it and the common rail anyway."""
BETWEEN = 6
"""What stays free above every rung, so that a sheet can end there."""
SPARE = 8
"""What stays free around words."""


@dataclass(frozen=True)
class RowWords:
    """The words of one rung.

    ``above`` and ``under`` go with each piece, ``screw`` with each place: its name, and where it goes on or why it
    ends. ``said`` are the rows of words that tell what the loads of the rung are and what they move.
    """

    above: tuple[str, ...]
    under: tuple[tuple[str, ...], ...]
    screw: tuple[tuple[str, str], ...]
    said: tuple[tuple[str, Font], ...]

    def height_above(self) -> int:
        """Return the room above the line of the rung."""
        return HALF + WORDS_LINE + BETWEEN

    def height_below(self, lines_before: int) -> int:
        """Return the room below it, where what is said stands under ``lines_before`` lines of words."""
        lines = max([len(each) for each in self.under] + [lines_before + len(self.said) if self.said else 0])
        return up_to_grid(HALF + WORDS_LINE * lines + SPARE if lines else HALF)

    def said_width(self) -> int:
        """Return the room from left to right that what is said needs."""
        return max((width_of(words, font) for words, font in self.said), default=0)


def row_words(rung: Rung, wording: Wording, screws: Mapping[str, str], extra: tuple[str, ...] = ()) -> RowWords:
    """Return the words of a rung. ``screws`` are the points that are screws, with what they are called."""
    said: list[tuple[str, Font]] = []
    for load, moves in wording.said(rung):
        said += ((row, DEVICE) for row in wrapped(load, DEVICE, SAID_WIDTH))
        said += ((row, SMALL) for row in wrapped(moves, SMALL, SAID_WIDTH) if row)
    said += ((row, SMALL) for words in (*wording.warnings(rung), *extra) for row in wrapped(words, SMALL, SAID_WIDTH))
    return RowWords(
        above=tuple(_above(piece, wording) for piece in rung.pieces),
        under=tuple(_under(piece, wording) for piece in rung.pieces),
        screw=tuple(_screws(rung, wording, screws)),
        said=tuple(said),
    )


def under_line(y: int, number: int) -> int:
    """Return the baseline of a line of words under a rung that lies at ``y``; the first one is number 1."""
    return y + HALF + number * WORDS_LINE - 2


def cell_width(piece: Piece, above: str, under: tuple[str, ...]) -> int:
    """Return the room that a piece needs between its places."""
    if piece.sort in WIRES:
        return up_to_grid(max(WIRE_LEAST, width_of(above, SMALL) + 2 * SPARE))
    words = max((width_of(row, SMALL) for row in under), default=0)
    return up_to_grid(max(LONG + 24, words + SPARE, width_of(above, DEVICE) + SPARE))


def screw_width(words: tuple[str, str]) -> int:
    """Return the room that the words at a place need."""
    widest = max(width_of(words[0], SCREW), width_of(words[1], SMALL))
    return widest + 2 * SPARE if widest else 0


def _above(piece: Piece, wording: Wording) -> str:
    if piece.sort in WIRES:
        return fitted(wording.wire(piece), SMALL, WIRE_MOST)
    return wording.called.get(piece.name, "")


def _under(piece: Piece, wording: Wording) -> tuple[str, ...]:
    rows = [row for words in wording.under(piece) for row in wrapped(words, SMALL, UNDER_WIDTH) if row]
    return tuple(fitted(row, SMALL, UNDER_WIDTH) for row in rows)


def _screws(rung: Rung, wording: Wording, screws: Mapping[str, str]) -> list[tuple[str, str]]:
    found = []
    points = rung.points()
    for place, point in enumerate(points):
        end = rung.start if place == 0 else rung.end if place == len(points) - 1 else None
        name = screws.get(point, "") or (point if point in wording.named else "")
        if end is None:
            found.append((name, ""))
        elif end.ending == "tie" and not end.by_name:
            found.append(("", ""))
        else:
            beside = rung.pieces[0] if place == 0 else rung.pieces[-1]
            found.append((name or (point if end.by_name else ""), _beyond(end, beside, name, wording)))
    return found


def _beyond(end: End, piece: Piece, screw: str, wording: Wording) -> str:
    """Return where a rung goes on behind its last piece, or why it ends; nothing where that is seen."""
    if end.by_name:
        return wording.rail(end.rail) if end.ending == "rail" else f"on rung {end.rung}"
    if end.ending != "open":
        return ""
    if end.point in wording.ladder.loose:
        return "not landed"
    if wording.is_unseen(end.point):
        return "not seen"
    if screw and end.point not in wording.tied and piece.sort != "conductor":
        return "nothing landed"
    return ""
