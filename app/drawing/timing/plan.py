"""Where everything of a timing chart lies, before anything is drawn.

Rules of the file: a run that is too long for one width goes on in another *band* below, as a line of text does. A row
that is off all through a band is left out of it, unless it is something that is done from outside; one that moves in
other bands and is on all through this one is only named below it. What then runs keeps its row. A band that is higher
than a sheet of paper goes on below, with the same times above its other rows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from app.drawing.frame.title_block import wrapped
from app.drawing.surface.geometry import Box
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.drawing.timing.axis import CIRCLE_ROOM, Stretch, left_room, stretches
from app.drawing.timing.chart import Chart, Row, Section, When
from app.drawing.timing.links import Trunk, trunks_of

LABELS = 204
"""Width of the names of the rows."""
LINES_LEAST, LINES_MOST = 912, 1128
"""How wide the lines of a band may be; where there are several bands, none is made narrower than the sheet is."""
LINES_NARROW = 720
"""How wide they may be where a band is higher than ``FLAT``: it then needs paper that stands upright."""
FLAT = 730
"""How high a band may be to be whole on paper that lies."""
TALL = 860
"""How high one may be to be whole on the smallest paper that stands upright, above the longest legend."""
TALL_ON_LARGE = 1700
"""The same on large paper."""
LINES_STEP = 24
LEAD_FIRST, LEAD = 76, 52
"""Before the first column: room for how things stood before; in later bands only a little."""
TAIL = 92
"""After the last column of the chart: how it ends."""
ROW = 42
SECTION = 30
AXIS_ABOVE, AXIS_BELOW = 48, 34
STANDING_LINE = 14
STANDING_LEAST = 600
"""How wide the words below a band may be that is narrower."""
STANDING = "On all along here: "
BAND_GAP = 36
SECTION_WORDS: Mapping[Section, str] = {"done": "What is done", "moves": "What moves", "runs": "What then runs"}


@dataclass(frozen=True, slots=True)
class Column:
    """A step of an instant: its x, and how much room to its left belongs to links."""

    when: When
    x: int
    left: int


@dataclass(frozen=True)
class Band:
    """A part of the axis with all rows.

    ``onward`` gives the stretch after each column; after the last of a band it leads into the next one, and behind
    the last of the chart there is none. ``left`` and ``right`` are the ends of the lines. ``middles`` gives the y of
    the middle of each row that stands in it, by the place of the row; ``headings`` the y of each section.
    ``continued`` is the section that began above, where this is what goes on below of a band that is too high; both
    have one number.
    """

    number: int
    columns: tuple[Column, ...]
    onward: tuple[Stretch | None, ...]
    left: int
    right: int
    box: Box
    middles: Mapping[int, int]
    headings: tuple[tuple[Section, int], ...]
    continued: Section | None = None
    standing: tuple[str, ...] = ()

    @property
    def foot(self) -> int:
        """Return the y at which its rows end, above the axis below them."""
        return self.box.bottom - AXIS_BELOW - STANDING_LINE * len(self.standing)

    @property
    def is_last(self) -> bool:
        """Return whether the chart ends here."""
        return self.onward[-1] is None

    def column(self, when: When) -> Column | None:
        """Return the column of a place on the axis, None where it lies in another band."""
        return next((column for column in self.columns if column.when == when), None)


@dataclass(frozen=True)
class Plan:
    """The geometry of a chart."""

    chart: Chart
    bands: tuple[Band, ...]
    trunks: Mapping[When, Sequence[Trunk]]

    @property
    def bottom(self) -> int:
        """Return the lower edge of the last band."""
        return self.bands[-1].box.bottom

    @property
    def width(self) -> int:
        """Return the width of the widest band."""
        return max(band.box.w for band in self.bands)


def plan_timing(chart: Chart, tallest: int | None = None) -> Plan:
    """Return where the bands, columns and rows of a chart lie; no band is higher than ``tallest``, if that is given."""
    trunks = trunks_of(chart)
    columns = _columns_of(chart)
    lanes = [max((trunk.lane + 1 for trunk in trunks.get(when, ())), default=0) for when in columns]
    onward = stretches(columns, lanes, _words_between(chart, columns))
    bands: list[Band] = []
    pieces = _balanced(columns, lanes, onward, LINES_MOST)
    if any(_height(_rows_between(chart, columns[first], columns[last - 1])) > FLAT for first, last in pieces):
        pieces = _balanced(columns, lanes, onward, LINES_NARROW)
    for number, (first, last) in enumerate(pieces):
        rows = _rows_between(chart, columns[first], columns[last - 1])
        placed, right = _placed(number, columns[first:last], lanes[first:last], [*onward, None][first:last])
        standing = _standing_between(chart, columns[first], columns[last - 1], max(right, STANDING_LEAST))
        above: Section | None = None
        lots = _spread(rows, tallest, STANDING_LINE * len(standing))
        for place, lot in enumerate(lots, start=1):
            y = bands[-1].box.bottom + BAND_GAP if bands else 0
            named = standing if place == len(lots) else ()
            band = _band(number, (placed, right), [*onward, None][first:last], lot, named, y)
            bands.append(replace(band, continued=above if lot and lot[0][1].section == above else None))
            above = lot[-1][1].section if lot else None
    return Plan(chart, tuple(bands), trunks)


def _columns_of(chart: Chart) -> list[When]:
    """Return the columns in order: the beginning, every edge, the end, and since when it repeats."""
    found = {When(0), When(chart.until_ms), *(edge.when for _, edge in chart.edges())}
    if chart.repeats_from_ms is not None:
        found.add(When(chart.repeats_from_ms))
    return sorted(found)


def _words_between(chart: Chart, columns: Sequence[When]) -> list[int]:
    """Return how wide the words are that go between each column and the next: what is done, until it changes again.

    Where it changes only some columns later, the words go where most time passes, which is wide anyhow.
    """
    found = [0] * (len(columns) - 1)
    for row in chart.rows:
        if row.section == "done":
            stands = [(columns[0], row.start_words), *((edge.when, edge.now) for edge in row.edges)]
            for (since, words), (until, _) in pairwise(stands):
                between = range(columns.index(since), columns.index(until))
                if between:
                    widest = max(between, key=lambda at: columns[at + 1].at_ms - columns[at].at_ms)
                    found[widest] = max(found[widest], width_of(words, SMALL))
    return found


def _rows_between(chart: Chart, first: When, last: When) -> list[tuple[int, Row]]:
    """Return the rows that stand in a band, with their places: what is done, what moves there, what then runs."""
    return [
        (place, row)
        for place, row in enumerate(chart.rows)
        if row.section == "done"
        or _moves(row, first, last)
        or (row.level_before(first) != "off" and not _stands(row, first, last))
    ]


def _moves(row: Row, first: When, last: When) -> bool:
    return any(first <= edge.when <= last for edge in row.edges)


def _stands(row: Row, first: When, last: When) -> bool:
    """Return whether a row is on all through a band and nothing but a step on the way to what then runs."""
    return row.section == "moves" and row.level_before(first) == "on" and not _moves(row, first, last)


def _standing_between(chart: Chart, first: When, last: When, width: int) -> tuple[str, ...]:
    """Return the lines that name by part what is on all through a band, no wider than ``width``."""
    named: dict[str, list[str]] = {}
    for row in chart.rows:
        if _stands(row, first, last):
            named.setdefault(row.part, []).extend((row.words, *row.others))
    said = "; ".join(f"{part}: {', '.join(names)}" if part else ", ".join(names) for part, names in named.items())
    return tuple(wrapped(f"{STANDING}{said}.", SMALL, width)) if said else ()


def _rows_down(rows: Sequence[tuple[int, Row]], y: int) -> tuple[tuple[tuple[Section, int], ...], dict[int, int], int]:
    """Return the headings and the middles of rows from a y downward, and the y below them."""
    headings: list[tuple[Section, int]] = []
    middles = {}
    for place, row in rows:
        if not headings or headings[-1][0] != row.section:
            headings.append((row.section, y))
            y += SECTION
        middles[place] = y + ROW // 2
        y += ROW
    return tuple(headings), middles, y


def _spread(rows: list[tuple[int, Row]], tallest: int | None, below: int) -> list[list[tuple[int, Row]]]:
    """Return the rows of a band in as few lots as are no higher than ``tallest``, each with about as many.

    ``below`` is how much room words need below the last of them.
    """
    if tallest is None or not rows:
        return [rows]
    for count in range(1, len(rows) + 1):
        each = -(-len(rows) // count)
        lots = [rows[at : at + each] for at in range(0, len(rows), each)]
        if all(_height(lot) <= tallest for lot in lots) and _height(lots[-1]) + below <= tallest:
            break
    return lots


def _height(rows: Sequence[tuple[int, Row]]) -> int:
    """Return how high a band with these rows is."""
    return AXIS_ABOVE + SECTION * len({row.section for _, row in rows}) + ROW * len(rows) + AXIS_BELOW


def _balanced(
    columns: Sequence[When], lanes: Sequence[int], onward: Sequence[Stretch], widest: int
) -> list[tuple[int, int]]:
    """Return the columns of each band as (first, behind the last): as few bands as can be, none much shorter.

    No band is wider than ``widest``, unless one instant alone is.
    """
    best = _pieces(columns, lanes, onward, widest)
    for most in range(widest - LINES_STEP, min(widest, LINES_LEAST) - 1, -LINES_STEP):
        pieces = _pieces(columns, lanes, onward, most)
        if len(best) == 1 or len(pieces) > len(best):
            break
        best = pieces
    return best


def _pieces(
    columns: Sequence[When], lanes: Sequence[int], onward: Sequence[Stretch], most: int
) -> list[tuple[int, int]]:
    """Return the columns of each band where none is wider than ``most``, unless one instant alone is."""
    found = []
    first = 0
    x = LEAD_FIRST + left_room(lanes[0])
    for at, stretch in enumerate(onward):
        beyond = TAIL + CIRCLE_ROOM if at + 2 == len(columns) else onward[at + 1].width
        if stretch.manner != "no-time" and x + stretch.width + beyond > most and at + 1 > first:
            found.append((first, at + 1))
            first, x = at + 1, LEAD + left_room(lanes[at + 1])
        else:
            x += stretch.width
    return [*found, (first, len(columns))]


def _placed(
    number: int, columns: Sequence[When], lanes: Sequence[int], onward: Sequence[Stretch | None]
) -> tuple[tuple[Column, ...], int]:
    """Return the columns of a band, and where its lines end."""
    x = LABELS + (LEAD if number else LEAD_FIRST) + left_room(lanes[0])
    placed = []
    for when, count, stretch in zip(columns, lanes, onward, strict=True):
        placed.append(Column(when, x, left_room(count)))
        x += stretch.width if stretch is not None else CIRCLE_ROOM + TAIL
    return tuple(placed), x


def _band(
    number: int,
    along: tuple[tuple[Column, ...], int],
    onward: Sequence[Stretch | None],
    rows: Sequence[tuple[int, Row]],
    standing: tuple[str, ...],
    y: int,
) -> Band:
    columns, right = along
    headings, middles, below = _rows_down(rows, y + AXIS_ABOVE)
    width = max(right, *(width_of(line, SMALL) for line in standing)) if standing else right
    return Band(
        number=number,
        columns=columns,
        onward=tuple(onward),
        left=LABELS,
        right=right,
        box=Box(0, y, width, below + AXIS_BELOW + STANDING_LINE * len(standing) - y),
        middles=middles,
        headings=headings,
        standing=standing,
    )
