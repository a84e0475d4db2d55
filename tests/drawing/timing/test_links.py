"""A link leads from what moved something to what it moved, at the same instant, and no two links lie on each other."""

from __future__ import annotations

from collections import Counter, defaultdict
from itertools import pairwise

import pytest

from app.circuit.situation import Situation
from app.drawing.timing.chart import Chart
from app.drawing.timing.making import chart_of
from app.sequence.change_text import read_changes
from app.sequence.event import CHANGE, TIMER
from app.sequence.moments import milliseconds
from app.sequence.run import run_sequence
from tests.drawing.timing.seen import SeenChart, by_chance
from tests.sequence.playing import DEMOS, demo_circuit


def chart(name: str, *changes: str, everything: bool = False, for_s: float = 7200.0) -> Chart:
    layout, catalogue = DEMOS[name]
    read = read_changes(changes, layout, catalogue, Situation())
    run = run_sequence(demo_circuit(name), read, for_s)
    return chart_of(run, layout, catalogue, everything=everything)


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("everything", [False, True], ids=["chosen", "everything"])
def test_each_event_hangs_on_its_cause_where_that_is_shown(name: str, everything: bool) -> None:
    for circuit, changes in by_chance(name, 2):
        read = read_changes(changes, circuit.layout, circuit.catalogue, Situation())
        run = run_sequence(circuit, read, 7200)
        made = chart_of(run, circuit.layout, circuit.catalogue, everything=everything)
        rows = {edge.number: made.rows[place] for place, edge in made.edges()}
        edges = {edge.number: edge for _, edge in made.edges()}
        shown = {what for row in made.rows for what in row.what}
        for edge in edges.values():
            cause = run.events[edge.events[0]].cause if edge.events else ""
            by = None if edge.by is None else edges[edge.by]
            assert by is None or (by.number < edge.number and by.when.at_ms == edge.when.at_ms)
            assert by is None or by.when.step <= edge.when.step
            if not cause or cause.startswith(TIMER):
                assert by is None
            elif cause.startswith(CHANGE):
                assert by is not None
                assert rows[by.number].section == "done"
            elif cause in shown:
                assert by is not None
                assert cause in rows[by.number].what


@pytest.mark.parametrize("name", DEMOS)
def test_an_arrow_is_drawn_to_every_event_that_something_moved(name: str) -> None:
    for circuit, changes in by_chance(name, 2):
        seen = SeenChart(circuit, *changes)
        made = chart_of(seen.run, circuit.layout, circuit.catalogue)
        places = {(edge.x, edge.band): edge for row in seen.rows.values() for edge in row}
        drawn = Counter(
            int(r.within("data-cause") or 0) for r in seen.recorder.drawn("shape") if r.within("data-cause")
        )
        assert drawn == Counter(edge.by for _, edge in made.edges() if edge.by is not None)
        for shape in seen.recorder.drawn("shape"):
            if shape.within("data-cause"):
                assert any(x == shape.points[0].x for x, _ in places)


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("everything", [False, True], ids=["chosen", "everything"])
def test_no_two_links_lie_on_each_other(name: str, everything: bool) -> None:
    for circuit, changes in by_chance(name, 2):
        seen = SeenChart(circuit, *changes, everything=everything)
        upright: dict[int, list[tuple[int, int, str]]] = defaultdict(list)
        for record in seen.recorder.drawn("line"):
            cause = record.within("data-cause")
            for a, b in pairwise(record.points) if cause else ():
                assert a.x == b.x or a.y == b.y
                if a.x == b.x and a.y != b.y:
                    upright[a.x].append((min(a.y, b.y), max(a.y, b.y), cause or ""))
        for pieces in upright.values():
            for top, bottom, cause in pieces:
                for other_top, other_bottom, other in pieces:
                    assert cause == other or min(bottom, other_bottom) <= max(top, other_top)


def test_a_source_is_moved_by_its_own_supply() -> None:
    made = chart("chapel-two-supplies:as-left", "0:tc=cool-1", "60:mains=off")
    rows = {edge.number: made.rows[place] for place, edge in made.edges()}
    moved = {(rows[edge.number].what[0], rows[edge.by].what[0]) for _, edge in made.edges() if edge.by}
    assert {pair for pair in moved if pair[0].endswith("secondary")} == {
        ("element:xc.secondary", "supply:outdoor"),
        ("element:xh.secondary", "supply:furnace"),
    }


def test_what_a_state_works_is_one_line_with_it() -> None:
    made = chart("bell-loft-heat-only:as-left", "0:tc=heat-1", "600:tc=idle")
    inducer = next(row for row in made.rows if "element:fb.inducer_relay" in row.what)
    assert inducer.what == ("element:fb.inducer_relay", "state:fb.inducer")
    milliseconds_of = [edge.when.at_ms for edge in inducer.edges]
    assert milliseconds_of == [0, milliseconds(615)]


def test_rows_stand_in_the_order_of_cause() -> None:
    made = chart("bakery-flat-heat-pump:as-left", "0:tc=cool-1")
    order = [what for row in made.rows for what in row.what]
    wanted = ["calls:tc", "element:tc.y", "element:ou.run_asked", "element:ou.contactor", "effect:ou:compressor"]
    assert [what for what in order if what in wanted] == wanted
