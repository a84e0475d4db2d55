"""What each timer means, against its sentence: a signal by chance, and what the sentence says of it at each instant."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.catalogue.kind import Kind
from app.circuit.network import build_circuit
from app.job.sketch import sketch
from tests.circuit.bench import CATALOGUE
from tests.sequence.playing import play, times_of

Signal = list[tuple[int, bool]]
"""When a signal becomes true or false, in seconds; it is false before the first."""
LATEST_S = 120

TIMED = Kind.model_validate(
    {
        "title": "Timers",
        "summary": "One state for each timer, over a switch x and a switch r.",
        "terminals": {"A": {"function": "dry", "use": "contact"}, "B": {"function": "dry", "use": "contact"}},
        "settings": {"delay": {"default": 7, "choices": [7]}},
        "switches": {"x": {"rest": "open"}, "r": {"rest": "open"}},
        "elements": {"c": {"is": "contact", "between": ["A", "B"], "by": "late"}},
        "states": {
            "late": "after(x, delay s)",
            "held": "hold(x, 7 s)",
            "spaced": "apart(x, 20 s)",
            "short": "up_to(x, 7 s)",
            "full": "summed(x, 15 s, r)",
            "often": "times(x, 3, r)",
            "latched": "latch(x, r)",
            "at_once": "after(x, 0 s)",
            "late_then_held": "hold(after(x, 7 s), 4 s)",
        },
    }
)


def holds_at(signal: Signal, at_s: float) -> bool:
    """Return whether a signal holds at a time, the instant of a change belonging to what comes."""
    return [False, *(now for at, now in signal if at <= at_s)][-1]


def stretches(signal: Signal) -> list[tuple[int, int]]:
    """Return (begin, end) of each time for which a signal holds."""
    found = []
    for (at, now), (end, _) in pairwise([*signal, (10_000, False)]):
        if now:
            found.append((at, end))
    return found


def late(x: Signal, r: Signal, t: int) -> bool:
    return any(begin + 7 <= t < end for begin, end in stretches(x))


def held(x: Signal, r: Signal, t: int) -> bool:
    return any(begin <= t < end + 7 for begin, end in stretches(x))


def short(x: Signal, r: Signal, t: int) -> bool:
    return any(begin <= t < min(end, begin + 7) for begin, end in stretches(x))


def spaced(x: Signal, r: Signal, t: int) -> bool:
    free_from = 0
    for begin, end in stretches(x):
        start = max(begin, free_from)
        if start < end:
            if start <= t < end:
                return True
            free_from = end + 20
    return False


def full(x: Signal, r: Signal, t: int) -> bool:
    total = 0
    for second in range(t):
        total = 0 if holds_at(r, second) else total + holds_at(x, second)
    return total >= 15 and not holds_at(r, t)


def often(x: Signal, r: Signal, t: int) -> bool:
    ends = 0
    for second in range(1, t + 1):
        ended = holds_at(x, second - 1) and not holds_at(x, second)
        ends = 0 if holds_at(r, second) else ends + ended
    return ends >= 3


def latched(x: Signal, r: Signal, t: int) -> bool:
    said = False
    for second in range(t + 1):
        said = not holds_at(r, second) and (said or holds_at(x, second))
    return said


def at_once(x: Signal, r: Signal, t: int) -> bool:
    return holds_at(x, t)


def late_then_held(x: Signal, r: Signal, t: int) -> bool:
    return any(begin + 7 <= t < end + 4 for begin, end in stretches(x) if begin + 7 < end)


SENTENCES: dict[str, Callable[[Signal, Signal, int], bool]] = {
    each.__name__: each for each in (late, held, spaced, short, full, often, latched, at_once, late_then_held)
}


@st.composite
def signals(draw: st.DrawFn) -> Signal:
    times = sorted(draw(st.sets(st.integers(1, LATEST_S - 30), max_size=8)))
    return [(at, number % 2 == 0) for number, at in enumerate(times)]


@settings(max_examples=25, deadline=None)
@given(signals(), signals())
def test_each_timer_does_what_its_sentence_says(x: Signal, r: Signal) -> None:
    circuit = build_circuit(sketch({"p": "timed"}), CATALOGUE.with_kinds({"timed": TIMED}))
    changes = [
        f"{at}:p.{name}={'closed' if now else 'open'}" for name, signal in (("x", x), ("r", r)) for at, now in signal
    ]
    run = play(circuit, *changes, for_s=LATEST_S)
    for state, sentence in SENTENCES.items():
        told = [(0.0, "off"), *times_of(run, f"state:p.{state}")]
        for second in range(LATEST_S):
            now = [word for at, word in told if at <= second][-1]
            assert (now == "on") is sentence(x, r, second), (state, second)


def test_what_lasts_for_no_time_starts_no_delay() -> None:
    circuit = build_circuit(sketch({"p": "timed"}), CATALOGUE.with_kinds({"timed": TIMED}))
    run = play(circuit, "5:p.x=closed", "5:p.x=open")
    assert run.events == ()
    assert run.ends == "settled"


def test_of_two_changes_of_one_instant_the_later_holds() -> None:
    circuit = build_circuit(sketch({"p": "timed"}), CATALOGUE.with_kinds({"timed": TIMED}))
    run = play(circuit, "5:p.x=open", "5:p.x=closed")
    assert (5.0, "on") in times_of(run, "state:p.held")


@pytest.mark.parametrize("seconds", [0.25, 0.001], ids=["a quarter", "a thousandth"])
def test_time_is_kept_to_the_millisecond(seconds: float) -> None:
    circuit = build_circuit(sketch({"p": "timed"}), CATALOGUE.with_kinds({"timed": TIMED}))
    run = play(circuit, f"{seconds}:p.x=closed")
    assert times_of(run, "state:p.late") == [(7 + seconds, "on")]
