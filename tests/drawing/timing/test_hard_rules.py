"""No words lie on words, no line runs through words or numbers, all lies in the content; same input, same bytes."""

from __future__ import annotations

import pytest

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.drawing.timing.diagram import draw_timing
from app.job.model import Job
from app.sequence.change_text import read_changes
from app.sequence.run import run_sequence
from tests.backwards import backwards
from tests.circuit.bench import CATALOGUE, sketch
from tests.drawing.timing.seen import SeenChart, by_chance, circles_touched, lines_through_words, outside, overlapping
from tests.sequence.playing import DEMOS, demo_circuit

RULES = (overlapping, lines_through_words, outside, circles_touched)
FURNACE = "bell-loft-heat-only:as-left"
EVERY_MILLISECOND = tuple(f"{at / 1000}:tc={'heat-1' if at % 2 else 'idle'}" for at in range(40))


def broken_rules(chart: SeenChart) -> dict[str, list[str]]:
    return {rule.__name__: found for rule in RULES if (found := rule(chart))}


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("everything", [False, True], ids=["chosen", "everything"])
def test_every_demo_by_chance(name: str, everything: bool) -> None:
    for circuit, changes in by_chance(name, 2):
        assert broken_rules(SeenChart(circuit, *changes, everything=everything)) == {}, changes


@pytest.mark.parametrize(
    "changes",
    [
        (),
        ("0:tc=heat-1", "600:tc=idle"),
        ("0:fb.flame=open", "10:tc=heat-1"),
        ("0:tc=heat-1", "300:main=off", "300.05:main=on"),
        ("7199.999:tc=heat-1",),
        EVERY_MILLISECOND,
        ("999999999.001:tc=heat-1", "999999999.002:tc=idle", "999999999.003:tc=heat-1"),
    ],
    ids=["nothing", "heat", "lockout", "dip", "late", "every-millisecond", "long-times"],
)
def test_a_furnace(changes: tuple[str, ...]) -> None:
    assert broken_rules(SeenChart(demo_circuit(FURNACE), *changes, for_s=1e9)) == {}


def test_however_close_events_are_what_was_done_is_written_in_between() -> None:
    words = SeenChart(demo_circuit(FURNACE), *EVERY_MILLISECOND).words().split("\n")
    assert words.count("1 ms") == len(EVERY_MILLISECOND) - 1
    # On the line, and in the table; how it stood at the beginning is one more.
    assert words.count("idle") >= 1 + len(EVERY_MILLISECOND)


def test_a_relay_that_chatters() -> None:
    layout = sketch(
        {"s": "supply", "h": {"kind": "hand-switch", "settings": {}}, "k": "relay"},
        *("s.R h.A", "h.B k.COM", "k.NC k.A", "k.B s.C"),
    )
    chart = SeenChart(build_circuit(layout, CATALOGUE), "5:h.hand=open", "10:h.hand=closed", "20:main=off")
    assert broken_rules(chart) == {}
    assert "chatters" in {mark.name for mark in chart.drawing.marks}


def test_the_same_layout_in_any_order_of_keys_gives_the_same_bytes() -> None:
    layout, catalogue = DEMOS["bakery-flat-heat-pump:as-left"]
    turned = layout.model_copy(
        update={name: backwards(getattr(layout, name)) for name in ("parts", "cables", "conductors")}
    )
    drawn = []
    for each in (layout, turned, layout):
        changes = read_changes(["0:tc=heat-1", "600:mains=off", "601:mains=on"], each, catalogue, Situation())
        run = run_sequence(build_circuit(each, catalogue), changes, 3600)
        job = Job(title="Flat", layouts={"as-left": each})
        drawn.append(draw_timing(job, "as-left", catalogue, run, dated="2031-05-06"))
    assert drawn[0] == drawn[1] == drawn[2]


def test_nothing_means_anything_by_colour() -> None:
    layout, catalogue = DEMOS[FURNACE]
    run = run_sequence(demo_circuit(FURNACE), read_changes(["0:tc=heat-1"], layout, catalogue, Situation()))
    drawn = draw_timing(Job(title="Loft", layouts={"as-left": layout}), "as-left", catalogue, run)
    assert {part.split('"')[0] for part in drawn.split('stroke="')[1:]} == {"currentColor"}
    assert {part.split('"')[0] for part in drawn.split('fill="')[1:]} == {"currentColor", "none"}
    assert "style=" not in drawn
