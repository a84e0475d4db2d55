"""On paper: each band with its names on one sheet, the events on a sheet of their own where one is not enough."""

from __future__ import annotations

import re

import pytest

from app.circuit.situation import Situation
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.recorder import Recorder
from app.drawing.timing.diagram import shown_words, timing_drawing
from app.drawing.timing.making import chart_of
from app.drawing.timing.plan import plan_timing
from app.paper.packet import PaperSheet, Wanted, packet
from app.sequence.change_text import read_changes
from app.sequence.run import Run, run_sequence
from tests.sequence.playing import DEMOS, demo_circuit

WORDS = SheetWords("Job", "as left", "Timing chart", "", "")
NUMBER = re.compile(r">(\d+)</text>")


ZONES, FURNACE = "assembly-rooms-zone-panel:as-left", "bell-loft-heat-only:as-left"
CALLS = {ZONES: ("0:ta=cool-1", "600:ta=idle"), FURNACE: ("0:tc=heat-1", "600:tc=idle")}


def played(name: str) -> Run:
    """Return a call that is asked for and taken away again."""
    return run_sequence(demo_circuit(name), read_changes(CALLS[name], *DEMOS[name], Situation()), 900)


def sheets_of(name: str, paper: str) -> tuple[PaperSheet, ...]:
    drawing = timing_drawing(played(name), *DEMOS[name])
    return packet([(drawing, WORDS)], Wanted(PAPERS[paper])).sheets


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", CALLS)
def test_a_chart_is_cut_between_its_bands_and_every_event_is_listed_once(name: str, paper: str) -> None:
    sheets = sheets_of(name, paper)
    layout, catalogue = DEMOS[name]
    plan = plan_timing(chart_of(played(name), layout, catalogue))
    charts = [sheet for sheet in sheets if 'class="row"' in sheet.svg]
    lists = [sheet for sheet in sheets if 'class="events"' in sheet.svg]
    assert not set(charts) & set(lists)
    # The axis above and below the rows, and the names beside them, in each band; larger paper holds several.
    axes = [sheet.svg.count('class="axis"') for sheet in charts]
    assert sum(axes) == len(plan.bands)
    assert paper in ("tabloid", "a3") or set(axes) == {1}
    for sheet, count in zip(charts, axes, strict=True):
        assert sheet.svg.count(">What is done</text>") == count
    # The heading stands above each block, and no number is missing.
    assert all("because of" in sheet.svg for sheet in lists)
    numbers = [int(found) for sheet in lists for found in NUMBER.findall(sheet.svg.partition('class="events"')[2])]
    assert set(numbers) >= {edge.number for _, edge in plan.chart.edges()}


def test_a_row_names_the_screws_between_which_it_lies() -> None:
    drawing = timing_drawing(played(FURNACE), *DEMOS[FURNACE])
    recorder = Recorder()
    drawing.put(recorder)
    words = [record.text.words for record in recorder.records if record.text is not None]
    # A contact that is named after a screw is told by both, on its row and where it is a cause.
    assert {"contact R to W", "contact R to W (tc)"} <= set(words)
    assert any(said.startswith("tc, ") for said in words)
    assert not {"w", "w (tc)"} & set(words)
    assert any(said.startswith("input W to C of fb, ") for said in words)
    # One end of this coil is inside the board.
    assert any(said.startswith("coil C of fb, ") for said in words)


def test_names_and_what_is_shown_stand_whole_on_paper() -> None:
    name = "bakery-flat-heat-pump:as-left"
    changes = ("0:outdoor=-8", "10:tc=heat-1", "300:tc=heat-1+aux-heat", "1200:tc=idle")
    run = run_sequence(demo_circuit(name), read_changes(changes, *DEMOS[name], Situation()), 3600)
    words = SheetWords("Bakery flat", "as left", "Timing chart", "", shown_words(run, "us"))
    sheets = packet([(timing_drawing(run, *DEMOS[name], units="us"), words)], Wanted(PAPERS["letter"])).sheets
    assert [sheet for sheet in sheets if "…" in sheet.svg] == []
    for sheet in sheets:
        assert "tc idle at 20:00" in " ".join(re.findall(r">([^<]+)</text>", sheet.svg))
    # Where a name is long, what it is stands on a row of its own, above the name of its part.
    assert ">coil C of ah<" in sheets[0].svg
    assert ">Air handler, two banks of electric heat<" in sheets[0].svg
