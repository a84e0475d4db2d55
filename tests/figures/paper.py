"""What sheets of paper come to: how many the demos need, and how long cutting and typesetting take."""

from __future__ import annotations

from collections.abc import Iterator

from app.catalogue.opening import Opened
from app.drawing.connection.diagram import connection_drawing
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.title_block import SheetWords
from app.paper.packet import Packet, Wanted, packet
from app.paper.typesetter import pdf_of, png_of
from tests.figures.jobs import DUAL_FUEL, HUNDRED_PARTS, opened
from tests.figures.measure import timed, yardstick

PAGES = 8


def figures() -> Iterator[str]:
    """Yield sheets and times of the two demos of the budget, then of eight pages and of a picture."""
    for name in (DUAL_FUEL, HUNDRED_PARTS):
        job = opened(name)
        made = sheets_of(job)
        cut, set_ = timed(lambda job=job: sheets_of(job), 5), timed(lambda made=made: pdf_of(made), 5)  # type: ignore[misc]
        yield (
            f"{name}: {len(made.sheets)} sheets of US Letter; drawn and cut in {cut.ms()}, "
            f"as PDF in {set_.ms()} and {len(pdf_of(made)) // 1000} kB"
        )
    sheets = sheets_of(opened(DUAL_FUEL)).sheets
    eight = Packet("eight pages", (sheets * PAGES)[:PAGES])
    eight_s = timed(lambda: pdf_of(eight), 9)
    yield (
        f"PDF of {PAGES} pages: {eight_s.ms()}, {eight_s.median_s / yardstick().median_s:.1f} yardsticks "
        "(to be under a second)"
    )
    yield f"PNG of a page with 150 dots to the inch: {timed(lambda: png_of(sheets[0], 150), 9).ms()}"


def sheets_of(job: Opened) -> Packet:
    """Return the sheets of the default layout of a job."""
    layout = job.job.layouts[job.job.default_layout()]
    words = SheetWords(job.job.title, "as left", "", "2031-05-06", "")
    return packet([(connection_drawing(layout, job.catalogue), words)], Wanted(PAPERS["letter"]))
