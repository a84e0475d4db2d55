"""On paper the diagram and the list have sheets of their own; nothing that one large sheet shows is missing there."""

from __future__ import annotations

import re

import pytest

from app.drawing.comparing.diagram import changes_drawing
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.sheets import on_paper
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.recorder import Recorder
from app.job.model import Layout
from app.paper.packet import Wanted, packet
from tests.drawing.comparing.pairs import DEMOS, demo_pair
from tests.drawing.generated import CATALOGUE

WORDS = SheetWords("Job", "as left", "Changes", "", "")
ON_DIAGRAM = re.compile(r'data-(?:part|terminal|conductor)="[^"]+"')
IN_LIST = re.compile(r'data-changed="[^"]+"')


@pytest.mark.parametrize("name", DEMOS)
def test_diagram_and_list_have_sheets_of_their_own(name: str) -> None:
    drawing = changes_drawing(*demo_pair(name))
    whole = one_sheet(drawing, WORDS)
    sheets = packet([(drawing, WORDS)], Wanted(PAPERS["letter"])).sheets
    for sheet in sheets:
        assert bool(ON_DIAGRAM.search(sheet.svg)) != bool(IN_LIST.search(sheet.svg))
    for hooks in (ON_DIAGRAM, IN_LIST):
        wanted = set(hooks.findall(whole))
        assert wanted
        assert {found for sheet in sheets for found in hooks.findall(sheet.svg)} == wanted
    # What is different is read first.
    assert IN_LIST.search(sheets[0].svg)
    assert ON_DIAGRAM.search(sheets[-1].svg)
    rows = [found for sheet in sheets for found in IN_LIST.findall(sheet.svg)]
    assert len(rows) == len(set(rows))
    assert f"sheet {len(sheets)} of {len(sheets)}" in sheets[-1].svg


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", DEMOS)
def test_a_mark_stands_for_one_wire_though_one_that_came_off_had_the_same_name(name: str, paper: str) -> None:
    diagram = changes_drawing(*demo_pair(name)).apart[-1]
    wires: dict[str, set[str]] = {}
    for sheet in on_paper(diagram, PAPERS[paper], "auto", WORDS).sheets:
        for edge in sheet.edges:
            for mark in edge.marks:
                wires.setdefault(mark.words, set()).add(mark.line)
    assert wires
    assert {words: lines for words, lines in wires.items() if len(lines) > 1} == {}


def test_where_nothing_is_different_the_words_stand_below_the_diagram() -> None:
    drawing = changes_drawing(Layout(), Layout(), CATALOGUE)
    (sheet,) = packet([(drawing, WORDS)], Wanted(PAPERS["a4"])).sheets
    assert "Nothing is different." in sheet.svg


def words_on_diagram(name: str) -> list[str]:
    recorder = Recorder()
    changes_drawing(*demo_pair(name)).apart[-1].put(recorder)
    return [record.text.words for record in recorder.drawn("text") if record.text is not None]


@pytest.mark.parametrize("name", DEMOS)
def test_what_stands_at_an_end_is_not_cut(name: str) -> None:
    assert [words for words in words_on_diagram(name) if "…" in words] == []


def test_where_room_is_short_the_mark_tells_that_nobody_saw_an_end_and_the_words_where_it_is_lost() -> None:
    assert words_on_diagram("ice-store-data-bus").count("behind the plaster") == 2
