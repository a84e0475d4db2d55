"""The timing chart: what a sequence does, one line a load or contact, along the time.

Rules of the file: what stands on it is decided in ``making``, where it lies in ``plan``; here it is only put on a
surface, in keyed groups with absolute coordinates.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import sheet_words, wrapped
from app.drawing.surface.geometry import Box, Point, box_around
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL, Surface, Text
from app.drawing.timing.draw_band import draw_band
from app.drawing.timing.draw_links import draw_links
from app.drawing.timing.making import chart_of
from app.drawing.timing.marks import marks_on
from app.drawing.timing.notes import notes_of
from app.drawing.timing.plan import Plan, plan_timing
from app.drawing.timing.table import BLOCK, Table, draw_table, table_of
from app.drawing.timing.words import clock_of
from app.job.model import Job, Layout
from app.sequence.run import Run

VIEW = "Timing chart"
NOTE_LINE = 15
NOTES_LEAST = 900
GAP = 24


def draw_timing(
    job: Job,
    layout_name: str,
    catalogue: Catalogue,
    run: Run,
    *,
    everything: bool = False,
    dated: str = "",
) -> str:
    """Return the timing chart of a run as SVG text; the same input gives the same bytes.

    Args:
        job, layout_name, catalogue: what it was a run of.
        run: the run.
        everything: show whatever moves, each on a line of its own.
        dated: goes into the title block as it is.

    Raises:
        KeyError: the job has no such layout.
    """
    drawing = timing_drawing(run, job.layouts[layout_name], catalogue, everything=everything)
    return one_sheet(drawing, sheet_words(job, layout_name, VIEW, dated, shown_words(run)))


def timing_drawing(run: Run, layout: Layout, catalogue: Catalogue, *, everything: bool = False) -> Drawing:
    """Return the timing chart of a run of a layout, to be put on a sheet; see ``draw_timing``."""
    plan = plan_timing(chart_of(run, layout, catalogue, everything=everything))
    width = max(plan.width, BLOCK, NOTES_LEAST)
    notes = [row for note in notes_of(plan.chart, run, len(plan.bands)) for row in wrapped(note, SMALL, width)]
    table = table_of(plan.chart, Point(0, plan.bottom + GAP + len(notes) * NOTE_LINE + GAP), width)
    boxes = (*(band.box for band in plan.bands), *(box for _, _, box in table.blocks))
    content = box_around((*boxes, Box(0, plan.bottom, width, GAP + len(notes) * NOTE_LINE)))
    return Drawing(
        view=VIEW,
        content=content or Box(0, 0, width, 0),
        marks=marks_on(plan),
        description=_described(plan, notes),
        put=lambda surface: _put(surface, plan, layout, notes, table),
        whole=boxes,
    )


def shown_words(run: Run) -> str:
    """Return what a run goes through, for the title block: ``tc=heat-1 at 0:00``."""
    said = [f"{change.words} at {clock_of(round(change.at_s * 1000))}" for change in run.changes]
    return ", ".join(said) or f"nothing done until {clock_of(round(run.until_s * 1000))}"


def _put(surface: Surface, plan: Plan, layout: Layout, notes: Sequence[str], table: Table) -> None:
    for band in plan.bands:
        draw_band(surface, plan, band, layout)
        draw_links(surface, plan, band)
    surface.begin({"class": "notes"})
    for number, row in enumerate(notes, start=1):
        surface.text(Text(Point(0, plan.bottom + GAP + number * NOTE_LINE - 4), row, SMALL, width_of(row, SMALL)))
    surface.end()
    draw_table(surface, table)


def _described(plan: Plan, notes: Sequence[str]) -> str:
    lines, events = counted(len(plan.chart.rows), "line"), counted(len(plan.chart.edges()), "event")
    return f"{lines} with {events} until {clock_of(plan.chart.until_ms)}. {' '.join(notes)}"
