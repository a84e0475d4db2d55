"""The edges on a chart are the events of its run, no more and no less, at their times and as high as they say."""

from __future__ import annotations

from collections import defaultdict

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.job.model import Layout
from app.sequence.moments import milliseconds
from app.sequence.telling import subject_words
from tests.circuit.bench import CATALOGUE, sketch
from tests.circuit.random_layouts import layouts, relay_ladders
from tests.drawing.timing.seen import SeenChart, by_chance, level_in_words
from tests.sequence.playing import DEMOS, demo_circuit, script

OUTSIDE = ("calls:", "set:", "supply:", "percent:", "outdoor:", "fault:")


def edges_are_the_events(chart: SeenChart, *, everything: bool) -> None:
    """Hold what was drawn against the run; what has no line is said by name."""
    told: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for event in chart.run.events:
        before = told[event.what][-1][1] if told[event.what] else ""
        told[event.what].append((milliseconds(event.at_s), level_in_words(event.now, before)))
    drawn = {what: edges for what, edges in chart.subjects().items() if not what.startswith(OUTSIDE)}
    for what, edges in drawn.items():
        assert [edge.at_ms for edge in edges] == [at_ms for at_ms, _ in told[what]], what
        assert all(edge.level == level for edge, (_, level) in zip(edges, told[what], strict=True) if level), what
    assert drawn.keys() <= told.keys()
    if everything:
        assert drawn.keys() == told.keys()
    words = " ".join(chart.words().split("\n"))
    for what in told.keys() - drawn.keys():
        assert subject_words(what, chart.run.moments[0].circuit)[1] in words, what


def numbers_follow_time(chart: SeenChart) -> None:
    """Numbers run through in the order of time, and the axis never runs back."""
    edges = sorted((edge for row in chart.rows.values() for edge in row), key=lambda edge: edge.number)
    assert [edge.number for edge in edges] == list(range(1, len(edges) + 1))
    assert [edge.at_ms for edge in edges] == sorted(edge.at_ms for edge in edges)
    for edge in edges:
        for other in edges:
            if edge.band == other.band and edge.at_ms < other.at_ms:
                assert edge.x < other.x, (edge, other)
            assert edge.at_ms <= other.at_ms or edge.band >= other.band
    for row in chart.rows.values():
        places = [(edge.band, edge.x) for edge in row]
        assert places == sorted(set(places))


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("everything", [False, True], ids=["chosen", "everything"])
def test_every_demo_by_chance(name: str, everything: bool) -> None:
    for circuit, changes in by_chance(name, 2):
        chart = SeenChart(circuit, *changes, everything=everything)
        edges_are_the_events(chart, everything=everything)
        numbers_follow_time(chart)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts(), st.randoms(use_true_random=False))
def test_layouts_of_simple_kinds(layout: Layout, chance: object) -> None:
    changes = script(chance, layout, CATALOGUE)  # type: ignore[arg-type]
    for everything in (False, True):
        chart = SeenChart(build_circuit(layout, CATALOGUE), *changes, everything=everything)
        edges_are_the_events(chart, everything=everything)
        numbers_follow_time(chart)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(relay_ladders(), st.sampled_from(["main=off", "supply=60"]))
def test_ladders_that_race_and_chatter(ladder: tuple[Layout, Situation], said: str) -> None:
    layout, start = ladder
    sets = [f"0:{name}={value}" for name, value in start.set.items()]
    chart = SeenChart(
        build_circuit(layout, CATALOGUE), *sets, f"1:{said}", "2:main=on", "3:supply=100", everything=True
    )
    edges_are_the_events(chart, everything=True)
    numbers_follow_time(chart)


def test_what_was_done_has_a_line_with_every_change() -> None:
    circuit = demo_circuit("bakery-flat-heat-pump:as-left")
    changes = (
        "0:outdoor=-2",
        "60:tc=heat-1",
        "61:mains=off",
        "62:mains=on",
        "70:fault=conductor-open:conductor:w1",
        "90:tc=idle",
    )
    chart = SeenChart(circuit, *changes)

    done = {what: [edge.at_ms for edge in row] for what, row in chart.rows.items() if what.startswith(OUTSIDE)}

    assert done["outdoor:"] == [0]
    assert done["calls:tc"] == [60_000, 90_000]
    assert done["fault:conductor-open:conductor:w1"] == [70_000]
    supplies = [what for what in done if what.startswith("supply:")]
    assert supplies
    assert all(done[what] == [61_000, 62_000] for what in supplies)


def test_a_relay_that_interrupts_itself_is_drawn_step_by_step_and_then_hatched() -> None:
    layout = sketch(
        {"s": "supply", "h": {"kind": "hand-switch", "settings": {}}, "k": "relay"},
        *("s.R h.A", "h.B k.COM", "k.NC k.A", "k.B s.C"),
    )
    chart = SeenChart(build_circuit(layout, CATALOGUE), "5:h.hand=open", "10:h.hand=closed", "20:main=off")

    coil = chart.rows["element:k.coil"]

    assert [(edge.at_ms, edge.level) for edge in coil] == [
        (5_000, "off"),
        (10_000, "on"),
        (10_000, "chatters"),
        (20_000, "off"),
    ]


def test_a_run_of_very_many_instants_says_where_its_chart_ends() -> None:
    changes = [f"{at}:outdoor={at % 7}" for at in range(400)]
    chart = SeenChart(demo_circuit("bell-loft-heat-only:as-left"), *changes, "350:tc=heat-1")

    assert len(chart.rows["outdoor:"]) == 160
    assert "later events not drawn" in chart.words()
    assert "goes on" in chart.words()


def test_what_runs_goes_on_in_every_band_and_a_line_that_is_off_is_left_out() -> None:
    chart = SeenChart(demo_circuit("bell-loft-heat-only:as-left"), "0:tc=heat-1", "10:fb.flame=open", for_s=9000)
    bands = {
        record.attributes["data-band"] for record in chart.recorder.drawn("begin") if "data-band" in record.attributes
    }

    there = {
        (record.attributes["data-row"].split(" ")[0], record.within("data-band"))
        for record in chart.recorder.drawn("begin")
        if "data-row" in record.attributes
    }

    assert len(bands) > 2
    assert all(("calls:tc", band) in there for band in bands)
    # The thermostat calls all the time, so that its contact has a row only where it closes.
    assert {band for what, band in there if what == "element:tc.w"} == {"0"}
    assert chart.words().count("On all along here: tc: contact R to W") == len(bands) - 1
    assert ("state:fb.locked_out", "0") not in there
    assert "is left out there" in chart.words()
