"""Since when a timer has run, as the settings of a furnace say it: 5 s draft, 15 s purge, 20 s warm-up, 5 s trial, 2 s
flame, 30 s and 90 s blower, 15 s post-purge, 60 s between tries, one hour of lockout.
"""

from __future__ import annotations

from app.sequence.moments import milliseconds
from tests.drawing.timing.test_links import chart

FURNACE = "bell-loft-heat-only:as-left"


def delays(*changes: str) -> set[tuple[str, float, float]]:
    """Return (subject, since, until) of every timer that is known to have run, in seconds."""
    made = chart(FURNACE, *changes, for_s=9000)
    return {
        (row.what[0].partition(":")[2], edge.since_ms / 1000, edge.when.at_ms / 1000)
        for row in made.rows
        for edge in row.edges
        if edge.since_ms is not None
    }


def test_a_heating_call() -> None:
    assert delays("0:tc=heat-1", "600:tc=idle") >= {
        ("fb.draft", 0, 5),
        ("fb.purged", 5, 20),
        ("fb.gas_valve", 20, 40),
        ("fb.trial", 40, 45),
        ("fb:indoor-fan", 42, 72),
        ("fb.post_purge", 600, 615),
        ("fb:indoor-fan", 600, 690),
    }


def test_a_lockout() -> None:
    found = delays("0:fb.flame=open", "10:tc=heat-1")
    assert ("fb.resting", 55, 115) in found
    assert ("fb.locked_out", 255, 255 + 3600) in found


def test_what_moves_without_a_timer_has_no_delay() -> None:
    made = chart(FURNACE, "0:tc=heat-1", "600:tc=idle")
    assert all(edge.since_ms is None for row in made.rows if row.section == "done" for edge in row.edges)
    heat_call = next(row for row in made.rows if row.what == ("element:fb.heat_call",))
    assert [(edge.when.at_ms, edge.since_ms) for edge in heat_call.edges] == [(0, None), (milliseconds(600), None)]
