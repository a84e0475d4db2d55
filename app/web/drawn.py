"""A view of a layout, drawn as a request asks for it: the drawing and the words of its title block.

Rules of the file: the views themselves are listed in ``app.drawing.views``; here is only worked out what each of them
needs. Nothing is put on paper.
"""

from __future__ import annotations

from dataclasses import replace

from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import SheetWords, changes_words, sheet_words
from app.drawing.timing.diagram import shown_words
from app.drawing.views import VIEWS, Shown, compared_with
from app.job.layout_choice import layout_before
from app.job.refusal import Refused
from app.web.picture import Picture
from app.web.wording.calls import situation_words
from app.web.wording.naming import Naming
from app.web.worked import Worked


def drawn(
    worked: Worked, layout_name: str, picture: Picture, situation: Situation, point: OperatingPoint | None = None
) -> tuple[Drawing, SheetWords]:
    """Return a view of a layout in a situation, and what its title block says.

    ``point`` is the operating point of the situation, where the caller has it already.

    Raises:
        Refused: changes are given to a view that shows no sequence, or cannot be read, or do not fit the layout; a view
            of two layouts is asked for and the job has no other one.
    """
    view = VIEWS[picture.view]
    if picture.changes and not view.needs_run:
        right = "one of " + ", ".join(name for name, each in VIEWS.items() if each.needs_run)
        raise Refused("no-sequence-shown", f"The view {picture.view} shows no sequence.", would_be_right=right)
    layout, circuit = worked.job.layouts[layout_name], worked.circuit(layout_name)
    units = worked.job.settings.units
    shown = Shown(
        layout, worked.catalogue, circuit, insides=picture.insides, everything=picture.everything, units=units
    )
    if view.needs_before:
        before = layout_before(worked.job, layout_name, picture.before)
        shown, words = compared_with(shown, worked.job, before, layout_name), changes_words(worked.job, before)
    elif view.needs_run:
        run = worked.run(layout_name, picture, situation)
        shown, words = replace(shown, run=run), shown_words(run, units)
    elif view.shows_situation and picture.live:
        words = situation_words(situation, Naming(layout, worked.catalogue, units))
        shown = replace(shown, point=point or worked.point(layout_name, situation), situation_words=words)
    else:
        words = ""
    drawing = view.draw(shown)
    return drawing, sheet_words(worked.job, layout_name, drawing.view, worked.dated, words)


def drawn_svg(
    worked: Worked, layout_name: str, picture: Picture, situation: Situation, point: OperatingPoint | None = None
) -> str:
    """Return a view of a layout on one sheet as SVG text; see ``drawn``."""

    def draw() -> str:
        return one_sheet(*drawn(worked, layout_name, picture, situation, point))

    return worked.drawing((layout_name, picture, situation), draw)
