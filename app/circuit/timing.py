"""States in time: what each timer answers at an instant, given what it asks about and how far it has run.

Rules of the file: nothing here knows what time it is. How far a timer has run is told to it as a *phase*, which stays
the same throughout an instant; what a timer has seen in an earlier pass of the same instant is its *memory*. The
clocks that phases come from are kept in ``app.sequence``, where also stands what an instant is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from app.catalogue.terms import Both, Compared, Constant, Counted, Either, Latched, Named, Not, Timed, Tree, Value
from app.circuit.running import running

Phases = tuple[int, ...]
"""How far each timer of a kind has run, by its number; see ``RIPE`` and its like."""

FRESH = 0
"""Nothing has run out: ``after`` and ``summed`` are not there yet, ``hold`` holds nothing, ``apart`` keeps nothing off,
``up_to`` may last on, ``times`` lacks more than one end."""
RIPE = 1
"""``after`` and ``summed`` have run their time, ``hold`` still holds, ``apart`` still keeps off, ``up_to`` has lasted
long enough; for ``times`` the next end is the last that it waits for."""
REACHED = 2
"""``times`` has counted enough, and ``apart`` keeps nothing off, ever."""

OFF, ON, ENDED = 0, 1, 2
"""Memory of ``apart``: off, on, or ended in this very instant."""


@dataclass(frozen=True, slots=True)
class Timer:
    """What remembers something within a state. ``amount`` is in seconds, or how often; a name is that of a setting."""

    number: int
    state: str
    function: str
    amount: float | str


class Watch:
    """One pass over the states of a part: phases and memory before, and what comes of it.

    ``asks`` gives for each timer whether its inner term holds (and, for a sum, is counted), ``after`` its memory.
    """

    __slots__ = ("after", "asks", "before", "phases")

    def __init__(self, phases: Phases, before: Sequence[int]) -> None:
        self.phases = phases
        self.before = before
        self.after = list(before)
        self.asks = [False] * len(phases)

    def answer(self, timer: Timer, inner: bool, other: bool) -> bool:
        """Return what a timer answers; ``other`` is what resets it, for those that can be reset."""
        at = timer.number
        self.asks[at] = inner and not (other and timer.function == "summed")
        said, self.after[at] = _answer(timer.function, self.phases[at], self.before[at], inner, other)
        return said


Known = Mapping[str, Value]
RunningInTime = Callable[[Known, Watch], bool]


def in_time(tree: Tree, state: str, timers: list[Timer]) -> RunningInTime:
    """Return a function that tells whether a term holds in time; its timers are added to ``timers``.

    Both sides of *and* and *or* are always worked out: a timer sees each pass.
    """
    match tree:
        case Constant() | Named() | Compared():
            at_once = running(tree)
            return lambda known, _: at_once(known)
        case Not(inner):
            within = in_time(inner, state, timers)
            return lambda known, watch: not within(known, watch)
        case Both(left, right):
            first, second = in_time(left, state, timers), in_time(right, state, timers)
            return lambda known, watch: first(known, watch) & second(known, watch)
        case Either(left, right):
            first, second = in_time(left, state, timers), in_time(right, state, timers)
            return lambda known, watch: first(known, watch) | second(known, watch)
        case Timed(function, inner, seconds):
            return _timer(function, seconds, inner, Constant(False), state, timers)
        case Counted(function, inner, amount, reset_by):
            return _timer(function, amount, inner, reset_by, state, timers)
        case Latched(set_by, reset_by):
            return _timer("latch", 0.0, set_by, reset_by, state, timers)


def _timer(
    function: str, amount: float | str, inner: Tree, other: Tree, state: str, timers: list[Timer]
) -> RunningInTime:
    within, reset = in_time(inner, state, timers), in_time(other, state, timers)
    timer = Timer(len(timers), state, function, amount)
    timers.append(timer)
    return lambda known, watch: watch.answer(timer, within(known, watch), reset(known, watch))


def _answer(function: str, phase: int, memory: int, inner: bool, reset: bool) -> tuple[bool, int]:
    """Return (what a timer answers, its memory after)."""
    match function:
        case "after":
            return inner and phase == RIPE, OFF
        case "hold":
            return inner or phase == RIPE, OFF
        case "up_to":
            return inner and phase != RIPE, OFF
        case "latch":
            said = not reset and (inner or memory == ON)
            return said, ON if said else OFF
        case "apart":
            said = inner and (memory == ON or phase == REACHED or (memory == OFF and phase != RIPE))
            return said, ON if said else (OFF if memory == OFF else ENDED)
        case "summed":
            cleared = reset or memory == ON
            return phase == RIPE and not cleared, ON if cleared else OFF
        case _:
            cleared = reset or memory == ON
            reached = phase == REACHED or (phase == RIPE and not inner)
            return reached and not cleared, ON if cleared else OFF
