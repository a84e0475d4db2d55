"""The timing chart: what a sequence does, one line a load or contact, along the time.

Rules of the file: what stands on it is decided in ``making``, where it lies in ``plan``; here it is only put on a
surface, in keyed groups with absolute coordinates.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

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
from app.drawing.timing.marks import EVENT, marks_on
from app.drawing.timing.notes import notes_of
from app.drawing.timing.plan import TALL, TALL_ON_LARGE, Plan, plan_timing
from app.drawing.timing.table import BLOCK, draw_table, stacked_table, table_of
from app.drawing.timing.words import clock_of
from app.job.model import Job, Layout
from app.job.temperatures import Units
from app.sequence.change_words import change_words
from app.sequence.run import Run

VIEW = "Timing chart"
NOTE_LINE = 15
NOTES_LEAST, NOTES_ON_PAPER = 900, 630
"""How wide they are beside a chart, and on a sheet without one."""
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
    units = job.settings.units
    drawing = timing_drawing(run, job.layouts[layout_name], catalogue, everything=everything, units=units)
    return one_sheet(drawing, sheet_words(job, layout_name, VIEW, dated, shown_words(run, units)))


def timing_drawing(
    run: Run, layout: Layout, catalogue: Catalogue, *, everything: bool = False, units: Units = "si"
) -> Drawing:
    """Return the timing chart of a run of a layout, to be put on a sheet; see ``draw_timing``."""
    made = chart_of(run, layout, catalogue, everything=everything, units=units)
    plan = plan_timing(made)
    width = max(plan.width, BLOCK, NOTES_LEAST)
    notes = _notes(plan, run, width)
    table = table_of(plan.chart, Point(0, _below(plan.bottom + GAP, notes)), width)
    bands, blocks = [band.box for band in plan.bands], [box for _, _, box in table.blocks]
    below = Box(0, plan.bottom, width, GAP + len(notes) * NOTE_LINE)

    def put(surface: Surface) -> None:
        _put_bands(surface, plan, layout)
        _put_notes(surface, plan.bottom + GAP, notes)
        draw_table(surface, table)

    whole = Drawing(
        view=VIEW,
        content=box_around([*bands, *blocks, below]) or below,
        marks=marks_on(plan),
        description=_described(plan, notes),
        put=put,
        whole=(*bands, *blocks),
    )
    chart = _bands_of(whole, plan, layout)
    if any(box.h > TALL for box in bands):
        on_large, on_small = (_bands_of(whole, plan_timing(made, most), layout) for most in (TALL_ON_LARGE, TALL))
        chart = replace(chart, apart=(replace(on_large, apart=(on_small,)),))
    return replace(whole, apart=(chart, _listed(whole, plan, run)))


def _put_bands(surface: Surface, plan: Plan, layout: Layout) -> None:
    for band in plan.bands:
        draw_band(surface, plan, band, layout)
        draw_links(surface, plan, band)


def _bands_of(drawing: Drawing, plan: Plan, layout: Layout) -> Drawing:
    """Return the bands by themselves, as they are put on paper."""
    bands = tuple(band.box for band in plan.bands)

    def put(surface: Surface) -> None:
        _put_bands(surface, plan, layout)

    return replace(drawing, content=box_around(bands) or drawing.content, put=put, whole=bands)


def _listed(drawing: Drawing, plan: Plan, run: Run) -> Drawing:
    """Return the notes and the table by themselves, as they are put on paper."""
    notes = _notes(plan, run, NOTES_ON_PAPER)
    table = stacked_table(plan.chart, Point(0, _below(0, notes)))
    boxes = tuple(box for _, _, box in table.blocks)
    above = Box(0, 0, NOTES_ON_PAPER, _below(0, notes))

    def put(surface: Surface) -> None:
        _put_notes(surface, 0, notes)
        draw_table(surface, table)

    content = box_around((above, *boxes)) or above
    return replace(drawing, content=content, marks=(EVENT,), put=put, whole=boxes, from_above=True)


def _notes(plan: Plan, run: Run, width: int) -> list[str]:
    return [row for note in notes_of(plan.chart, run, len(plan.bands)) for row in wrapped(note, SMALL, width)]


def _below(y: int, notes: Sequence[str]) -> int:
    """Return where the table begins below notes."""
    return y + len(notes) * NOTE_LINE + GAP


def shown_words(run: Run, units: Units) -> str:
    """Return what a run goes through, for the title block: ``tc calls heat 1 at 0:00``."""
    circuit = run.moments[0].circuit
    said = [
        f"{change_words(change, circuit, units)} at {clock_of(round(change.at_s * 1000))}" for change in run.changes
    ]
    return ", ".join(said) or f"nothing done until {clock_of(round(run.until_s * 1000))}"


def _put_notes(surface: Surface, y: int, notes: Sequence[str]) -> None:
    surface.begin({"class": "notes"})
    for number, row in enumerate(notes, start=1):
        surface.text(Text(Point(0, y + number * NOTE_LINE - 4), row, SMALL, width_of(row, SMALL)))
    surface.end()


def _described(plan: Plan, notes: Sequence[str]) -> str:
    lines, events = counted(len(plan.chart.rows), "line"), counted(len(plan.chart.edges()), "event")
    return f"{lines} with {events} until {clock_of(plan.chart.until_ms)}. {' '.join(notes)}"
