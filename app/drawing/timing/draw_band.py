"""One band of a chart on a surface: the axis above and below, then each row with its edges and words."""

from __future__ import annotations

from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import MARK, NAME, SMALL, THIN, Font, Surface, Text
from app.drawing.timing.axis import AROUND_WORDS
from app.drawing.timing.chart import Row
from app.drawing.timing.marks import (
    BASELINE,
    CIRCLE_AWAY,
    GRID_PEN,
    HALF,
    draw_axis_piece,
    draw_bracket,
    draw_delay,
    draw_level,
    draw_number,
)
from app.drawing.timing.on_row import Delay, delays_of, edges_in, pieces_of, words_of
from app.drawing.timing.plan import LABELS, SECTION_WORDS, STANDING_LINE, Band, Column, Plan
from app.drawing.timing.words import clock_of, lasts
from app.job.model import Layout

TICKS_ABOVE = 12
"""From the upper edge of a band down to the baseline of the times."""
AXIS_LINE = 22
LASTS_LINE = 40
TICK = 4
HEADING = 20
"""From where a section begins down to the baseline of its heading."""
LABEL_CLEAR = 14
AXIS_UP = 6
"""From the foot of the rows down to the axis below."""
STANDING_UP = 3
"""From the lower edge of a band up to the baseline of the last words that stand below it."""
ROW_NAME = Font("words", 12)
LABEL_LINES = {1: (4,), 2: (-2, 12), 3: (-8, 4, 16)}
"""From the middle of a row down to the baselines of its name and what stands below, by how many there are."""
GOES_ON = "more rows at these times follow"
DELAY_UP = 4
"""Above the middle of the row, where an arrow into the edge would end that a timer does not have."""


def draw_band(surface: Surface, plan: Plan, band: Band, layout: Layout) -> None:
    """Draw a band with its axes, rows and edges (links are drawn apart)."""
    surface.begin({"data-band": str(band.number), "class": "band"})
    _axes(surface, plan, band)
    for section, y in band.headings:
        begun = ", continued" if section == band.continued else ""
        _words(surface, Point(0, y + HEADING), f"{SECTION_WORDS[section]}{begun}", NAME)
    for place, middle in band.middles.items():
        _row(surface, plan.chart.rows[place], band, middle, layout)
    for up, line in enumerate(reversed(band.standing)):
        at = Point(0, band.box.bottom - up * STANDING_LINE - STANDING_UP)
        surface.text(Text(at, line, SMALL, width_of(line, SMALL)))
    surface.end()


def _axes(surface: Surface, plan: Plan, band: Band) -> None:
    above, below = band.box.y + AXIS_LINE, band.foot + AXIS_UP
    surface.begin({"class": "axis"})
    _words(surface, Point(0, above - AXIS_LINE + TICKS_ABOVE), "min:s", SMALL)
    for y in (above, below):
        _axis_line(surface, band, y)
    for at, column in enumerate(band.columns):
        if column.when.step == 0:
            surface.line((Point(column.x, above), Point(column.x, below)), GRID_PEN)
            _time(surface, Point(column.x, above - AXIS_LINE + TICKS_ABOVE), column)
            _time(surface, Point(column.x, below + 16), column)
        for y in (above, below):
            surface.line((Point(column.x, y - TICK), Point(column.x, y + TICK)), MARK)
        _lasts(surface, band, at, band.box.y + LASTS_LINE, plan)
    if any(other.number == band.number and other.box.y > band.box.y for other in plan.bands):
        _words(surface, Point(0, below + 16), GOES_ON, SMALL)
    _ending(surface, plan, band, above)
    _repeating(surface, plan, band, below + 24)
    surface.end()


def _axis_line(surface: Surface, band: Band, y: int) -> None:
    xs = [column.x for column in band.columns]
    surface.line((Point(band.left, y), Point(xs[0], y)), THIN)
    for x, after, stretch in zip(xs, [*xs[1:], band.right], band.onward, strict=True):
        if stretch is not None:
            draw_axis_piece(surface, Point(x, y), after, stretch.manner)


def _time(surface: Surface, at: Point, column: Column) -> None:
    words = clock_of(column.when.at_ms)
    surface.text(Text(at, words, SMALL, width_of(words, SMALL), "middle"))


def _lasts(surface: Surface, band: Band, at: int, baseline: int, plan: Plan) -> None:
    """Write how long it is to the next instant, between the two."""
    stretch, column = band.onward[at], band.columns[at]
    if stretch is None or stretch.manner == "no-time":
        return
    following = band.columns[at + 1] if at + 1 < len(band.columns) else None
    after = following or next(other for other in plan.bands if other.number == band.number + 1).columns[0]
    next_ms = after.when.at_ms
    right = following.x if following is not None else band.right
    words = fitted(lasts(next_ms - column.when.at_ms), SMALL, right - column.x - 2 * AROUND_WORDS)
    surface.text(Text(Point((column.x + right) // 2, baseline), words, SMALL, width_of(words, SMALL), "middle"))


def _ending(surface: Surface, plan: Plan, band: Band, y: int) -> None:
    """Write behind the last column of the chart how it ends."""
    if not band.is_last:
        return
    last = band.columns[-1]
    x = last.x + width_of(clock_of(last.when.at_ms), SMALL) // 2 + LABEL_CLEAR
    words = fitted(plan.chart.ends, SMALL, band.right - x)
    surface.text(Text(Point(x, y - AXIS_LINE + TICKS_ABOVE), words, SMALL, width_of(words, SMALL)))
    for line_y in (y, band.foot + AXIS_UP):
        surface.line((Point(last.x, line_y), Point(band.right, line_y)), THIN)


def _repeating(surface: Surface, plan: Plan, band: Band, y: int) -> None:
    """Draw the bracket under what comes back without end, as far as it lies in a band."""
    since = plan.chart.repeats_from_ms
    if since is None or band.columns[-1].when.at_ms < since:
        return
    begins = [column.x for column in band.columns if column.when.at_ms == since]
    left, right = begins[0] if begins else band.left, band.columns[-1].x if band.is_last else band.right
    if right > left:
        draw_bracket(surface, Point(left, y), right)


def _row(surface: Surface, row: Row, band: Band, middle: int, layout: Layout) -> None:
    surface.begin({"data-row": " ".join(row.what), "class": "row", "role": "group"}, f"{row.words} {row.part}".strip())
    _label(surface, row, middle, layout)
    for piece in pieces_of(row, band):
        draw_level(surface, Point(piece.left, middle), piece.right, piece.level, clear=piece.clear)
    for placed in words_of(row, band):
        at = Point(placed.middle, middle + BASELINE)
        surface.text(Text(at, placed.words, SMALL, width_of(placed.words, SMALL), "middle"))
    for delay in delays_of(row, band):
        _delay(surface, delay, middle - DELAY_UP)
    for edge, column in edges_in(row, band):
        title = f"{edge.number}. At {clock_of(edge.when.at_ms)} {row.words}: {edge.now}"
        surface.begin({"data-edge": str(edge.number), "data-at-ms": str(edge.when.at_ms), "class": "edge"}, title)
        surface.line((Point(column.x, middle - HALF), Point(column.x, middle + HALF)), THIN)
        draw_number(surface, Point(column.x + CIRCLE_AWAY, middle), edge.number)
        surface.end()
    surface.end()


def _label(surface: Surface, row: Row, middle: int, layout: Layout) -> None:
    """Write the name of a row, in which part it is, and what else goes with it."""
    lines = [(row.words, ROW_NAME)]
    if row.part in layout.parts:
        label = layout.parts[row.part].label
        of = " ".join([row.sort, *([" to ".join(row.screws)] if row.screws else []), "of "]) if row.sort else ""
        whole = f"{of}{row.part}, {label}" if label else f"{of}{row.part}"
        if width_of(whole, SMALL) > LABELS - LABEL_CLEAR and not row.others:
            lines += [(f"{of}{row.part}", SMALL), (label, SMALL)]
        else:
            lines.append((whole, SMALL))
    if row.others:
        lines.append((f"with {', '.join(row.others)}", SMALL))
    for down, (words, font) in zip(LABEL_LINES[len(lines)], lines, strict=True):
        _words(surface, Point(0, middle + down), words, font)


def _delay(surface: Surface, delay: Delay, y: int) -> None:
    words = delay.words
    half = width_of(words.words, SMALL) // 2
    draw_delay(surface, Point(delay.left, y), delay.right, (words.middle - half - 4, words.middle + half + 4))
    at = Point(words.middle, y + BASELINE)
    surface.text(Text(at, words.words, SMALL, width_of(words.words, SMALL), "middle"))


def _words(surface: Surface, at: Point, words: str, font: Font) -> None:
    shown = fitted(words, font, LABELS - LABEL_CLEAR)
    surface.text(Text(at, shown, font, width_of(shown, font)))
