"""On paper: each band with its names on one sheet, the events on a sheet of their own where one is not enough."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

import pytest

from app.circuit.situation import Situation
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.title_block import SheetWords
from app.drawing.surface.recorder import Recorder
from app.drawing.timing.diagram import shown_words, timing_drawing
from app.drawing.timing.making import chart_of
from app.drawing.timing.plan import AXIS_ABOVE, AXIS_BELOW, TALL, TALL_ON_LARGE, plan_timing
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


LIFEBOAT = "lifeboat-house-fresh-and-dry:as-left"
TALL_CHARTS = {
    ZONES: ("0:ta=cool-1", "30:tb=heat-1", "600:ta=idle", "900:outdoor=-5"),
    "chapel-two-supplies:as-left": ("0:tc=heat-1", "600:tc=cool-1", "900:tc=idle"),
    LIFEBOAT: ("0:vc=ventilate", "60:tc=heat-1+aux-heat", "300:dc=dehumidify"),
}
"""Runs in which more moves at one time than finds room on a small sheet."""


def tall_run(name: str) -> Run:
    changes = read_changes(TALL_CHARTS[name], *DEMOS[name], Situation())
    return run_sequence(demo_circuit(name), changes, 3600)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", TALL_CHARTS)
def test_every_row_stands_between_the_times_that_it_belongs_to(name: str, paper: str) -> None:
    run = tall_run(name)
    made = chart_of(run, *DEMOS[name])
    sheets = packet([(timing_drawing(run, *DEMOS[name]), WORDS)], Wanted(PAPERS[paper])).sheets
    charts = [sheet.svg for sheet in sheets if 'class="row"' in sheet.svg]
    plans = {len(plan.bands): plan for plan in (plan_timing(made), plan_timing(made, TALL))}
    plan = plans[sum(svg.count('class="axis"') for svg in charts)]
    # Large paper needs nothing else than the screen, the smallest does.
    assert len(plans) == 2
    assert paper == "a4" or (plan is plans[max(plans)]) == (paper == "letter")
    for svg in charts:
        # No sheet begins or ends within a band: above its first row stand the times, and below its last.
        assert svg.count(">min:s<") == svg.count('class="axis"') > 0
    headings = [heading for svg in charts for heading in re.findall(r">(What [^<]+)<", svg)]
    assert len(headings) == sum(len(band.headings) for band in plan.bands)
    assert sum(heading.endswith(", continued") for heading in headings) == sum(
        band.continued is not None for band in plan.bands
    )


@pytest.mark.parametrize("name", TALL_CHARTS)
def test_a_link_that_leaves_a_band_goes_on_at_the_same_place_below(name: str) -> None:
    run = tall_run(name)
    made = chart_of(run, *DEMOS[name])
    (on_large,) = timing_drawing(run, *DEMOS[name]).apart[0].apart
    (spread,) = on_large.apart
    recorder = Recorder()
    spread.put(recorder)
    arrows = Counter(int(shape.within("data-cause") or 0) for shape in recorder.drawn("shape"))
    assert {cause: count for cause, count in arrows.items() if cause} == Counter(
        edge.by for _, edge in made.edges() if edge.by is not None
    )
    bands = plan_timing(made, TALL).bands
    left: list[tuple[str, int]] = []
    for above, below in pairwise(bands):
        ends = {above.box.bottom - AXIS_BELOW: set[tuple[str, int]](), below.box.y + AXIS_ABOVE: set[tuple[str, int]]()}
        for line in recorder.drawn("line"):
            for a, b in pairwise(line.points):
                if line.within("data-cause") and a.x == b.x:
                    for y in {a.y, b.y} & ends.keys():
                        ends[y].add((line.within("data-cause") or "", a.x))
        leaving, coming = ends.values()
        assert leaving == coming
        left += leaving
        assert not leaving or above.number == below.number
    assert left


def test_a_contact_of_a_screw_with_two_letters_is_told_by_its_screws_too() -> None:
    name = "school-row-hundred-parts:as-left"
    run = run_sequence(demo_circuit(name), read_changes(["0:tc6=cool-1"], *DEMOS[name], Situation()), 60)
    names = {row.words for row in chart_of(run, *DEMOS[name]).rows if row.part == "tc6"}
    assert names == {"calls", "off time over", "contact R to Y", "contact R to O/B", "contact R to G"}


def test_a_contact_with_one_letter_for_a_name_is_told_by_its_screws() -> None:
    run = tall_run(LIFEBOAT)
    names = {row.words for row in chart_of(run, *DEMOS[LIFEBOAT]).rows if row.part == "dc"}
    assert names == {"calls", "contact D1 to D2"}


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_band_that_is_nearly_as_high_as_a_sheet_that_lies_is_not_cut(paper: str) -> None:
    name = "mill-house-two-zones:as-left"
    changes = read_changes(("0:ta=heat-1", "60:tb=heat-1", "600:ta=idle", "900:tb=idle"), *DEMOS[name], Situation())
    run = run_sequence(demo_circuit(name), changes, 3600)
    bands = plan_timing(chart_of(run, *DEMOS[name])).bands
    sheets = packet([(timing_drawing(run, *DEMOS[name]), WORDS)], Wanted(PAPERS[paper])).sheets
    assert sum(sheet.svg.count('class="axis"') for sheet in sheets) == len(bands)


def test_large_paper_holds_more_rows_between_its_times() -> None:
    name = "post-office-dual-fuel:as-left"
    said = ("0:tc=heat-1", "300:outdoor=-12", "600:tc=heat-1+aux-heat", "1200:tc=cool-2", "1800:tc=idle")
    run = run_sequence(demo_circuit(name), read_changes(said, *DEMOS[name], Situation()), 3600)
    for everything, fits in ((True, {"letter": TALL, "a3": TALL_ON_LARGE}), (False, {"letter": TALL, "a3": None})):
        made = chart_of(run, *DEMOS[name], everything=everything)
        drawing = timing_drawing(run, *DEMOS[name], everything=everything)
        assert max(band.box.h for band in plan_timing(made).bands) > TALL_ON_LARGE
        for paper, tallest in fits.items():
            sheets = packet([(drawing, WORDS)], Wanted(PAPERS[paper])).sheets
            assert sum(sheet.svg.count('class="axis"') for sheet in sheets) == len(plan_timing(made, tallest).bands)


def test_what_stays_on_all_along_a_band_is_named_below_it_and_takes_no_row() -> None:
    run = tall_run(LIFEBOAT)
    made = chart_of(run, *DEMOS[LIFEBOAT])
    first, second = plan_timing(made).bands
    gone = [row for place, row in enumerate(made.rows) if place in first.middles and place not in second.middles]
    # The call for dry air comes last: what heats stays on, and what runs is shown all the same.
    assert {row.words for row in gone} >= {"contact R to V", "fan relay", "contactor"}
    assert {row.section for row in gone} == {"moves"}
    named = " ".join(second.standing)
    assert named.startswith("On all along here: vc: contact R to V; ")
    assert [row.words for row in gone if row.words not in named] == []
    recorder = Recorder()
    timing_drawing(run, *DEMOS[LIFEBOAT]).put(recorder)
    words = [record.text for record in recorder.records if record.text is not None]
    below = [text.at.y for text in words if text.words in second.standing]
    assert len(below) == len(second.standing) > 0
    assert second.foot < min(below) <= max(below) <= second.box.bottom


def test_few_sheets_hold_the_table_and_no_row_of_it_stands_on_one_by_itself() -> None:
    name = "post-office-dual-fuel:as-left"
    said = ("0:tc=heat-1", "300:outdoor=-12", "600:tc=heat-1+aux-heat", "1200:tc=cool-2", "1800:tc=idle")
    run = run_sequence(demo_circuit(name), read_changes(said, *DEMOS[name], Situation()), 3600)
    words = SheetWords("Old post office: a heat pump over the furnace", "As left", "x", "", shown_words(run, "us"))
    sheets = packet([(timing_drawing(run, *DEMOS[name]), words)], Wanted(PAPERS["letter"])).sheets
    lists = [sheet.svg for sheet in sheets if 'class="events"' in sheet.svg and 'class="row"' not in sheet.svg]
    assert "Ends settled" in lists[0]
    rows = [svg.count(">fb</text>") + svg.count(">tc</text>") + svg.count(">ou</text>") for svg in lists]
    assert len(rows) == 3
    assert min(rows) > 30
