"""Where everything of a ladder stands on the sheet: sections below one another, in each its rails, rows and columns.

Rules of the file: coordinates are integers on the grid. From left to right a column holds the words of its screws and
then the lanes of its ties; between two columns stands what is between two screws. Words are never in a lane, ties
never elsewhere, so that no tie runs through words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.catalogue.catalogue import Catalogue
from app.drawing.frame.title_block import wrapped
from app.drawing.ladder.columns import Columns, Place, columns_of, is_own_rail
from app.drawing.ladder.devices import designations
from app.drawing.ladder.graph import WIRES
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.live import Live
from app.drawing.ladder.model import Ladder, Rung, Section
from app.drawing.ladder.rows import BETWEEN, SPARE, RowWords, cell_width, row_words, screw_width, under_line
from app.drawing.ladder.words import Wording
from app.drawing.surface.geometry import GRID, Box, Point, up_to_grid
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import NAME, SMALL
from app.job.model import Layout

NUMBERS = 36
"""The room for rung numbers at the left."""
LANE = 24
"""From one lane of a column to the next: a tie that passes a screw keeps off its ring."""
SAID_GAP = 24
"""Between the last column and what is said of loads, where no common rail stands behind that."""
HEAD_LINE = 15
SECTION_GAP = 36
NOTES_WIDTH, NOTES_MOST = 720, 876
"""How wide notes are, and how wide below rungs that are wider: the smallest paper that lies shows no more at once."""


@dataclass(frozen=True)
class Row:
    """A rung on the sheet: the line that it lies on, its words, and for each piece the middle of its room.

    ``said_at`` is where the first row of what is said of its loads begins.
    """

    rung: Rung
    y: int
    words: RowWords
    middles: tuple[int, ...]
    said_at: Point
    box: Box


@dataclass(frozen=True)
class SectionPlan:
    """A section on the sheet. ``x_of`` gives the x of every place; rails stand from ``top`` to ``bottom``."""

    section: Section
    heading: str
    head: tuple[str, ...]
    notes: tuple[str, ...]
    columns: Columns
    rows: tuple[Row, ...]
    x_of: Mapping[Place, int]
    word_edge: Mapping[Place, int]
    """The right edge of the words of a place."""
    left: int
    right: int
    top: int
    bottom: int
    box: Box


@dataclass(frozen=True)
class LadderPlan:
    """The whole ladder on the sheet."""

    ladder: Ladder
    wording: Wording
    screws: Mapping[str, str]
    sections: tuple[SectionPlan, ...]
    last_notes: tuple[str, ...]
    content: Box


def plan_ladder(layout: Layout, catalogue: Catalogue, live: Live | None = None) -> LadderPlan:
    """Return where everything of the ladder of a layout stands."""
    ladder = ladder_of(layout, catalogue) if live is None else live.ladder
    wording = Wording(ladder, layout, catalogue, designations(ladder, layout, catalogue))
    screws = screws_of(layout, catalogue)
    sections: list[SectionPlan] = []
    y = 0
    for section in ladder.sections:
        planned = _section(section, y, wording, screws, live)
        sections.append(planned)
        y = planned.box.bottom + SECTION_GAP
    right = max((planned.box.right for planned in sections), default=0)
    wide = max(NOTES_WIDTH, min(right, NOTES_MOST))
    last = tuple(row for note in wording.last_notes() for row in wrapped(note, SMALL, wide))
    bottom = y + HEAD_LINE * len(last)
    if last:
        right = max(right, wide)
    content = Box(0, 0, up_to_grid(max(right, GRID)), up_to_grid(max(bottom, GRID)))
    return LadderPlan(ladder, wording, screws, tuple(sections), last, content)


def screws_of(layout: Layout, catalogue: Catalogue) -> Mapping[str, str]:
    """Return every screw of a layout, by its point."""
    return {
        f"{part}.{letter}": f"{part}.{letter}"
        for part in sorted(layout.parts)
        for letter in catalogue.terminals_of(layout, part)
    }


def _section(section: Section, y: int, wording: Wording, screws: Mapping[str, str], live: Live | None) -> SectionPlan:
    columns = columns_of(section)
    words = [row_words(rung, wording, screws, _now(rung, wording, live)) for rung in section.rungs]
    across = _across(section, columns, words)
    rails = [wording.rail_joins(wording.ladder.rails[rail]) for rail in (section.hot, section.common) if rail]
    most = max(NOTES_WIDTH, across.right)
    head = tuple(row for each in rails for row in wrapped(each, SMALL, most))
    notes = tuple(row for note in wording.notes(section) for row in wrapped(note, SMALL, most))
    top = y + up_to_grid(HEAD_LINE * (len(head) + 1) + GRID)
    rows: list[Row] = []
    at = top
    wide = max([across.right + SPARE, *(across.said + own.said_width() for own in words)])
    for rung, own in zip(section.rungs, words, strict=True):
        before = _lines_before_said(rung, own, columns)
        y_rung = at + own.height_above()
        height = own.height_above() + own.height_below(before)
        said_at = Point(across.said, under_line(y_rung, before + 1))
        box = Box(0, at + BETWEEN, wide, height - BETWEEN)
        rows.append(Row(rung, y_rung, own, _middles(rung, columns, across), said_at, box))
        at += height
    bottom = at
    last = bottom + up_to_grid(HEAD_LINE * len(notes))
    heading = wording.heading(section)
    wide = max(wide, width_of(heading, NAME), *(width_of(each, SMALL) for each in (*head, *notes, "")))
    return SectionPlan(
        section=section,
        heading=heading,
        head=head,
        notes=notes,
        columns=columns,
        rows=tuple(rows),
        x_of=across.x_of,
        word_edge=_word_edges(section, columns, across),
        left=across.left,
        right=across.right,
        top=top,
        bottom=bottom,
        box=Box(0, y, wide, last - y),
    )


def _now(rung: Rung, wording: Wording, live: Live | None) -> tuple[str, ...]:
    """Return what a rung does now, in words."""
    if live is None or not any(rung.loads()):
        return ()
    works = [live.works(load) for load in rung.loads()]
    if all(works):
        return ("Works now.",)
    stops = {piece.name for load in rung.loads() if not live.works(load) for piece in live.stops_before(load)}
    said = [f"{wording.called[name]} on rung {wording.ladder.rung_of[name]}" for name in sorted(stops)]
    return (f"Stops at {', '.join(said)}.",) if said else ("Does not work now.",)


@dataclass(frozen=True)
class _Across:
    """A section from left to right: the x of every place, where words of a column end, where each region begins."""

    x_of: Mapping[Place, int]
    words_end: Mapping[int, int]
    region: Mapping[int, tuple[int, int]]
    left: int
    right: int
    said: int
    """Where what is said of loads begins."""


def _across(section: Section, columns: Columns, words: Sequence[RowWords]) -> _Across:
    cells, labels, first = _needs(section, columns, words)
    x = left = NUMBERS
    lane_start: dict[int, int] = {}
    words_end: dict[int, int] = {}
    region: dict[int, tuple[int, int]] = {}
    for column in range(columns.count):
        if column:
            x += up_to_grid(labels.get(column, 0))
            words_end[column] = x
        lane_start[column] = x
        x += LANE * (columns.lanes.get(column, 1) - 1)
        begin = x + (up_to_grid(first) if column == 0 else GRID)
        x = begin + cells.get(column, 0)
        region[column] = (begin, x)
        # Words of a screw have free room around them already.
        x += GRID if column + 1 < columns.count and not labels.get(column + 1) else 0
    x_of = {place: lane_start[spot.column] + LANE * spot.lane for place, spot in columns.spots.items()}
    right = lane_start[columns.count - 1]
    words_end[0] = left + up_to_grid(first)
    said = region[columns.count - 2][0] if section.common else right + SAID_GAP
    return _Across(x_of, words_end, region, left, right, said)


def _needs(
    section: Section, columns: Columns, words: Sequence[RowWords]
) -> tuple[Mapping[int, int], Mapping[int, int], int]:
    """Return the room that each region needs for pieces, each column for words, and the hot rail for its screws."""
    cells: dict[int, int] = {}
    labels: dict[int, int] = {}
    first = up_to_grid(width_of("hot", SMALL) + 2 * SPARE)
    if section.common:
        labels[columns.count - 1] = width_of("common", SMALL) + 2 * SPARE
    for rung, own in zip(section.rungs, words, strict=True):
        for number, piece in enumerate(rung.pieces):
            region = region_of(rung, number, columns)
            need = cell_width(piece, own.above[number], own.under[number])
            cells[region] = max(cells.get(region, 0), need)
        for place, said in enumerate(own.screw):
            column = columns.spots[rung.number, place].column
            if column == 0:
                first = max(first, screw_width(said))
            else:
                labels[column] = max(labels.get(column, 0), screw_width(said))
    if section.common:
        # What is said of loads stands before the common rail, also below the words of its screws.
        last = columns.count - 2
        said_width = max((own.said_width() for own in words), default=0)
        cells[last] = max(cells.get(last, 0), up_to_grid(said_width + SPARE) - up_to_grid(labels[last + 1]))
    return cells, labels, first


def _lines_before_said(rung: Rung, own: RowWords, columns: Columns) -> int:
    """Return how many lines of words stand where what is said of the loads of a rung has its place."""
    regions = [region_of(rung, number, columns) for number in range(len(rung.pieces))]
    return max((len(own.under[at]) for at, region in enumerate(regions) if region == columns.count - 2), default=0)


def region_of(rung: Rung, number: int, columns: Columns) -> int:
    """Return the column behind which a piece stands: the first one, but the last where it leads to the common rail."""
    if number == len(rung.pieces) - 1 and is_own_rail(rung.end) and rung.pieces[number].sort not in WIRES:
        return columns.spots[rung.number, number + 1].column - 1
    return columns.spots[rung.number, number].column


def _middles(rung: Rung, columns: Columns, across: _Across) -> tuple[int, ...]:
    regions = [across.region[region_of(rung, number, columns)] for number in range(len(rung.pieces))]
    return tuple(begin + (end - begin) // 2 // 6 * 6 for begin, end in regions)


def _word_edges(section: Section, columns: Columns, across: _Across) -> Mapping[Place, int]:
    """Return where the words of each place end: beside it where no other tie passes there, else before all lanes."""
    found = {}
    for row, rung in enumerate(section.rungs):
        for place in range(len(rung.pieces) + 1):
            spot = columns.spots[rung.number, place]
            passing = any(
                other.column == spot.column and other.lane < spot.lane and other.rows[0] <= row <= other.rows[-1]
                for other in columns.spots.values()
            )
            edge = across.words_end[spot.column] if passing or not spot.column else across.x_of[rung.number, place]
            found[rung.number, place] = edge
    return found
