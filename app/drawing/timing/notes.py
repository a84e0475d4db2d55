"""The sentences under a chart: what then runs, what did not settle, how it ends, and what the chart leaves out."""

from __future__ import annotations

from collections.abc import Iterator

from app.catalogue.spoken import counted
from app.drawing.timing.chart import Chart
from app.drawing.timing.words import clock_of
from app.sequence.run import Run
from app.sequence.telling import end_words, runs_words, warning_words


def notes_of(chart: Chart, run: Run, bands: int) -> Iterator[str]:
    """Yield the sentences that belong to a chart in so many bands."""
    if not chart.rows:
        yield "Nothing moves."
    yield " ".join((runs_words(run), end_words(run)))
    yield from warning_words(run)
    if chart.not_drawn:
        yield f"Drawn until {clock_of(chart.until_ms)}: {counted(chart.not_drawn, 'later event')} not drawn."
    if bands > 1:
        yield "A line that is off all along a part of the chart is left out there; one that stays on is named below."
    if chart.left_out:
        yield f"Moves too, and has no line here: {'; '.join(chart.left_out)}."
