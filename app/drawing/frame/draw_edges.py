"""Where a sheet ends and the drawing goes on: the cut, a mark for each line that crosses it, and the sheet beyond.

Rules of the file: a mark stands where its line crosses, or as near as words have room beside each other. Beside a sheet
marks are level; above and below they run from below to above, but where few lines cross there they are level too.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from app.drawing.frame.legend import MATCH_LINE
from app.drawing.frame.page import LEVEL_WIDEST, MARK_GAP, MARK_HIGH, PAD, mark_label
from app.drawing.frame.sheets import Edge, SheetSet, Side
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL, THIN, Surface, Text

CENTRE = 4
"""From the middle of small words down to their baseline."""
ABOVE = 9
BELOW = 2
"""What small words fill above and below their baseline."""
MARK_PITCH = 11
"""From one match mark to the next; where the drawing is printed smaller, conductors lie closer together."""


class _Written(NamedTuple):
    """A mark on one side: where its line crosses and where its words stand, along that side in u of the frame."""

    crosses: int
    stands: int


class EdgePen:
    """Draws the edges of one sheet, of which ``window`` is shown at ``place`` and cut on some ``sides``."""

    def __init__(self, surface: Surface, sheets: SheetSet, window: Box, place: Box, sides: frozenset[Side]) -> None:
        self.surface = surface
        self.area = sheets.page.area
        self.window = window
        self.place = place
        self.sides = sides
        self.level_marks = sheets.drawing.level_marks

    def side(self, edges: Sequence[Edge], before: int) -> None:
        """Draw the edges of one side; ``before`` is how many sheets of the packet come before this drawing."""
        side = edges[0].side
        # Where two sheets beyond overlap, both show what crosses there; the mark is written once.
        marks = sorted({(mark.at, mark.words) for edge in edges for mark in edge.marks})
        written = dict(zip(marks, self._written(side, marks), strict=True))
        beyond = MARK_GAP + self._deepest(side, marks) + MARK_GAP
        ordered = sorted(edges, key=lambda edge: edge.along)
        lines = [self._cut_line(edge) for edge in ordered]
        numbers = [str(edge.sheet + before) for edge in ordered]
        told = [
            _said(edge, number, line, alone=len(edges) == 1)
            for edge, number, line in zip(ordered, numbers, lines, strict=True)
        ]
        # Words of edges that lie close together are moved apart.
        middles = self._placed(side, [_middle(side, line) for line in lines], [width_of(s, SMALL) + PAD for s in told])
        for edge, number, line, said, middle in zip(ordered, numbers, lines, told, middles, strict=True):
            self.surface.begin({"class": "cut", "data-side": side, "data-to-sheet": number}, said)
            self.surface.line(line, MATCH_LINE)
            for mark in edge.marks:
                if (mark.at, mark.words) in written:
                    self._mark(side, line[0], mark.words, written.pop((mark.at, mark.words)))
            self.surface.text(_edge_text(side, line[0], middle, beyond, said))
            self.surface.end()

    def _written(self, side: Side, marks: Sequence[tuple[int, str]]) -> list[_Written]:
        """Return where the marks of a side stand, in their order."""
        crossed = [self._along(side, at) for at, _words in marks]
        widths = [MARK_PITCH] * len(marks)
        if self._is_level_above(side):
            widths = [width_of(self._label(side, words), SMALL) + 2 * MARK_GAP for _at, words in marks]
        return list(map(_Written, crossed, self._placed(side, crossed, widths, corners=True)))

    def _placed(self, side: Side, places: Sequence[int], widths: Sequence[int], *, corners: bool = False) -> list[int]:
        """Return places in order, moved apart for words so wide, and back where these would run over an end.

        With ``corners`` they keep out of the corner in which the marks of the upper or lower side stand.
        """
        upright = side in ("left", "right")
        least, most = (self.area.y, self.area.bottom) if upright else (self.area.x, self.area.right)
        if upright and corners:
            least = self.place.y if "top" in self.sides else least
            most = self.place.bottom if "bottom" in self.sides else most
        stands = apart(places, widths)
        for number in range(len(stands) - 1, -1, -1):
            stands[number] = min(stands[number], most - (widths[number] + 1) // 2)
            most = stands[number] - widths[number] // 2
        for number, width in enumerate(widths):
            stands[number] = max(stands[number], least + width // 2)
            least = stands[number] + (width + 1) // 2
        return stands

    def _deepest(self, side: Side, marks: Sequence[tuple[int, str]]) -> int:
        """Return how far the marks of a side reach away from it."""
        if self._is_level_above(side):
            return MARK_HIGH
        return max(width_of(self._label(side, words), SMALL) for _at, words in marks)

    def _label(self, side: Side, words: str) -> str:
        return mark_label(words, LEVEL_WIDEST) if self._is_level_above(side) else mark_label(words)

    def _is_level_above(self, side: Side) -> bool:
        return self.level_marks and side in ("top", "bottom")

    def _mark(self, side: Side, on_line: Point, words: str, written: _Written) -> None:
        """Write a mark: where its line crosses, and where there is room for its name."""
        self.surface.begin({"data-match": words})
        if written.crosses != written.stands:
            self.surface.line(_leader(side, on_line, *written), THIN)
        label = self._label(side, words)
        if self._is_level_above(side):
            y = on_line.y + (MARK_GAP + ABOVE if side == "bottom" else -MARK_GAP - BELOW)
            text = Text(Point(written.stands, y), label, SMALL, width_of(label, SMALL), "middle")
        else:
            text = _mark_text(side, on_line, written.stands, label)
        self.surface.text(text)
        self.surface.end()

    def _cut_line(self, edge: Edge) -> tuple[Point, Point]:
        start, end = (self._along(edge.side, at) for at in edge.along)
        if edge.side in ("left", "right"):
            x = self.place.x if edge.side == "left" else self.place.right
            return Point(x, start), Point(x, end)
        y = self.place.y if edge.side == "top" else self.place.bottom
        return Point(start, y), Point(end, y)

    def _along(self, side: Side, at: int) -> int:
        """Return where a coordinate of the drawing lies along an edge, in u of the frame."""
        window, place = self.window, self.place
        if side in ("left", "right"):
            return place.y + round((at - window.y) * place.h / window.h)
        return place.x + round((at - window.x) * place.w / window.w)


def _said(edge: Edge, number: str, line: tuple[Point, Point], *, alone: bool) -> str:
    """Return where a drawing goes on; where there is room, of which parts only an edge is seen here."""
    short = f"goes on: sheet {number}"
    full = f"{short}, with all of {', '.join(edge.cut)}"
    room = abs(line[1].x - line[0].x) + abs(line[1].y - line[0].y)
    return full if edge.cut and alone and width_of(full, SMALL) <= room else short


def apart(places: Sequence[int], widths: Sequence[int]) -> list[int]:
    """Return places in order, moved so far that words so wide have room beside each other, as little as will do."""
    halves = [(one + other + 1) // 2 for one, other in pairwise(widths)]
    # Without the room that words before them take, words that stand together have one place.
    taken = list(accumulate(halves, initial=0))
    groups: list[tuple[int, int]] = []
    for place, before in zip(places, taken, strict=False):
        count, total = 1, place - before
        while groups and groups[-1][1] / groups[-1][0] > total / count:
            more, more_total = groups.pop()
            count, total = more + count, more_total + total
        groups.append((count, total))
    moved: list[int] = []
    for count, total in groups:
        start = taken[len(moved)]
        first = round(total / count + start)
        moved += [first + before - start for before in taken[len(moved) : len(moved) + count]]
    return moved


def _leader(side: Side, on_line: Point, here: int, there: int) -> tuple[Point, Point]:
    """Return the line from where something crosses to where its name stands."""
    out = (MARK_GAP - 1) * (1 if side in ("right", "bottom") else -1)
    if side in ("left", "right"):
        return Point(on_line.x, here), Point(on_line.x + out, there)
    return Point(here, on_line.y), Point(there, on_line.y + out)


def _middle(side: Side, line: tuple[Point, Point]) -> int:
    return (line[0].y + line[1].y) // 2 if side in ("left", "right") else (line[0].x + line[1].x) // 2


def _mark_text(side: Side, on_line: Point, along: int, words: str) -> Text:
    width = width_of(words, SMALL)
    if side == "left":
        return Text(Point(on_line.x - MARK_GAP, along + CENTRE), words, SMALL, width, "end")
    if side == "right":
        return Text(Point(on_line.x + MARK_GAP, along + CENTRE), words, SMALL, width)
    if side == "top":
        return Text(Point(along + CENTRE, on_line.y - MARK_GAP), words, SMALL, width, upright=False)
    return Text(Point(along + CENTRE, on_line.y + MARK_GAP), words, SMALL, width, "end", upright=False)


def _edge_text(side: Side, on_line: Point, middle: int, beyond: int, words: str) -> Text:
    """Return the words outside the marks, which fill ``beyond`` u."""
    width = width_of(words, SMALL)
    if side in ("left", "right"):
        x = on_line.x + (beyond + ABOVE if side == "right" else -beyond - BELOW)
        return Text(Point(x, middle), words, SMALL, width, "middle", upright=False)
    y = on_line.y + (beyond + ABOVE if side == "bottom" else -beyond - BELOW)
    return Text(Point(middle, y), words, SMALL, width, "middle")
