"""What holds of a sheet of any view: it says what it is, and it is ink on paper whichever of the two is darker."""

from __future__ import annotations

from functools import cache
from xml.etree import ElementTree

import pytest

from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.title_block import SheetWords
from app.drawing.views import VIEWS, Shown
from app.paper.packet import Wanted, packet
from app.sequence.change_text import read_changes
from app.sequence.run import run_sequence
from tests.demo_jobs.demos import demo

NAME = "post-office-dual-fuel"
INK = {"currentColor", "none"}
DEFAULT_IS_BLACK = ("path", "rect", "circle", "text", "line", "polyline", "polygon", "ellipse")


@cache
def drawing_of(view: str) -> Drawing:
    """Return a view of a job in a call, with what every view asks for."""
    opened = demo(NAME)
    layout, before = (opened.job.layouts[name] for name in ("as-left", "as-found"))
    circuit = build_circuit(layout, opened.catalogue)
    situation = situations_of(layout, opened.catalogue)[1]
    changes = read_changes(["0:tc=cool-1"], layout, opened.catalogue, situation)
    return VIEWS[view].draw(
        Shown(
            layout,
            opened.catalogue,
            circuit,
            point=solve(circuit, situation),
            situation_words="a call",
            run=run_sequence(circuit, changes, 600.0, situation),
            insides=True,
            before=before,
        )
    )


def sheets_of(view: str) -> list[str]:
    """Return a view as one large sheet, and then as it lies on paper."""
    drawing = drawing_of(view)
    words = SheetWords("Mill house", "as left", drawing.view, "", "a call")
    return [one_sheet(drawing, words), *(s.svg for s in packet([(drawing, words)], Wanted(PAPERS["a4"])).sheets)]


@pytest.mark.parametrize("view", VIEWS)
def test_a_sheet_says_which_view_it_is(view: str) -> None:
    for svg in sheets_of(view):
        root = ElementTree.fromstring(svg)
        assert root.get("aria-roledescription") == drawing_of(view).view.lower()


def test_no_two_views_are_called_the_same() -> None:
    assert len({drawing_of(view).view.lower() for view in VIEWS}) == len(VIEWS)


@pytest.mark.parametrize("view", VIEWS)
def test_ink_takes_the_colour_of_its_surroundings_and_nothing_covers_the_paper(view: str) -> None:
    """Then white on black is what black on white is, turned round."""
    for svg in sheets_of(view):
        root = ElementTree.fromstring(svg)
        # What is said at the root goes for all that says nothing itself.
        assert root.get("fill") == "none"
        for element in root.iter():
            assert {element.get(name, "none") for name in ("fill", "stroke", "color")} <= INK, element.attrib
            assert not {"style", "opacity", "fill-opacity", "stroke-opacity", "filter", "mask"} & set(element.keys())
            sort = element.tag.rpartition("}")[2]
            assert sort not in ("image", "style", "script", "foreignObject")
            if sort in DEFAULT_IS_BLACK:
                assert {element.get("fill"), element.get("stroke")} & {"currentColor"}, element.attrib
