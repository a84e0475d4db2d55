"""A drawing on sheets of paper: one where its lettering stays legible, else as few as will do, cut in gaps.

Rules of the file: all sheets of a drawing have one scale, the largest at which they are as few, and lie the same way.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from app.drawing.frame.cutting import CLEAR, Room, Span
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.match_marks import MatchMark, marks_at
from app.drawing.frame.measured import PEN, SCREW, Measured, inside, measured
from app.drawing.frame.page import LEVEL_ROOM, MarkRoom, Page, mark_label, mark_room, page_for
from app.drawing.frame.paper import (
    FRAME_SCALE,
    KEEPING_WHOLE_MM,
    LARGEST_SCALE,
    SMALLEST_CAPITAL_MM,
    TURNS,
    Paper,
    Turn,
    smallest_scale,
)
from app.drawing.frame.tiling import Border, Rooms, Tiling, tiled
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.geometry import GRID, Box, Point, box_around
from app.drawing.surface.recorder import Record
from app.job.refusal import Refused

Side = Literal["left", "top", "right", "bottom"]
_SIDES: Mapping[bool, tuple[Side, Side]] = {True: ("right", "left"), False: ("bottom", "top")}
LARGER = 1.05
"""The step in which larger scales are tried."""
LARGER_MOST = 8
FILLED = 2
"""Half of a sheet is foot, marks and what a cut in a gap leaves free; only for a guess beforehand."""
LARGER_UP_TO = 12
"""Where there are more sheets than this, none is made to fit more closely."""


@dataclass(frozen=True)
class Edge:
    """A stretch of a side of a sheet on which lines go on: on which sheet, and which.

    ``cut`` are the names of parts of which this sheet shows an edge and that one all.
    """

    side: Side
    along: Span
    sheet: int
    marks: tuple[MatchMark, ...]
    cut: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sheet:
    """One sheet: the window of the drawing that it shows, and where it goes on."""

    number: int
    window: Box
    edges: tuple[Edge, ...]
    shown: tuple[Record, ...]

    @property
    def cut_sides(self) -> frozenset[Side]:
        """Return the sides on which lines go on."""
        return frozenset(edge.side for edge in self.edges)


@dataclass(frozen=True)
class SheetSet:
    """The sheets of one drawing.

    ``scale`` is tenths of a millimetre to one u of the drawing, ``room`` what is left beside a cut in u of the frame.
    """

    drawing: Drawing
    page: Page
    scale: float
    room: MarkRoom
    sheets: tuple[Sheet, ...]

    @property
    def extent(self) -> Box:
        """Return the box around all windows."""
        return box_around(sheet.window for sheet in self.sheets) or self.drawing.content


@dataclass(frozen=True)
class _Fit:
    """Tiles at a scale on a page, the marks where they meet, and the room that is left for those."""

    page: Page
    scale: float
    tiling: Tiling
    marks: Mapping[Border, tuple[MatchMark, ...]]
    room: MarkRoom


def on_paper(
    drawing: Drawing,
    paper: Paper,
    turn: Turn | Literal["auto"],
    words: SheetWords,
    capitals_mm: float | None = None,
    most: int | None = None,
) -> SheetSet:
    """Return a drawing on sheets. With ``auto`` the paper lies as it needs fewer sheets, then as it shows more.

    ``capitals_mm`` is the least height of capitals; where it is None, they are as high as they should be, and lower
    only where a part or a rung would else be cut. What has a size of its own is drawn in that size. A drawing that is
    larger than ``most`` sheets is not even cut.

    Raises:
        Refused: the drawing is larger than ``most`` sheets.
    """
    seen = measured(drawing)
    least = drawing.scale or min(smallest_scale(seen.fonts, capitals_mm or SMALLEST_CAPITAL_MM), LARGEST_SCALE)
    expected = int(FILLED * least * seen.content.w * least * seen.content.h / (paper.width * paper.height))
    if most is not None and expected > most:
        raise too_many_sheets(expected, most, paper)
    turns = TURNS if turn == "auto" else (turn,)
    fits = [_fit(seen, paper.turned(one), words, least) for one in turns]
    if capitals_mm is None and drawing.scale is None and all(fit.tiling.price(drawing.whole)[0] for fit in fits):
        closer = min(smallest_scale(seen.fonts, KEEPING_WHOLE_MM), LARGEST_SCALE)
        fits += [_fit(seen, paper.turned(one), words, closer) for one in turns]
    best = min(fits, key=lambda fit: (_price(seen, fit), -fit.scale))
    return SheetSet(drawing, best.page, best.scale, best.room, tuple(_sheets(seen, best)))


def fits_one_sheet(
    drawing: Drawing, paper: Paper, turn: Turn | Literal["auto"], words: SheetWords, capitals_mm: float | None = None
) -> bool:
    """Return whether a drawing is whole on one sheet, with capitals as high as they should be."""
    seen = measured(drawing)
    least = drawing.scale or min(smallest_scale(seen.fonts, capitals_mm or SMALLEST_CAPITAL_MM), LARGEST_SCALE)
    turns = TURNS if turn == "auto" else (turn,)
    return any(_alone(seen, paper.turned(one), words)[1] >= least for one in turns)


def can_keep_whole(
    drawing: Drawing, paper: Paper, turn: Turn | Literal["auto"], words: SheetWords, capitals_mm: float | None = None
) -> bool:
    """Return whether everything of a drawing that should not be cut finds room on a sheet, if all lie one way."""
    seen = measured(drawing)
    scale = drawing.scale or min(smallest_scale(seen.fonts, capitals_mm or KEEPING_WHOLE_MM), LARGEST_SCALE)
    for one in TURNS if turn == "auto" else (turn,):
        area = page_for(paper.turned(one), drawing.marks, words, several=True, cut=bool(seen.segments)).area
        across, down = (int(FRAME_SCALE * length / scale) - 2 * (GRID + CLEAR) for length in (area.w, area.h))
        if all(box.w <= across and box.h <= down for box in drawing.whole):
            return True
    return False


def too_many_sheets(count: int, most: int, paper: Paper) -> Refused:
    """Return the refusal of a drawing that needs so many sheets."""
    return Refused(
        "too-many-sheets",
        f"This would be about {count} sheets of {paper.words}; at most {most} are made.",
        would_be_right="smaller lettering, or the drawing as one SVG without paper",
    )


def _fit(seen: Measured, paper: Paper, words: SheetWords, least: float) -> _Fit:
    page, scale = _alone(seen, paper, words)
    if scale >= least:
        return _Fit(page, seen.drawing.scale or scale, Tiling(((seen.content,),), rows=True), {}, MarkRoom(0, 0))
    page = page_for(paper, seen.drawing.marks, words, several=True, cut=bool(seen.segments))
    best = _cut(seen, page, least)
    for step in range(1, LARGER_MOST if seen.drawing.scale is None else 1):
        if len(best.tiling.tiles) > LARGER_UP_TO:
            break
        larger = _cut(seen, page, min(least * LARGER**step, LARGEST_SCALE))
        if _price(seen, larger) > _price(seen, best):
            break
        best = larger
    return best


def _price(seen: Measured, fit: _Fit) -> tuple[tuple[int, int, int], int]:
    """Return what a fit costs: its tiles, then how many parts are cut off from where conductors fan out beside them."""
    tiles = fit.tiling.tiles
    crowded = sum(not any(inside(box, tile) for tile in tiles) for box in seen.with_room)
    return fit.tiling.price(seen.drawing.whole), crowded


def _alone(seen: Measured, paper: Paper, words: SheetWords) -> tuple[Page, float]:
    """Return the page of a drawing that has one sheet, and the scale at which it fills that."""
    page = page_for(paper, seen.drawing.marks, words, several=False)
    across, down = page.area.w / seen.content.w, page.area.h / seen.content.h
    return page, min(FRAME_SCALE * across, FRAME_SCALE * down, LARGEST_SCALE)


def _cut(seen: Measured, page: Page, scale: float) -> _Fit:
    room = _mark_room(seen)
    across, down = (
        Room(*(int(FRAME_SCALE * (length - cuts * own) / scale) for cuts in (0, 1, 2)))
        for length, own in ((page.area.w, room.beside), (page.area.h, room.along))
    )
    tiling = tiled(seen, Rooms(across, down))
    return _Fit(page, scale, tiling, marks_at(tiling.borders(), seen.segments, seen.drawing.called), room)


def _mark_room(seen: Measured) -> MarkRoom:
    """Return the room for the marks of whatever might be cut; a table has nothing to mark and needs none."""
    drawing = seen.drawing
    beside = {
        drawing.called.get(segment.line, segment.line)
        for segment in seen.segments
        if segment.level or not drawing.level_marks
    }
    room = mark_room(mark_label(f"{name} a") for name in beside)
    return room._replace(along=LEVEL_ROOM) if drawing.level_marks else room


def _sheets(seen: Measured, fit: _Fit) -> Iterator[Sheet]:
    """Yield a sheet for each tile that shows anything, at least one."""
    shown = _shown(seen, fit.tiling.tiles)
    kept = [place for place, records in enumerate(shown) if records] or [0]
    number = {place: count for count, place in enumerate(kept, start=1)}
    edges: dict[int, list[Edge]] = defaultdict(list)
    tiles = fit.tiling.tiles
    for border, marks in fit.marks.items():
        # A tile shows nothing where all that would be cut there is whole on another one.
        if marks and border.before in number and border.after in number:
            for side, here, there in zip(
                _SIDES[border.cut.level], (border.before, border.after), (border.after, border.before), strict=True
            ):
                cut = tuple(_cut_off(seen, tiles[here], tiles[there]))
                edges[here].append(Edge(side, border.along, number[there], marks, cut))
    for place in kept:
        yield Sheet(number[place], tiles[place], tuple(edges[place]), shown[place])


def _cut_off(seen: Measured, here: Box, there: Box) -> Iterator[str]:
    """Yield the names of parts that a tile shows in part and the other one whole."""
    for box, name in seen.drawing.names.items():
        if box.overlaps(here) and not inside(box, here) and inside(box, there) and not _left_out(seen, box, here):
            yield name


def _shown(seen: Measured, tiles: Sequence[Box]) -> list[tuple[Record, ...]]:
    """Return what each tile shows.

    A part that another tile shows whole is left out where it would be cut, but for one on which a conductor is seen to
    end: that would end in nothing.
    """
    whole = [box for box in seen.drawing.whole if any(inside(box, tile) for tile in tiles)]
    return [seen.seen_through(tile, [box for box in whole if _left_out(seen, box, tile)]) for tile in tiles]


def _left_out(seen: Measured, part: Box, tile: Box) -> bool:
    if inside(part, tile) or not part.overlaps(tile):
        return False
    near = part.grown(PEN + SCREW, PEN + SCREW, PEN + SCREW, PEN + SCREW)
    return not any(_holds(tile, end) and _holds(near, end) for end in seen.ends)


def _holds(box: Box, point: Point) -> bool:
    return box.x <= point.x <= box.right and box.y <= point.y <= box.bottom
