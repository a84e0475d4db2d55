"""The ladder diagram: what works what, rung by rung between hot and common.

Rules of the file: what is drawn is decided in ``ladder``, where it stands in ``plan``; here it is only put on a
surface.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.circuit.operating_point import OperatingPoint
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import sheet_words
from app.drawing.ladder.draw_rung import RungPen
from app.drawing.ladder.graph import WIRES
from app.drawing.ladder.ladder import ladder_of
from app.drawing.ladder.live import Live
from app.drawing.ladder.marks import DOT, RING, marks_of
from app.drawing.ladder.plan import (
    HEAD_LINE,
    SECTION_GAP,
    LadderPlan,
    Row,
    SectionPlan,
    plan_ladder,
)
from app.drawing.ladder.rows import WORDS_LINE, under_line
from app.drawing.ladder.words import on_rungs
from app.drawing.surface.geometry import Box, Point, box_around, up_to_grid
from app.drawing.surface.text_width import box_of_text, width_of
from app.drawing.surface.verbs import HEAVY, MARK, NAME, SMALL, THIN, Font, Surface, Text
from app.job.model import Job, Layout

VIEW = "Ladder diagram"


def draw_ladder(
    job: Job,
    layout_name: str,
    catalogue: Catalogue,
    *,
    point: OperatingPoint | None = None,
    dated: str = "",
    situation_words: str = "",
) -> str:
    """Return the ladder diagram of a layout as SVG text; the same input gives the same bytes.

    With an operating ``point`` it shows what is hot, what carries, what works and where a rung stops. ``dated`` and
    ``situation_words`` go into the title block as they are.

    Raises:
        KeyError: the job has no such layout.
    """
    drawing = ladder_drawing(job.layouts[layout_name], catalogue, point, situation_words)
    return one_sheet(drawing, sheet_words(job, layout_name, VIEW, dated, situation_words))


def ladder_drawing(
    layout: Layout, catalogue: Catalogue, point: OperatingPoint | None = None, situation_words: str = ""
) -> Drawing:
    """Return the ladder diagram of a layout, to be put on a sheet."""
    live = Live(ladder_of(layout, catalogue), layout, point) if point is not None else None
    plan = plan_ladder(layout, catalogue, live)
    rungs = tuple(box for section in plan.sections for box in (_head_box(section), *(r.box for r in section.rows)))
    drawing = Drawing(
        view=VIEW,
        content=plan.content,
        marks=marks_of(set(_mark_names(plan, live))),
        description=described(plan, situation_words),
        put=lambda surface: put_ladder(surface, plan, catalogue, live),
        whole=rungs,
        goes_on=("data-rail", "data-tie", "data-rung"),
        called=_called(plan),
        level_marks=True,
    )
    return replace(drawing, apart=(_told_first(drawing, plan, catalogue, live),)) if plan.last_notes else drawing


def _told_first(drawing: Drawing, plan: LadderPlan, catalogue: Catalogue, live: Live | None) -> Drawing:
    """Return the ladder for several sheets: which part each screw is on is told above the first rung.

    Whoever takes up the first sheet needs it there, and below the last rung it would often have a sheet to itself.
    """
    high = up_to_grid(HEAD_LINE * len(plan.last_notes) + SECTION_GAP)
    notes = [
        Text(Point(0, at * HEAD_LINE - high), words, SMALL, width_of(words, SMALL))
        for at, words in enumerate(plan.last_notes, start=1)
    ]
    # With the first rung: by themselves they would fill a sheet as well above as below.
    with_first = box_around((*map(box_of_text, notes), *drawing.whole[:1])) or drawing.content
    ends = _end_of_ink(plan)
    # Where the paper is too small for that, the heading goes with its rung.
    rungs = (box._replace(h=min(box.h, ends - box.y)) for box in (with_first, *drawing.whole))
    below = up_to_grid(HEAD_LINE * len(plan.last_notes))

    def put(surface: Surface) -> None:
        _put_sections(surface, plan, catalogue, live)
        for text in notes:
            surface.text(text)

    content = Box(0, -high, plan.content.w, plan.content.h + high - below)
    return replace(drawing, content=content, put=put, whole=tuple(rungs))


def _end_of_ink(plan: LadderPlan) -> int:
    """Return where the last thing that is drawn of the rungs ends: a sheet is no longer than that."""
    last = plan.sections[-1] if plan.sections else None
    if last is None or not last.rows or last.section.hot or last.section.common or last.notes:
        return plan.content.bottom
    row = last.rows[-1]
    words = [under_line(row.y, len(each)) for each in row.words.under]
    said = row.said_at.y + WORDS_LINE * (len(row.words.said) - 1) if row.words.said else row.y
    return max(row.y, said, *words)


def put_ladder(surface: Surface, plan: LadderPlan, catalogue: Catalogue, live: Live | None = None) -> None:
    """Draw the sections of a plan from above to below, and what stands on no rung."""
    _put_sections(surface, plan, catalogue, live)
    for at, words in enumerate(reversed(plan.last_notes)):
        _write(surface, Point(0, plan.content.bottom - at * HEAD_LINE - 4), words, SMALL)


def _put_sections(surface: Surface, plan: LadderPlan, catalogue: Catalogue, live: Live | None) -> None:
    for section in plan.sections:
        surface.begin({"class": "section", "data-hot": section.section.hot, "data-common": section.section.common})
        _head(surface, section)
        _rails(surface, section, live)
        pen = RungPen(surface, plan, section, catalogue, live)
        for row in section.rows:
            pen.draw(row)
        _ties(surface, plan, section, live)
        for at, words in enumerate(section.notes):
            _write(surface, Point(0, section.bottom + (at + 1) * HEAD_LINE), words, SMALL)
        surface.end()


def described(plan: LadderPlan, situation_words: str) -> str:
    """Return what a reader hears about the whole drawing."""
    shown = f" Shown: {situation_words}." if situation_words else ""
    rungs = [
        f"Rung {rung.number}: {', '.join(name for name, _ in plan.wording.said(rung))}."
        for rung in plan.ladder.rungs()
        if any(rung.loads())
    ]
    return " ".join([f"{counted(len(plan.ladder.sections), 'ladder')}.", *rungs]) + shown


def _head_box(section: SectionPlan) -> Box:
    """Return the box of what stands above the rails, with the first rung: without that it would head nothing."""
    bottom = section.rows[0].box.bottom if section.rows else section.top
    return Box(section.box.x, section.box.y, section.box.w, bottom - section.box.y)


def _called(plan: LadderPlan) -> dict[str, str]:
    """Return what rails, ties and rungs are called where a sheet ends."""
    rails = {rail: plan.wording.rail(rail) for rail in plan.ladder.rails}
    rungs = {str(rung.number): f"rung {rung.number}" for rung in plan.ladder.rungs()}
    return {**rails, **rungs}


def _head(surface: Surface, section: SectionPlan) -> None:
    _write(surface, Point(0, section.box.y + 12), section.heading, NAME)
    for at, words in enumerate(section.head, start=1):
        _write(surface, Point(0, section.box.y + 12 + at * HEAD_LINE), words, SMALL)


def _rails(surface: Surface, section: SectionPlan, live: Live | None) -> None:
    for rail, x in ((section.section.hot, section.left), (section.section.common, section.right)):
        if not rail or not section.rows:
            continue
        own = [
            end.screw
            for row in section.rows
            for end in (row.rung.start, row.rung.end)
            if end.rail == rail and not end.by_name
        ]
        is_hot = live is not None and any(live.is_hot(screw) for screw in own)
        surface.begin({"class": "rail", "data-rail": rail})
        surface.line((Point(x, section.top), Point(x, section.bottom)), HEAVY if is_hot else MARK, {"class": "wire"})
        at_left = x == section.left
        words = "hot" if at_left else "common"
        at = Point(x + 6 if at_left else x - 6, section.top + 16)
        surface.text(Text(at, words, SMALL, width_of(words, SMALL), "start" if at_left else "end"))
        surface.end()


def _ties(surface: Surface, plan: LadderPlan, section: SectionPlan, live: Live | None) -> None:
    """Draw the upright ties, and a dot where a rung is joined to one."""
    places: dict[tuple[int, int], list[tuple[Row, int]]] = {}
    for row in section.rows:
        for place in range(len(row.rung.pieces) + 1):
            spot = section.columns.spots[row.rung.number, place]
            if len(spot.rows) > 1:
                places.setdefault((section.x_of[row.rung.number, place], spot.rows[0]), []).append((row, place))
    for (x, _), joined in sorted(places.items()):
        surface.begin({"class": "tie", "data-tie": _tie_name(plan, joined)})
        ys = sorted(row.y for row, _ in joined)
        rings = {row.y for row, place in joined if _is_screw(plan, row, place)}
        pen = HEAVY if live is not None and any(_is_live(live, row, place) for row, place in joined) else THIN
        for above, below in pairwise(ys):
            start = above + (RING if above in rings else 0)
            end = below - (RING if below in rings else 0)
            surface.line((Point(x, start), Point(x, end)), pen, {"class": "wire"})
        for row, place in joined:
            lines = (place > 0) + (place < len(row.rung.pieces)) + (row.y > ys[0]) + (row.y < ys[-1])
            if lines > 2 and row.y not in rings:
                surface.circle(Point(x, row.y), DOT, None)
        surface.end()


def _tie_name(plan: LadderPlan, joined: Sequence[tuple[Row, int]]) -> str:
    """Return the screw on which rungs are tied, else which rungs they are."""
    row, place = joined[0]
    point = row.rung.points()[place]
    return point if point in plan.screws else on_rungs(row.rung.number for row, _place in joined)


def _is_screw(plan: LadderPlan, row: Row, place: int) -> bool:
    """Return whether a screw is drawn at a place: where a rung is tied, it is drawn on the other rung."""
    end = row.rung.start if place == 0 else row.rung.end if place == len(row.rung.pieces) else None
    return row.rung.points()[place] in plan.screws and (end is None or end.ending == "open")


def _is_live(live: Live, row: Row, place: int) -> bool:
    pieces = row.rung.pieces
    ends = [pieces[0]] if place == 0 else [pieces[-1]] if place == len(pieces) else []
    return live.is_hot(row.rung.points()[place]) or any(live.carries(piece) for piece in ends)


def _mark_names(plan: LadderPlan, live: Live | None) -> Iterator[str]:
    pieces = [piece for rung in plan.ladder.rungs() for piece in rung.pieces]
    if any(section.section.hot for section in plan.sections):
        yield "rail"
    yield from ("conductor" for piece in pieces if piece.sort in WIRES)
    for rung in plan.ladder.rungs():
        for end in (rung.start, rung.end):
            if end.by_name:
                yield "continued"
            elif end.ending == "tie":
                yield "tie"
            elif end.point in plan.ladder.loose:
                yield from ("not-in-use", "not-landed")
            elif end.ending == "open" and end.point.count(":") and "." not in end.point:
                yield from ("not-in-use", "not-seen")
        if any(point in plan.screws for point in rung.points()[1:-1]):
            yield "screw"
    if any(_crosses(section) for section in plan.sections):
        yield "crossing"
    if live is not None:
        yield from ("hot" for rung in plan.ladder.rungs() for point in rung.points() if live.is_hot(point))
        yield from ("carrying" for piece in pieces if live.carries(piece))


def _crosses(section: SectionPlan) -> bool:
    """Return whether a tie passes a rung that it is not joined with."""
    for number, row in enumerate(section.rows):
        first, last = (section.x_of[row.rung.number, place] for place in (0, len(row.rung.pieces)))
        for place, spot in section.columns.spots.items():
            passes = spot.rows[0] < number < spot.rows[-1] and number not in spot.rows
            if passes and first < section.x_of[place] < last:
                return True
    return False


def _write(surface: Surface, at: Point, words: str, font: Font) -> None:
    if words:
        surface.text(Text(at, words, font, width_of(words, font)))
